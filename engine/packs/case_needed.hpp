// What a case would have to say to bring something about, with values to give where they can be
// read off the condition.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "reason/condition.hpp"

namespace ashtriage::packs {

// "a case that gives {canopy_loss: 50.1}", "a case in which evidence comes out as definite", "a
// case that makes this hold: ..." where no simple example is found. Values stand at the edges that
// thresholds make, where a case tells most.
std::string case_needed(const reason::Condition& condition, bool to_be_met,
                        const RuleSet& rule_set);

}  // namespace ashtriage::packs
