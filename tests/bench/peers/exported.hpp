// A table and trees as JSON, in the forms that the other libraries read.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::peers {

// For json-rules-engine: the rules of the table, in their order, each with its `conditions` and an
// event whose type is the outcome. The table must have the hit policy first and rest on facts only.
nlohmann::json rules_engine_rules(const reason::Model& model, const reason::Table& table);

// For json-logic: one chain of ifs that comes to the outcome. Likewise.
nlohmann::json logic(const reason::Model& model, const reason::Table& table);

// Numbers as numbers, levels by name.
nlohmann::json tree_json(const reason::Model& model, const reason::Observation& tree);

}  // namespace ashtriage::peers
