// Rule tables as JSON, for other programs.
#pragma once

#include "present/recommendation_json.hpp"
#include "present/rule_tables.hpp"

namespace ashtriage::present {

// {"preset", "editions", "hash", "tables": [{"table", "file", "about", "gives", "fed_by", "feeds",
// "hit_policy", "how_it_answers", "claims", "exceptions", "rules": [{"rule", "when": {"text",
// "parts": [...]}, "gives", "because", "client", "todo", "who", "sources"}]}], "settings":
// [{"setting", "value", "about", "sources"}], "sources": [{"source", "citation", "evidence"}]}
Json rule_tables_json(const RuleTables& shown);

}  // namespace ashtriage::present
