// The rules behind an answer, put into words with the rule set's texts.
#pragma once

#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"
#include "triage/recommendation.hpp"

namespace ashtriage::triage {

// One rule of a table as a reason.
Reason reason_of(const packs::RuleSet& rules, const reason::Engine& engine,
                 const reason::Observation& values, reason::TableIndex table,
                 const reason::RuleTrace& trace);

// The rules that decided a table, in the order of the file: those that hold, or, where it is
// decided although no single rule is known to hold, those that may hold and give its outcome. Empty
// for a table that is not decided.
std::vector<reason::RuleTrace> deciding_rules(const packs::RuleSet& rules,
                                              const reason::Engine& engine,
                                              const reason::Observation& values,
                                              reason::TableIndex table);

// The rules that decided a table, then those that decided the tables it rests on, each once. Empty
// for a table that is not decided.
std::vector<Reason> deciding_reasons(const packs::RuleSet& rules, const reason::Engine& engine,
                                     const reason::Observation& values, reason::TableIndex table);

// The rules that hold and do not decide, since the hit policy takes another. Empty for a table that
// is not decided.
std::vector<Reason> outranked_reasons(const packs::RuleSet& rules, const reason::Engine& engine,
                                      const reason::Observation& values, reason::TableIndex table);

// The rules for other outcomes than the table's own that came near: those that a single comparison
// kept from holding, and those that hang on what is not known. Only the comparisons that were not
// met, or are not known to be, are kept.
std::vector<Reason> near_misses(const packs::RuleSet& rules, const reason::Engine& engine,
                                const reason::Observation& values, reason::TableIndex table);

}  // namespace ashtriage::triage
