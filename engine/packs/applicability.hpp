// Which questions make sense: a fact with an `only_if` that fails does not apply (the shape of exit
// holes where there are none).
#pragma once

#include <vector>

#include "packs/rule_set.hpp"
#include "reason/value.hpp"

namespace ashtriage::packs {

// The observation with every unknown fact that cannot apply marked as not applicable. Facts with a
// value keep it. A fact whose `only_if` is undecided stays unknown. One value per fact of the
// model.
reason::Observation with_applicability(const RuleSet& rule_set, reason::Observation observation);

// The facts that have a value although they cannot apply: one of the two entries must be wrong.
std::vector<reason::FactIndex> contradictions(const RuleSet& rule_set,
                                              const reason::Observation& observation);

}  // namespace ashtriage::packs
