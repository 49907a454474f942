// Reading rules/records.yaml.
#pragma once

#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "treat/record_policy.hpp"

namespace ashtriage::treat {

// The record policies among the rule files, from the file records.yaml. `sources` are those it may
// name, as packs::read_sources gives them.
// Throws packs::BadFile with every problem: a field or source that does not exist, no policy
// `strictest` or one that another goes beyond, a policy after 7 CFR Part 110, which has been
// rescinded (90 FR 20083, effective 11 July 2025). Throws InputError when the file is missing.
RecordPolicies read_record_policies(const std::vector<packs::RuleFile>& files,
                                    const std::vector<packs::Source>& sources);

}  // namespace ashtriage::treat
