#include "reason/three_valued.hpp"

#include <algorithm>
#include <bit>

namespace ashtriage::reason {

namespace {

Truth both(Truth a, Truth b) {
    return std::min(a, b);
}
Truth either(Truth a, Truth b) {
    return std::max(a, b);
}

Truth number_truth(const NumberTest& test, const Value& value) {
    if (value.is_not_applicable()) return Truth::no;
    const Interval* stretch = value.interval();
    if (stretch == nullptr) return Truth::maybe;
    if (test.accepted.contains(*stretch)) return Truth::yes;
    return intersection(test.accepted, *stretch) ? Truth::maybe : Truth::no;
}

Truth level_truth(const LevelTest& test, const Value& value) {
    if (value.is_not_applicable()) return Truth::no;
    const LevelSet* set = value.level_set();
    if (set == nullptr) return Truth::maybe;
    if ((*set & ~test.accepted) == 0) return Truth::yes;
    return (*set & test.accepted) != 0 ? Truth::maybe : Truth::no;
}

Truth outcome_truth(const OutcomeTest& test, const Table& table, const TableEstimate& estimate) {
    if (table.hit_policy == HitPolicy::collect) {
        if ((estimate.collected.certain & test.accepted) != 0) return Truth::yes;
        return (estimate.collected.possible & test.accepted) != 0 ? Truth::maybe : Truth::no;
    }
    const Outcomes& outcomes = estimate.outcomes;
    const bool other_ending = outcomes.none_possible || outcomes.conflict_possible;
    if ((outcomes.possible & test.accepted) == 0) return Truth::no;
    const bool only_accepted = (outcomes.possible & ~test.accepted) == 0 && !other_ending;
    return only_accepted ? Truth::yes : Truth::maybe;
}

Outcomes first_hit(const Table& table, const std::vector<Truth>& holds) {
    Outcomes outcomes;
    for (RuleIndex rule = 0; rule < holds.size(); ++rule) {
        if (holds[rule] == Truth::no) continue;
        outcomes.possible |= only_level(table.rules[rule].gives);
        if (holds[rule] == Truth::yes) return outcomes;
    }
    outcomes.none_possible = true;
    return outcomes;
}

Outcomes priority_hit(const Table& table, const std::vector<Truth>& holds) {
    OutcomeIndex best_certain = table.gives.size();
    for (RuleIndex rule = 0; rule < holds.size(); ++rule) {
        if (holds[rule] == Truth::yes) {
            best_certain = std::min(best_certain, table.rules[rule].gives);
        }
    }
    Outcomes outcomes;
    outcomes.none_possible = best_certain == table.gives.size();
    for (RuleIndex rule = 0; rule < holds.size(); ++rule) {
        const OutcomeIndex gives = table.rules[rule].gives;
        if (holds[rule] != Truth::no && gives <= best_certain) {
            outcomes.possible |= only_level(gives);
        }
    }
    return outcomes;
}

Outcomes unique_hit(const Table& table, const std::vector<Truth>& holds) {
    const auto certain = std::ranges::count(holds, Truth::yes);
    const auto open = std::ranges::count(holds, Truth::maybe);
    Outcomes outcomes;
    outcomes.none_possible = certain == 0;
    outcomes.conflict_possible = certain + open >= 2;
    if (certain >= 2) return outcomes;
    for (RuleIndex rule = 0; rule < holds.size(); ++rule) {
        const bool may_be_the_only = certain == 0 ? holds[rule] != Truth::no  //
                                                  : holds[rule] == Truth::yes;
        if (may_be_the_only) outcomes.possible |= only_level(table.rules[rule].gives);
    }
    return outcomes;
}

Collected collected(const Table& table, const std::vector<Truth>& holds) {
    Collected result;
    for (RuleIndex rule = 0; rule < holds.size(); ++rule) {
        const LevelSet outcome = only_level(table.rules[rule].gives);
        if (holds[rule] == Truth::yes) result.certain |= outcome;
        if (holds[rule] != Truth::no) result.possible |= outcome;
    }
    return result;
}

TableEstimate estimate_table(const Table& table, const std::vector<Truth>& holds) {
    TableEstimate estimate;
    switch (table.hit_policy) {
        case HitPolicy::unique:
            estimate.outcomes = unique_hit(table, holds);
            break;
        case HitPolicy::first:
            estimate.outcomes = first_hit(table, holds);
            break;
        case HitPolicy::priority:
            estimate.outcomes = priority_hit(table, holds);
            break;
        case HitPolicy::collect:
            estimate.collected = collected(table, holds);
            break;
    }
    return estimate;
}

}  // namespace

Truth negated(Truth truth) {
    if (truth == Truth::maybe) return truth;
    return truth == Truth::yes ? Truth::no : Truth::yes;
}

Truth applies(FactIndex fact, const Model& model, const Observation& observation) {
    const Condition* condition = model.condition_to_apply(fact);
    return condition == nullptr ? Truth::yes : evaluate(*condition, model, observation, {});
}

Truth evaluate(const Condition& condition, const Model& model, const Observation& observation,
               const Estimates& estimates) {
    switch (condition.kind) {
        case Condition::Kind::all: {
            Truth truth = Truth::yes;
            for (const Condition& part : condition.parts) {
                truth = both(truth, evaluate(part, model, observation, estimates));
                if (truth == Truth::no) break;
            }
            return truth;
        }
        case Condition::Kind::any: {
            Truth truth = Truth::no;
            for (const Condition& part : condition.parts) {
                truth = either(truth, evaluate(part, model, observation, estimates));
                if (truth == Truth::yes) break;
            }
            return truth;
        }
        case Condition::Kind::negation:
            return negated(evaluate(condition.parts.front(), model, observation, estimates));
        case Condition::Kind::number: {
            const auto& test = std::get<NumberTest>(condition.test);
            return both(number_truth(test, observation[test.fact]),
                        applies(test.fact, model, observation));
        }
        case Condition::Kind::level: {
            const auto& test = std::get<LevelTest>(condition.test);
            return both(level_truth(test, observation[test.fact]),
                        applies(test.fact, model, observation));
        }
        case Condition::Kind::outcome: {
            const auto& test = std::get<OutcomeTest>(condition.test);
            return outcome_truth(test, model.tables[test.table], estimates[test.table]);
        }
    }
    return Truth::maybe;
}

Estimates estimate(const Model& model, const std::vector<TableIndex>& order,
                   const Observation& observation) {
    Estimates estimates(model.tables.size());
    std::vector<Truth> holds;
    for (const TableIndex index : order) {
        const Table& table = model.tables[index];
        holds.clear();
        for (const Rule& rule : table.rules) {
            holds.push_back(evaluate(rule.when, model, observation, estimates));
        }
        estimates[index] = estimate_table(table, holds);
    }
    return estimates;
}

}  // namespace ashtriage::reason
