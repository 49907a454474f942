// Which questions are worth most for the trouble of answering them.
#pragma once

#include <vector>

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"

namespace ashtriage::triage {

// The facts that can still change what the table comes to, the one most worth finding out first;
// the trouble it takes is the effort that the rule set gives.
std::vector<reason::FactIndex> best_questions(const packs::RuleSet& rules,
                                              const reason::Engine& engine,
                                              reason::TableIndex table,
                                              const reason::Observation& values);

}  // namespace ashtriage::triage
