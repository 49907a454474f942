// A tree judged by any rule set, in every way that there is, and the answers held against each
// other.
#pragma once

#include <cstdint>

#include "packs/rule_set.hpp"

namespace ashtriage::fuzz {

// Throws std::logic_error when the answers for the tree of that number contradict each other.
void judge_a_tree(const packs::RuleSet& rules, std::uint64_t number);

}  // namespace ashtriage::fuzz
