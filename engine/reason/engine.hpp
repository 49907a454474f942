// The reasoning: a model, compiled once, that answers any number of observations.
//
// Everything here is exact about uncertainty: an outcome is reported as possible if and only if
// some way of filling in the unknown facts leads to it.
#pragma once

#include <vector>

#include "reason/cells.hpp"
#include "reason/decision.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

class Engine {
 public:
    // Throws std::invalid_argument when the model is malformed: an index or level out of range, a
    // table that names no outcome, tables in a cycle.
    explicit Engine(Model model);

    const Model& model() const { return model_; }

    // An observation in which nothing is known yet.
    Observation nothing_known() const { return Observation(model_.facts.size()); }

    // Single-hit tables only. An observation has one value per fact of the model.
    Outcomes decide(TableIndex table, const Observation& observation) const;

    // Collect tables only.
    Collected collect(TableIndex table, const Observation& observation) const;

    // Every rule of the table in the order of the file: held, did not, or undecided, with each
    // condition's own verdict. Valid as long as the engine lives.
    std::vector<RuleTrace> explain(TableIndex table, const Observation& observation) const;

    // Single-hit tables only.
    Firmness firmness(TableIndex table, const Observation& observation) const;

    // For each other outcome that one changed fact can bring about, the nearest such change;
    // nearest first. Empty unless the table is decided. Single-hit tables only.
    std::vector<Change> nearest_changes(TableIndex table, const Observation& observation) const;

    // The facts, unknown or known only within a range, of which some value would narrow what is
    // possible: these are worth finding out. Empty when the table is decided. Any table.
    std::vector<FactIndex> worth_asking(TableIndex table, const Observation& observation) const;

    // A quick superset of worth_asking: the facts that a still undecided condition of a still
    // undecided rule tests. What is not among them cannot matter. Any table.
    std::vector<FactIndex> still_open(TableIndex table, const Observation& observation) const;

 private:
    // The same as decide() when it is known beforehand that nothing outside `bound` is possible:
    // the looking ends as soon as all of it has been found.
    Outcomes decide_within(TableIndex table, const Observation& observation,
                           const Outcomes& bound) const;

    Model model_;
    std::vector<std::vector<TableIndex>> orders_;  // by table: it and all it rests on, in order
    std::vector<std::vector<FactIndex>> behind_;   // by table: the facts its answer rests on
    std::vector<std::vector<Value>> cells_;        // by fact: stretches no condition tells apart
};

}  // namespace ashtriage::reason
