// What is still worth asking about a tree, as questions to a person.
#pragma once

#include <vector>

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"
#include "triage/recommendation.hpp"

namespace ashtriage::triage {

// The facts to ask for in place of those that are worked out from others: those of them that are
// not known yet. Each once, in the order given.
std::vector<reason::FactIndex> to_ask_for(const packs::RuleSet& rules,
                                          const reason::Observation& values,
                                          const std::vector<reason::FactIndex>& facts);

// What a person would have to find out to settle the table, the most worth finding out first.
std::vector<reason::FactIndex> facts_worth_asking(const packs::RuleSet& rules,
                                                  const reason::Engine& engine,
                                                  reason::TableIndex table,
                                                  const reason::Observation& values);

std::vector<OpenQuestion> questions_about(const packs::RuleSet& rules,
                                          const reason::Observation& values,
                                          const std::vector<reason::FactIndex>& facts);

}  // namespace ashtriage::triage
