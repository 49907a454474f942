// What a check of the rules found, for people and for other programs.
#pragma once

#include <string>

#include "packs/check_rules.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

// A few lines for each table, findings in capitals first; what another preset finds only where it
// differs. `list_overlaps`: also the pairs of rules that the hit policy settles, with an example
// each.
std::string check_text(const packs::RuleCheck& check, bool list_overlaps);

// A row for each finding: preset, table, kind, rules, and what there is to say.
std::string check_csv(const packs::RuleCheck& check);

Json check_json(const packs::RuleCheck& check);

}  // namespace ashtriage::present
