// The slow path: answers by splitting cases, for tables whose diagram would be too large. It needs
// no diagram and little memory, and comes to the same answers; where that would take too many cases
// it says so (`exact`), and leaves possible what it has not ruled out.
#pragma once

#include <vector>

#include "reason/branches.hpp"
#include "reason/decision.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

// `order` holds the table and every table it rests on, in evaluation order.
Outcomes decide_by_cases(const Model& model, const std::vector<TableIndex>& order,
                         const std::vector<Branches>& branches, TableIndex table,
                         const Observation& observation);
Collected collect_by_cases(const Model& model, const std::vector<TableIndex>& order,
                           const std::vector<Branches>& branches, TableIndex table,
                           const Observation& observation);

// The facts that a still undecided condition of a still undecided rule tests: every fact that can
// matter is among them, and perhaps some that cannot.
std::vector<FactIndex> facts_left_open(const Model& model, const std::vector<TableIndex>& order,
                                       TableIndex table, const Observation& observation);

}  // namespace ashtriage::reason
