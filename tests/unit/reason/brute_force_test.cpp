// The engine against plain enumeration: thousands of random models and observations, each answered
// once by the engine and once by filling in every combination of values and evaluating the rules in
// ordinary two-valued logic.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>

#include "models.hpp"
#include "reason/engine.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {
namespace {

constexpr int thresholds = 4;  // at 1, 2, 3, 4 in a range of 0 to 5

class RandomModels {
 public:
    explicit RandomModels(unsigned seed) : random_(seed) {}

    int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }
    bool chance(int percent) { return below(100) < percent; }

    Model model() {
        Model model;
        const int facts = 2 + below(4);
        for (int fact = 0; fact < facts; ++fact) model.facts.push_back(random_fact(fact));
        const int tables = 1 + below(3);
        for (int table = 0; table < tables; ++table) {
            model.tables.push_back(random_table(model, table));
        }
        return model;
    }

    Observation observation(const Model& model) {
        Observation observation;
        for (const Fact& fact : model.facts) observation.push_back(random_value(fact));
        return observation;
    }

 private:
    Fact random_fact(int number) {
        const std::string name = "f" + std::to_string(number);
        switch (below(4)) {
            case 0:
                return test::yes_no_fact(name);
            case 1:
                return test::level_fact(name, FactKind::choice, {"a", "b", "c"});
            case 2:
                return test::level_fact(name, FactKind::ordered, {"a", "b", "c", "d"});
            default:
                return test::number_fact(name, 0, thresholds + 1);
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
                test::rule("r", random_condition(model, 2), static_cast<OutcomeIndex>(below(3))));
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
};

// Every value worth trying: each threshold and the middle of each gap between them.
std::vector<Value> completions(const Fact& fact, const Value& value) {
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

 private:
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
                return value != nullptr && test.accepted.contains(value->low);
            }
            case Condition::Kind::level: {
                const auto& test = std::get<LevelTest>(condition.test);
                const LevelSet* value = known_[test.fact].level_set();
                return value != nullptr && (*value & test.accepted) != 0;
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

    const Model& model_;
    const Observation& known_;
};

void for_each_completion(const Model& model, const Observation& observation,
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

TEST(EngineAgainstEnumeration, AgreesOnThousandsOfRandomModels) {
    RandomModels random(20260518);
    int undecided = 0;
    int sharper_than_three_valued = 0;
    for (int round = 0; round < 3000; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            Outcomes outcomes;
            LevelSet in_all = ~LevelSet{0};
            LevelSet in_some = 0;
            for_each_completion(model, observation, [&](const Observation& known) {
                const PlainEvaluation plain(model, known);
                outcomes.add(plain.outcome(table));
                in_all &= plain.collected(table);
                in_some |= plain.collected(table);
            });

            const Estimates estimates = estimate(model, *evaluation_order(model), observation);
            if (model.tables[table].hit_policy == HitPolicy::collect) {
                const Collected collected = engine.collect(table, observation);
                ASSERT_EQ(collected.certain, in_all) << "round " << round;
                ASSERT_EQ(collected.possible, in_some) << "round " << round;
                sharper_than_three_valued += estimates[table].collected != collected ? 1 : 0;
            } else {
                const Outcomes decided = engine.decide(table, observation);
                ASSERT_EQ(decided, outcomes) << "round " << round;
                undecided += decided.decided() ? 0 : 1;
                sharper_than_three_valued += estimates[table].outcomes != decided ? 1 : 0;
            }
        }
    }
    // The sample must really exercise uncertainty, and the cases that three-valued logic misses.
    EXPECT_GT(undecided, 1000);
    EXPECT_GT(sharper_than_three_valued, 50);
}

TEST(EngineAgainstEnumeration, WhatIsWorthAskingIsAlwaysAmongWhatIsStillOpen) {
    RandomModels random(11);
    int worth_seen = 0;
    for (int round = 0; round < 1500; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            const auto open = engine.still_open(table, observation);
            for (const FactIndex fact : engine.worth_asking(table, observation)) {
                ASSERT_NE(std::ranges::find(open, fact), open.end()) << "round " << round;
                ++worth_seen;
            }
        }
    }
    EXPECT_GT(worth_seen, 300);
}

TEST(EngineAgainstEnumeration, EveryNearestChangeReallyLeadsThere) {
    RandomModels random(7);
    int changes_seen = 0;
    for (int round = 0; round < 5000; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            if (model.tables[table].hit_policy == HitPolicy::collect) continue;
            for (const Change& change : engine.nearest_changes(table, observation)) {
                Observation changed = observation;
                changed[change.fact] = change.to;
                ASSERT_EQ(engine.decide(table, changed).outcome(), change.outcome);
                ++changes_seen;
            }
        }
    }
    EXPECT_GT(changes_seen, 150);
}

}  // namespace
}  // namespace ashtriage::reason
