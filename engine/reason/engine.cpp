#include "reason/engine.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "reason/case_split.hpp"
#include "reason/three_valued.hpp"
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
        for (const Rule& rule : model.tables[*step].rules) {
            for_each_test(rule.when, [&](const auto& test) {
                using Test = std::decay_t<decltype(test)>;
                if constexpr (std::is_same_v<Test, OutcomeTest>) needed[test.table] = true;
            });
        }
    }
    std::ranges::reverse(kept);
    return kept;
}

void mark_open(const Model& model, TableIndex table, const Observation& observation,
               const Estimates& estimates, std::vector<bool>& open);

void mark_open_in(const Condition& condition, const Model& model, const Observation& observation,
                  const Estimates& estimates, std::vector<bool>& open) {
    if (evaluate(condition, model, observation, estimates) != Truth::maybe) return;
    if (const auto* number = std::get_if<NumberTest>(&condition.test)) open[number->fact] = true;
    if (const auto* level = std::get_if<LevelTest>(&condition.test)) open[level->fact] = true;
    if (const auto* outcome = std::get_if<OutcomeTest>(&condition.test)) {
        mark_open(model, outcome->table, observation, estimates, open);
    }
    for (const Condition& part : condition.parts) {
        mark_open_in(part, model, observation, estimates, open);
    }
}

void mark_open(const Model& model, TableIndex table, const Observation& observation,
               const Estimates& estimates, std::vector<bool>& open) {
    const Table& asked = model.tables[table];
    const TableEstimate& estimated = estimates[table];
    const bool collects = asked.hit_policy == HitPolicy::collect;
    if (!collects && estimated.outcomes.decided()) return;
    for (const Rule& rule : asked.rules) {
        const LevelSet gives = only_level(rule.gives);
        const bool can_matter = collects ? (estimated.collected.certain & gives) == 0
                                         : asked.hit_policy == HitPolicy::unique ||
                                               (estimated.outcomes.possible & gives) != 0;
        if (can_matter) mark_open_in(rule.when, model, observation, estimates, open);
    }
}

}  // namespace

Engine::Engine(Model model) : model_(std::move(model)) {
    check(model_);
    const auto order = evaluation_order(model_);
    if (!order) throw std::invalid_argument("tables feed each other in a circle");
    for (TableIndex table = 0; table < model_.tables.size(); ++table) {
        orders_.push_back(order_for(model_, *order, table));
        behind_.push_back(facts_behind(model_, table));
    }
    cells_ = elementary_cells(model_);
}

Outcomes Engine::decide(TableIndex table, const Observation& observation) const {
    return decide_within(table, observation, Outcomes::anything());
}

Outcomes Engine::decide_within(TableIndex table, const Observation& observation,
                               const Outcomes& bound) const {
    Outcomes found;
    const CaseSplit cases(model_, orders_[table], cells_, table, [](const Rule&) { return true; });
    cases.explore(
        observation,
        [&](const Estimates& estimates) {
            const Outcomes& estimated = estimates[table].outcomes;
            // An estimate is a superset of what is possible, and something always is.
            if (estimated.decided()) found.add(estimated);
            return found.contains(estimated.shared_with(bound));
        },
        [&](const Estimates& estimates) { found.add(estimates[table].outcomes); });
    return found;
}

Collected Engine::collect(TableIndex table, const Observation& observation) const {
    const Estimates first = estimate(model_, orders_[table], observation);
    Collected result = first[table].collected;

    // Each outcome that is still open is settled on its own, over its own rules only.
    for (OutcomeIndex outcome = 0; outcome < model_.tables[table].gives.size(); ++outcome) {
        const LevelSet bit = only_level(outcome);
        if ((result.possible & bit) == 0 || (result.certain & bit) != 0) continue;

        bool collected_somewhere = false;
        bool missing_somewhere = false;
        const CaseSplit cases(model_, orders_[table], cells_, table,
                              [outcome](const Rule& rule) { return rule.gives == outcome; });
        const auto note = [&](const Estimates& estimates) {
            const Collected& estimated = estimates[table].collected;
            if ((estimated.certain & bit) != 0) collected_somewhere = true;
            if ((estimated.possible & bit) == 0) missing_somewhere = true;
            return (collected_somewhere && missing_somewhere) || (estimated.certain & bit) != 0 ||
                   (estimated.possible & bit) == 0;
        };
        cases.explore(observation, note, note);

        if (!collected_somewhere) result.possible &= ~bit;
        if (!missing_somewhere) result.certain |= bit;
    }
    return result;
}

std::vector<FactIndex> Engine::worth_asking(TableIndex table,
                                            const Observation& observation) const {
    const bool collects = model_.tables[table].hit_policy == HitPolicy::collect;
    const Outcomes outcomes = collects ? Outcomes{} : decide(table, observation);
    const Collected all_flags = collects ? collect(table, observation) : Collected{};
    const auto narrows = [&](const Observation& known) {
        return collects ? collect(table, known) != all_flags
                        : decide_within(table, known, outcomes) != outcomes;
    };

    std::vector<FactIndex> worth;
    Observation supposed = observation;
    for (const FactIndex fact : still_open(table, observation)) {
        const std::vector<Value> parts = split(observation[fact], cells_[fact]);
        const bool matters = std::ranges::any_of(parts, [&](const Value& part) {
            supposed[fact] = part;
            return narrows(supposed);
        });
        supposed[fact] = observation[fact];
        if (matters) worth.push_back(fact);
    }
    return worth;
}

std::vector<FactIndex> Engine::still_open(TableIndex table, const Observation& observation) const {
    const Estimates estimates = estimate(model_, orders_[table], observation);
    std::vector<bool> open(model_.facts.size(), false);
    mark_open(model_, table, observation, estimates, open);

    std::vector<FactIndex> facts;
    for (FactIndex fact = 0; fact < open.size(); ++fact) {
        if (open[fact]) facts.push_back(fact);
    }
    return facts;
}

}  // namespace ashtriage::reason
