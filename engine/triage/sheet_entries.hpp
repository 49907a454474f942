// What the two kinds of sheet have in common: taking one entry as a person writes it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "observe/records.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::triage {

// The fact's name and value as a finding. Throws measure::InputError when the rule set has no such
// fact (with the nearest name), when the fact is one that is worked out from the stems, or when it
// cannot have that value.
observe::Finding finding_of(const packs::RuleSet& rules, std::string_view fact,
                            std::string_view value);

// Decimal degrees as written; throws measure::InputError when they are not within -limit and limit.
double parse_degrees(std::string_view text, double limit);

}  // namespace ashtriage::triage
