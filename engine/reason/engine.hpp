// The reasoning: a model, compiled once, that answers any number of observations.
//
// Everything here is exact about uncertainty: an outcome is reported as possible if and only if
// some way of filling in the unknown facts leads to it. Where a table is too large for a diagram
// and too much is unknown to look into every case, the answer says so and leaves out nothing
// possible.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "reason/branches.hpp"
#include "reason/decision.hpp"
#include "reason/diagram.hpp"
#include "reason/model.hpp"
#include "reason/three_valued.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

// The branch of each fact of a wholly known case.
using CutObservation = std::vector<Branch>;

// A compiled table: plain data, to be walked.
struct TableDiagrams {
    // Single-hit tables: one diagram, whose leaves are outcomes, `no_rule_leaf` or `conflict_leaf`.
    // Collect tables: one for each outcome, whose leaf 1 means that it is collected.
    std::vector<Diagram> answers;
    std::vector<Diagram> rules;  // leaf 1: the rule's condition is met
};

class Engine {
 public:
    // How many branches the diagrams of one table may take to work out before the table is left to
    // the slow path.
    static constexpr std::size_t usual_budget = std::size_t{1} << 22U;

    // Throws std::invalid_argument when the model is malformed: an index or level out of range, a
    // table that names no outcome, tables in a cycle, a fact whose applying hangs on itself.
    explicit Engine(Model model, std::size_t budget = usual_budget);

    const Model& model() const { return model_; }
    const std::vector<Branches>& branches() const { return branches_; }
    // The facts as the diagrams look at them, first to last.
    const std::vector<FactIndex>& facts_in_order() const { return facts_in_order_; }
    // The facts that the table's rules test, directly or through other tables.
    const std::vector<FactIndex>& facts_behind(TableIndex table) const { return behind_[table]; }

    // False when the table's diagrams would have gone past the budget: answers are slower then.
    bool has_diagram(TableIndex table) const { return !diagrams_[table].answers.empty(); }
    const TableDiagrams& diagrams(TableIndex table) const { return diagrams_[table]; }

    // An observation in which nothing is known yet.
    Observation nothing_known() const { return Observation(model_.facts.size()); }

    // Single-hit tables only. An observation has one value per fact of the model.
    Outcomes decide(TableIndex table, const Observation& observation) const;

    // For many wholly known cases: looked up once, decided as often as wanted. `cut` throws
    // std::invalid_argument for a fact that may fall into several cells. Only for tables that have
    // a diagram; nothing where no rule holds, or two of a unique table.
    CutObservation cut(const Observation& observation) const;
    std::optional<OutcomeIndex> decide(TableIndex table, const CutObservation& cut) const;

    // Collect tables only.
    Collected collect(TableIndex table, const Observation& observation) const;

    // Every rule of the table in the order of the file: held, did not, or undecided, with each
    // condition's own verdict. Valid as long as the engine lives.
    std::vector<RuleTrace> explain(TableIndex table, const Observation& observation) const;

    // Single-hit tables only.
    Firmness firmness(TableIndex table, const Observation& observation) const;

    // For each other outcome, the smallest change that brings it about; the nearest outcome first.
    // Empty unless the table is decided. Facts that cannot change, and those that nobody observed,
    // stay as they are: the outcome must come about whatever the unknown ones turn out to be.
    // Single-hit tables only. Without a diagram, changes of one fact only.
    std::vector<Change> nearest_changes(TableIndex table, const Observation& observation) const;

    // The facts, unknown or known only within a range, whose value can still make a difference,
    // alone or together with others: no other need be asked for. Any table. Without a diagram,
    // perhaps some that cannot matter too.
    std::vector<FactIndex> can_matter(TableIndex table, const Observation& observation) const;

    // Observed facts that by themselves force the answer as it is, whatever all others might be,
    // and of which none can be left out. Where several such sets exist, facts that come early in
    // the model are kept. Empty when the rules force it without any. Any table.
    std::vector<FactIndex> sufficient_facts(TableIndex table, const Observation& observation) const;

 private:
    // The branches, by fact, of the facts behind the table that are not marked; nothing unless each
    // of them falls into one.
    std::optional<std::vector<std::optional<Branch>>> cut_of_kept(
        TableIndex table, const Observation& observation, const std::vector<bool>& left_out) const;
    // Asks, as often as wanted, whether the table comes to the same without the facts that are
    // marked in `left_out` at that time. Both references must outlive what is returned.
    std::function<bool()> unchanged_without(TableIndex table, const Observation& observation,
                                            const std::vector<bool>& left_out) const;

    // What the tables that the rules of `table` test come to.
    Estimates outcomes_tested_by(TableIndex table, const Observation& observation) const;

    Model model_;
    std::vector<std::vector<TableIndex>> tested_;  // by table: the tables its own rules test
    std::vector<std::vector<TableIndex>> orders_;  // by table: it and all it rests on, in order
    std::vector<std::vector<FactIndex>> behind_;   // by table: the facts its answer rests on
    std::vector<Branches> branches_;               // by fact
    std::vector<FactIndex> facts_in_order_;
    std::vector<TableDiagrams> diagrams_;  // by table; empty where the budget ended
};

}  // namespace ashtriage::reason
