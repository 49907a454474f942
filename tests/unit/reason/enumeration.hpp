// Random models and observations, and their answers by plain enumeration: every combination of
// values filled in, and the rules evaluated in ordinary two-valued logic. Slow and simple, to hold
// the engine against.
#pragma once

#include <algorithm>
#include <functional>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "models.hpp"
#include "reason/decision.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason::test {

inline constexpr int thresholds = 4;  // at 1, 2, 3, 4 in a range of 0 to 5

class RandomModels {
 public:
    // Of at most `most_facts` facts.
    explicit RandomModels(unsigned seed, int most_facts = 5)
        : random_(seed), most_facts_(most_facts) {}

    int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }
    bool chance(int percent) { return below(100) < percent; }

    Model model() {
        Model model;
        const int facts = 2 + below(most_facts_ - 1);
        for (int fact = 0; fact < facts; ++fact) {
            model.applies_if.emplace_back();
            // Some facts make sense only after another.
            if (fact > 0 && chance(20)) model.applies_if.back() = random_condition(model, 1);
            model.facts.push_back(random_fact(fact));
        }
        model.tables = tables(model);
        return model;
    }

    // Other tables over the facts of a model.
    std::vector<Table> tables(Model model) {
        model.tables.clear();
        const int tables = 1 + below(3);
        for (int table = 0; table < tables; ++table) {
            model.tables.push_back(random_table(model, table));
        }
        return model.tables;
    }

    Observation observation(const Model& model) {
        Observation observation;
        for (const Fact& fact : model.facts) observation.push_back(random_value(fact));
        return observation;
    }

    // Some claim about one fact; of a choice, about two or three of its levels.
    WorseClaim claim(const Model& model, const Table& table) {
        WorseClaim claim;
        claim.fact = static_cast<FactIndex>(below(static_cast<int>(model.facts.size())));
        const Fact& fact = model.facts[claim.fact];
        claim.falling = fact.kind != FactKind::choice && chance(50);
        if (fact.kind == FactKind::choice) {
            for (LevelIndex level = 0; level < fact.levels.size(); ++level) {
                claim.order.push_back(level);
            }
            std::ranges::shuffle(claim.order, random_);
            if (chance(50)) claim.order.pop_back();
        }
        if (chance(30)) {
            Model facts_only = model;
            facts_only.tables.clear();
            claim.unless = random_condition(facts_only, 1);
        }
        if (table.hit_policy == HitPolicy::collect && chance(30)) {
            claim.excepted = only_level(static_cast<OutcomeIndex>(below(3)));
        }
        return claim;
    }

 private:
    Fact random_fact(int number) {
        const std::string name = "f" + std::to_string(number);
        switch (below(4)) {
            case 0:
                return yes_no_fact(name);
            case 1:
                return level_fact(name, FactKind::choice, {"a", "b", "c"});
            case 2:
                return level_fact(name, FactKind::ordered, {"a", "b", "c", "d"});
            default:
                return number_fact(name, 0, thresholds + 1, chance(50) ? 1.0 : 0.0);
        }
    }

    Table random_table(const Model& model, int number) {
        Table table;
        table.name = "t" + std::to_string(number);
        table.gives = {"x", "y", "z"};
        table.hit_policy = static_cast<HitPolicy>(below(4));
        const int rules = 1 + below(4);
        for (int i = 0; i < rules; ++i) {
            table.rules.push_back(
                rule("r", random_condition(model, 2), static_cast<OutcomeIndex>(below(3))));
        }
        return table;
    }

    Condition random_condition(const Model& model, int depth) {
        if (depth > 0 && chance(60)) {
            std::vector<Condition> parts;
            const int count = 1 + below(3);
            for (int i = 0; i < count; ++i) parts.push_back(random_condition(model, depth - 1));
            switch (below(3)) {
                case 0:
                    return Condition::all(std::move(parts));
                case 1:
                    return Condition::any(std::move(parts));
                default:
                    return Condition::negation(std::move(parts.front()));
            }
        }
        if (!model.tables.empty() && chance(25)) {
            return Condition::outcome(
                static_cast<TableIndex>(below(static_cast<int>(model.tables.size()))),
                static_cast<LevelSet>(1 + below(6)));
        }
        const auto fact = static_cast<FactIndex>(below(static_cast<int>(model.facts.size())));
        if (model.facts[fact].kind == FactKind::number) {
            const double a = below(thresholds + 2);
            const double b = below(thresholds + 2);
            return Condition::number(fact,
                                     {std::min(a, b), std::max(a, b), chance(50), chance(50)});
        }
        const LevelSet all = all_levels(model.facts[fact].levels.size());
        return Condition::level(fact, static_cast<LevelSet>(below(static_cast<int>(all) + 1)));
    }

    Value random_value(const Fact& fact) {
        const int kind = below(10);
        if (kind < 4) return Value::unknown(static_cast<WhyUnknown>(below(2)));
        if (kind < 5) return Value::not_applicable();
        if (fact.kind == FactKind::number) {
            const double a = below(2 * thresholds + 3) / 2.0;
            if (kind < 8) return Value::number(a);
            const double b = below(2 * thresholds + 3) / 2.0;
            return Value::range(Interval::closed(std::min(a, b), std::max(a, b)));
        }
        const LevelSet all = all_levels(fact.levels.size());
        return Value::levels(static_cast<LevelSet>(1 + below(static_cast<int>(all))));
    }

    std::mt19937 random_;
    int most_facts_;
};

// Every value worth trying: each threshold and the middle of each gap between them.
inline std::vector<Value> completions(const Fact& fact, const Value& value) {
    if (value.is_not_applicable()) return {value};
    std::vector<Value> all;
    if (fact.kind == FactKind::number) {
        for (int half = 0; half <= 2 * (thresholds + 1); ++half) {
            const double candidate = half / 2.0;
            if (value.is_unknown() || value.interval()->contains(candidate)) {
                all.push_back(Value::number(candidate));
            }
        }
    } else {
        for (LevelIndex level = 0; level < fact.levels.size(); ++level) {
            if (value.is_unknown() || has_level(*value.level_set(), level)) {
                all.push_back(Value::level(level));
            }
        }
    }
    return all;
}

// Plain two-valued evaluation of fully known facts.
class PlainEvaluation {
 public:
    PlainEvaluation(const Model& model, const Observation& known) : model_(model), known_(known) {}

    // The rules that hold, as a set of outcomes each with how many rules gave it.
    std::vector<const Rule*> holding(TableIndex table) const {
        std::vector<const Rule*> rules;
        for (const Rule& rule : model_.tables[table].rules) {
            if (holds(rule.when)) rules.push_back(&rule);
        }
        return rules;
    }

    LevelSet collected(TableIndex table) const {
        LevelSet set = 0;
        for (const Rule* rule : holding(table)) set |= only_level(rule->gives);
        return set;
    }

    Outcomes outcome(TableIndex table) const {
        const auto rules = holding(table);
        Outcomes outcomes;
        if (rules.empty()) {
            outcomes.none_possible = true;
            return outcomes;
        }
        switch (model_.tables[table].hit_policy) {
            case HitPolicy::unique:
                if (rules.size() > 1) {
                    outcomes.conflict_possible = true;
                } else {
                    outcomes.possible = only_level(rules.front()->gives);
                }
                break;
            case HitPolicy::first:
                outcomes.possible = only_level(rules.front()->gives);
                break;
            default:
                outcomes.possible =
                    only_level((*std::ranges::min_element(rules, {}, [](const Rule* r) {
                                   return r->gives;
                               }))->gives);
        }
        return outcomes;
    }

    bool holds(const Condition& condition) const {
        switch (condition.kind) {
            case Condition::Kind::all:
                return std::ranges::all_of(condition.parts,
                                           [&](const Condition& part) { return holds(part); });
            case Condition::Kind::any:
                return std::ranges::any_of(condition.parts,
                                           [&](const Condition& part) { return holds(part); });
            case Condition::Kind::negation:
                return !holds(condition.parts.front());
            case Condition::Kind::number: {
                const auto& test = std::get<NumberTest>(condition.test);
                const Interval* value = known_[test.fact].interval();
                return applies(test.fact) && value != nullptr && test.accepted.contains(value->low);
            }
            case Condition::Kind::level: {
                const auto& test = std::get<LevelTest>(condition.test);
                const LevelSet* value = known_[test.fact].level_set();
                return applies(test.fact) && value != nullptr && (*value & test.accepted) != 0;
            }
            case Condition::Kind::outcome: {
                const auto& test = std::get<OutcomeTest>(condition.test);
                const bool collects = model_.tables[test.table].hit_policy == HitPolicy::collect;
                const LevelSet got =
                    collects ? collected(test.table) : outcome(test.table).possible;
                return (got & test.accepted) != 0;
            }
        }
        return false;
    }

 private:
    bool applies(FactIndex fact) const {
        const Condition* condition = model_.condition_to_apply(fact);
        return condition == nullptr || holds(*condition);
    }

    const Model& model_;
    const Observation& known_;
};

inline void for_each_completion(const Model& model, const Observation& observation,
                                const std::function<void(const Observation&)>& action) {
    Observation known = observation;
    const std::function<void(FactIndex)> fill = [&](FactIndex fact) {
        if (fact == model.facts.size()) {
            action(known);
            return;
        }
        for (const Value& value : completions(model.facts[fact], observation[fact])) {
            known[fact] = value;
            fill(fact + 1);
        }
    };
    fill(0);
}

}  // namespace ashtriage::reason::test
