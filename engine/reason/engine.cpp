#include "reason/engine.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "reason/by_cases.hpp"
#include "reason/compiler.hpp"
#include "reason/variable_order.hpp"
#include "reason/visit.hpp"

namespace ashtriage::reason {

namespace {

void require(bool holds, const std::string& message) {
    if (!holds) throw std::invalid_argument(message);
}

void check_test(const NumberTest& test, const Model& model, const std::string& rule) {
    require(test.fact < model.facts.size() && model.facts[test.fact].kind == FactKind::number,
            "rule " + rule + " tests a number that is not a number fact");
}

void check_test(const LevelTest& test, const Model& model, const std::string& rule) {
    require(test.fact < model.facts.size() && model.facts[test.fact].kind != FactKind::number,
            "rule " + rule + " tests a level of something that has none");
    require((test.accepted & ~all_levels(model.facts[test.fact].levels.size())) == 0,
            "rule " + rule + " tests a level that the fact does not have");
}

void check_test(const OutcomeTest& test, const Model& model, const std::string& rule) {
    require(test.table < model.tables.size(), "rule " + rule + " tests a table that is not there");
    require((test.accepted & ~all_levels(model.tables[test.table].gives.size())) == 0,
            "rule " + rule + " tests an outcome that the table does not give");
}

// Whether a fact applies may hang on other facts, but not on tables and not on the fact itself.
void check_applies(const Condition& applies, FactIndex whose, const Model& model) {
    for_each_test(applies, [&](const auto& test) {
        check_test(test, model, "for whether " + model.facts[whose].name + " applies");
        if constexpr (std::is_same_v<std::decay_t<decltype(test)>, OutcomeTest>) {
            require(false, "whether " + model.facts[whose].name + " applies hangs on a table");
        } else {
            require(test.fact != whose,
                    "whether " + model.facts[whose].name + " applies hangs on the fact itself");
            if (const Condition* other = model.condition_to_apply(test.fact)) {
                check_applies(*other, whose, model);
            }
        }
    });
}

void check_claim(const WorseClaim& claim, const Table& table, const Model& model) {
    const std::string whose = "for a claim of table " + table.name;
    require(claim.fact < model.facts.size(), "no such fact " + whose);
    const Fact& fact = model.facts[claim.fact];
    require(claim.order.empty() == (fact.kind != FactKind::choice),
            "an order of levels is for choices, and choices need one, " + whose);
    require(std::ranges::all_of(claim.order,
                                [&](LevelIndex level) { return level < fact.levels.size(); }),
            "no such level " + whose);
    require((claim.excepted & ~all_levels(table.gives.size())) == 0 &&
                (claim.excepted == 0 || table.hit_policy == HitPolicy::collect),
            "outcomes are left out that are not collected, " + whose);
    if (!claim.unless) return;
    for_each_test(*claim.unless, [&](const auto& test) {
        check_test(test, model, whose);
        if constexpr (std::is_same_v<std::decay_t<decltype(test)>, OutcomeTest>) {
            require(false, "the exception tests a table " + whose);
        }
    });
}

void check(const Model& model) {
    for (const Fact& fact : model.facts) {
        const bool number = fact.kind == FactKind::number;
        require(!number || !fact.range.empty(), "fact " + fact.name + " has an empty range");
        require(number || (!fact.levels.empty() && fact.levels.size() <= most_levels),
                "fact " + fact.name + " must have 1 to 64 levels");
    }
    for (const Table& table : model.tables) {
        require(!table.gives.empty() && table.gives.size() <= most_outcomes,
                "table " + table.name + " must give 1 to 62 outcomes");
        for (const Rule& rule : table.rules) {
            require(rule.gives < table.gives.size(),
                    "rule " + rule.id + " gives an outcome that its table does not declare");
            for_each_test(rule.when, [&](const auto& test) { check_test(test, model, rule.id); });
        }
    }
    for (const Table& table : model.tables) {
        for (const WorseClaim& claim : table.worse) check_claim(claim, table, model);
    }
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        if (const Condition* applies = model.condition_to_apply(fact))
            check_applies(*applies, fact, model);
    }
}

std::vector<TableIndex> tables_tested_by(const Table& table) {
    std::vector<TableIndex> tested;
    for (const Rule& rule : table.rules) {
        for_each_test(rule.when, [&](const auto& test) {
            using Test = std::decay_t<decltype(test)>;
            if constexpr (std::is_same_v<Test, OutcomeTest>) {
                if (std::ranges::find(tested, test.table) == tested.end()) {
                    tested.push_back(test.table);
                }
            }
        });
    }
    return tested;
}

// The tables that `table` rests on and itself, in evaluation order.
std::vector<TableIndex> order_for(const Model& model, const std::vector<TableIndex>& order,
                                  TableIndex table) {
    std::vector<bool> needed(model.tables.size(), false);
    needed[table] = true;
    std::vector<TableIndex> kept;
    for (auto step = order.rbegin(); step != order.rend(); ++step) {
        if (!needed[*step]) continue;
        kept.push_back(*step);
        for (const TableIndex tested : tables_tested_by(model.tables[*step])) needed[tested] = true;
    }
    std::ranges::reverse(kept);
    return kept;
}

Outcomes outcomes_of(LeafSet leaves) {
    Outcomes outcomes;
    outcomes.possible = leaves & all_levels(most_outcomes);
    outcomes.none_possible = has_level(leaves, no_rule_leaf);
    outcomes.conflict_possible = has_level(leaves, conflict_leaf);
    return outcomes;
}

}  // namespace

Engine::Engine(Model model, std::size_t budget) : model_(std::move(model)) {
    check(model_);
    const auto order = evaluation_order(model_);
    if (!order) throw std::invalid_argument("tables feed each other in a circle");
    for (TableIndex table = 0; table < model_.tables.size(); ++table) {
        tested_.push_back(tables_tested_by(model_.tables[table]));
        orders_.push_back(order_for(model_, *order, table));
        behind_.push_back(reason::facts_behind(model_, table));
    }
    branches_ = branches_of(model_);
    facts_in_order_ = variable_order(model_);

    Compiler compiler(model_, branches_, facts_in_order_);
    diagrams_.resize(model_.tables.size());
    for (const TableIndex table : *order) {
        if (!compiler.compile(table, budget)) continue;
        const CompiledTable& compiled = *compiler.compiled(table);
        for (const Node answer : compiled.answers) {
            diagrams_[table].answers.push_back(finished(compiler.store(), answer, facts_in_order_));
        }
        for (const Node rule : compiled.rules) {
            diagrams_[table].rules.push_back(finished(compiler.store(), rule, facts_in_order_));
        }
    }
}

CutObservation Engine::cut(const Observation& observation) const {
    CutObservation branches(observation.size());
    for (FactIndex fact = 0; fact < observation.size(); ++fact) {
        const auto only = branches_[fact].only(observation[fact]);
        if (!only) {
            throw std::invalid_argument("the fact " + model_.facts[fact].name +
                                        " is not wholly known");
        }
        branches[fact] = *only;
    }
    return branches;
}

std::optional<OutcomeIndex> Engine::decide(TableIndex table, const CutObservation& cut) const {
    const std::uint32_t leaf = leaf_of(diagrams_[table].answers.front(), cut);
    if (leaf >= most_outcomes) return std::nullopt;
    return leaf;
}

Outcomes Engine::decide(TableIndex table, const Observation& observation) const {
    if (!has_diagram(table)) {
        return decide_by_cases(model_, orders_[table], branches_, table, observation);
    }
    return outcomes_of(leaves_of(diagrams_[table].answers.front(), branches_, observation));
}

Collected Engine::collect(TableIndex table, const Observation& observation) const {
    if (!has_diagram(table)) {
        return collect_by_cases(model_, orders_[table], branches_, table, observation);
    }
    Collected collected;
    const std::vector<Diagram>& answers = diagrams_[table].answers;
    for (OutcomeIndex outcome = 0; outcome < answers.size(); ++outcome) {
        const LeafSet leaves = leaves_of(answers[outcome], branches_, observation);
        if (has_level(leaves, leaf_value(yes_leaf))) collected.possible |= only_level(outcome);
        if (!has_level(leaves, leaf_value(no_leaf))) collected.certain |= only_level(outcome);
    }
    return collected;
}

}  // namespace ashtriage::reason
