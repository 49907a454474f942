// Every fact of a rule set: what is asked, what can be answered, and what goes with it.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

// Group by group, each fact with its question, help and values; 80 characters wide.
std::string facts_text(const packs::RuleSet& rules);

// One row a fact. Levels with their help stand in one field, "none: No splits.; few: One or two.".
std::string facts_csv(const packs::RuleSet& rules);

// [{"fact", "kind", "group", "ask", "help", "expects", "unit", "lowest", "highest", "eye_error",
// "levels": [{"level", "help"}], "effort", "safety", "worked_out", "worked_out_from",
// "may_not_apply", "changeable", "only_if", "sources"}]; null where a fact of its kind has no such
// thing, or it applies always.
Json facts_json(const packs::RuleSet& rules);

}  // namespace ashtriage::present
