// Reading rules/day_rules.yaml.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "plan/day_rules.hpp"

namespace ashtriage::plan {

// The rules of the file day_rules.yaml, in its order. Throws packs::BadFile with every problem: an
// answer that is none, limits that are turned round, a method that is not one or that two kinds
// claim, one of `methods` that none does, a source that is not there. Throws InputError when the
// file is missing.
std::vector<DayRules> read_day_rules(const std::vector<packs::RuleFile>& files,
                                     const std::vector<packs::Source>& sources,
                                     const std::vector<std::string>& methods);

}  // namespace ashtriage::plan
