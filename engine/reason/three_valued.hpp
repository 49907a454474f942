// Evaluation in Kleene's three-valued logic: fast, and never wrong about what it rules out, but not
// exact: it may leave open what a closer look decides. The engine splits cases until it is.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "reason/decision.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

Truth negated(Truth truth);

// A superset of the outcomes possible: for collect tables `possible` is a superset and `certain` a
// subset of the exact answer.
struct TableEstimate {
    Outcomes outcomes;    // single-hit tables
    Collected collected;  // collect tables
};

// The estimates of all tables that `table` rests on, itself included, evaluated in `order`; entries
// of other tables are left empty. One entry per table of the model.
using Estimates = std::vector<TableEstimate>;
Estimates estimate(const Model& model, const std::vector<TableIndex>& order,
                   const Observation& observation);

// Whether the question of this fact makes sense, by the model's condition for it.
Truth applies(FactIndex fact, const Model& model, const Observation& observation);

Truth evaluate(const Condition& condition, const Model& model, const Observation& observation,
               const Estimates& estimates);

}  // namespace ashtriage::reason
