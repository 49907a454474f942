// Kinds of trees in words: the regions that a check or a comparison of rules finds.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "reason/value.hpp"

namespace ashtriage::present {

// "canopy loss is over 50 % and structure is sound or minor defect"; "whatever is seen" when
// nothing is restricted.
std::string region_words(const packs::RuleSet& rules, const reason::Observation& region);

// "canopy loss 60 %, structure sound, whatever else is seen".
std::string example_words(const packs::RuleSet& rules, const reason::Observation& example);

}  // namespace ashtriage::present
