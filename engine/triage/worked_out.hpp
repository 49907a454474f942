// Facts that follow from others. Each is worked out only when nobody entered it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "reason/value.hpp"

namespace ashtriage::triage {

// Fills in canopy_loss, shell_per_6_inches, target_distance_in_heights and line_distance_in_heights
// where the rule set has them, they are unknown, and what they follow from is known; a distance
// that does not apply is no number of heights either. Returns notes on how that was done.
std::vector<std::string> work_out(const packs::RuleSet& rules, reason::Observation& values);

}  // namespace ashtriage::triage
