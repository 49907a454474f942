// Reading rules/method_facts.yaml.
#pragma once

#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "plan/method_facts.hpp"
#include "season/seasons.hpp"

namespace ashtriage::plan {

// The methods of the file method_facts.yaml, in its order. Throws packs::BadFile with every
// problem: a table that the rules do not have or that answers otherwise than a table of its kind, a
// method that the table `method` can give and that is missing, sizes out of order, a rate or an
// interval that falls, a source that is not there, dates in words for a method that has a season,
// or neither. Throws InputError when the file is missing.
std::vector<MethodFacts> read_method_facts(const std::vector<packs::RuleFile>& files,
                                           const packs::RuleSet& rules,
                                           const season::Seasons& seasons);

}  // namespace ashtriage::plan
