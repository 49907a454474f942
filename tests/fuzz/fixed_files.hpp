// The few rule files, of invented rules, that stand beside whatever the fuzzer makes up.
#pragma once

#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::fuzz {

// facts.yaml and sources.yaml.
std::vector<packs::RuleFile> fixed_files();

// What is read from them.
const packs::RuleSet& fixed_rules();

}  // namespace ashtriage::fuzz
