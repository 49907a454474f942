// From rules to diagrams: every condition, and every table with the tables it rests on, as diagrams
// in one store over the branches of the facts.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "reason/branches.hpp"
#include "reason/diagram_store.hpp"
#include "reason/model.hpp"

namespace ashtriage::reason {

// What the leaves of a single-hit table's diagram mean: an outcome's index, or one of these.
inline constexpr std::uint32_t no_rule_leaf = most_outcomes;
inline constexpr std::uint32_t conflict_leaf = most_outcomes + 1;

struct CompiledTable {
    std::vector<Node> rules;  // by rule: yes where its condition is met
    // Single-hit tables: one diagram, whose leaves are outcomes. Collect tables: by outcome, yes
    // where it is collected.
    std::vector<Node> answers;
};

class Compiler {
 public:
    // `model` and `branches` must outlive the compiler; levels of the store follow `order`.
    Compiler(const Model& model, const std::vector<Branches>& branches,
             std::vector<FactIndex> order);

    const std::vector<FactIndex>& order() const { return order_; }
    DiagramStore& store() { return store_; }
    const DiagramStore& store() const { return store_; }

    // Tables must be compiled after those they rest on. False, leaving the table out, when its
    // diagrams take more than `budget` branches to work out, or a table it rests on was left out.
    bool compile(TableIndex table, std::size_t budget);
    // Null when the table was left out.
    const CompiledTable* compiled(TableIndex table) const;

    // The diagram of a condition whose tables are all compiled.
    Node condition(const Condition& condition);
    // Where the fact applies.
    Node applies(FactIndex fact);

 private:
    Node test_of(const NumberTest& test);
    Node test_of(const LevelTest& test);
    Node test_of(const OutcomeTest& test);
    // `accepted` by cell.
    Node fact_test(FactIndex fact, std::vector<bool> accepted);
    std::vector<Node> answers_of(const Table& table, const std::vector<Node>& rules);

    const Model& model_;
    const std::vector<Branches>& branches_;
    std::vector<FactIndex> order_;
    std::vector<Level> level_of_;  // by fact
    DiagramStore store_;
    std::vector<std::optional<CompiledTable>> tables_;
};

}  // namespace ashtriage::reason
