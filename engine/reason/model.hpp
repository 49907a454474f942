// Facts and decision tables, as a rule pack states them. Plain data; the engine compiles it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reason/condition.hpp"
#include "reason/fact.hpp"

namespace ashtriage::reason {

// How a table answers when several rules hold (OMG DMN's hit policies of these names).
enum class HitPolicy {
    unique,    // at most one rule may hold; two are a conflict
    first,     // the first rule in the order of the file
    priority,  // the outcome that stands earliest in `gives`
    collect,   // every outcome whose rule holds
};

using RuleIndex = std::size_t;
using OutcomeIndex = std::size_t;

struct Rule {
    std::string id;
    Condition when;
    OutcomeIndex gives = 0;
};

// The claim that a case that is worse in one fact, all else alike, never gets a milder answer: no
// outcome that stands later in `gives`, and of a collect table no outcome less. A claim to be
// proved, not something that the engine acts upon.
struct WorseClaim {
    FactIndex fact = 0;
    bool falling = false;             // smaller is worse; otherwise greater is
    std::vector<LevelIndex> order;    // of a choice: the levels that are compared, the best first
    LevelSet excepted = 0;            // outcomes of a collect table that the claim leaves out
    std::optional<Condition> unless;  // pairs in which it holds for either case are left out
};

struct Table {
    std::string name;
    std::vector<std::string> gives;  // at most 62, so that two bits are left for "none", "conflict"
    HitPolicy hit_policy = HitPolicy::unique;
    std::vector<Rule> rules;
    std::vector<WorseClaim> worse;
};

inline constexpr std::size_t most_outcomes = 62;

// Tables may test the outcomes of other tables, in any order of writing but without a cycle.
struct Model {
    std::vector<Fact> facts;
    std::vector<Table> tables;
    // By fact, as far as the list goes: when it fails, the fact does not apply, whatever its value,
    // and no test of it is met. Such conditions test facts only, and form no cycle.
    std::vector<std::optional<Condition>> applies_if;

    // Null when the fact always applies.
    const Condition* condition_to_apply(FactIndex fact) const;

    std::optional<FactIndex> find_fact(std::string_view name) const;
    std::optional<TableIndex> find_table(std::string_view name) const;
};

// The tables in an order in which each stands after those it tests; nothing if they form a cycle.
std::optional<std::vector<TableIndex>> evaluation_order(const Model& model);

// The facts that the table's rules test, directly or through other tables, each once, in the
// model's order.
std::vector<FactIndex> facts_behind(const Model& model, TableIndex table);

}  // namespace ashtriage::reason
