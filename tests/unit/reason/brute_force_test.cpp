// The engine against plain enumeration: thousands of random models and observations, each answered
// by the diagram, by the slow path, and by filling in every combination of values.
#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "enumeration.hpp"
#include "reason/cells.hpp"
#include "reason/engine.hpp"
#include "reason/questions.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {
namespace {

using test::for_each_completion;
using test::PlainEvaluation;
using test::RandomModels;

// What a table comes to, single-hit or not, in one shape.
struct Answer {
    Outcomes outcomes;
    LevelSet collected = 0;
    friend bool operator==(const Answer&, const Answer&) = default;
};

Answer plain_answer(const Model& model, TableIndex table, const Observation& known) {
    const PlainEvaluation plain(model, known);
    if (model.tables[table].hit_policy == HitPolicy::collect) return {{}, plain.collected(table)};
    return {plain.outcome(table), 0};
}

TEST(EngineAgainstEnumeration, AgreesOnThousandsOfRandomModels) {
    RandomModels random(20260518);
    int undecided = 0;
    int sharper_than_three_valued = 0;
    for (int round = 0; round < 3000; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Engine slow(model, 0);
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

            ASSERT_TRUE(engine.has_diagram(table));
            const Estimates estimates = estimate(model, *evaluation_order(model), observation);
            if (model.tables[table].hit_policy == HitPolicy::collect) {
                const Collected collected = engine.collect(table, observation);
                ASSERT_EQ(collected.certain, in_all) << "round " << round;
                ASSERT_EQ(collected.possible, in_some) << "round " << round;
                ASSERT_EQ(slow.collect(table, observation), collected) << "round " << round;
                sharper_than_three_valued += estimates[table].collected != collected ? 1 : 0;
            } else {
                const Outcomes decided = engine.decide(table, observation);
                ASSERT_EQ(decided, outcomes) << "round " << round;
                ASSERT_EQ(slow.decide(table, observation), outcomes) << "round " << round;
                undecided += decided.decided() ? 0 : 1;
                sharper_than_three_valued += estimates[table].outcomes != decided ? 1 : 0;
            }
        }
    }
    // The sample must really exercise uncertainty, and the cases that three-valued logic misses.
    EXPECT_GT(undecided, 1000);
    EXPECT_GT(sharper_than_three_valued, 50);
}

TEST(EngineAgainstEnumeration, DecidesCutCasesAsItDecidesThemUncut) {
    RandomModels random(3);
    int decided = 0;
    for (int round = 0; round < 500; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        for_each_completion(model, random.observation(model), [&](const Observation& known) {
            for (TableIndex table = 0; table < model.tables.size(); ++table) {
                if (model.tables[table].hit_policy == HitPolicy::collect) continue;
                const auto outcome = engine.decide(table, engine.cut(known));
                ASSERT_EQ(outcome, engine.decide(table, known).outcome());
                decided += outcome ? 1 : 0;
            }
        });
    }
    EXPECT_GT(decided, 1000);
}

// A fact can matter if and only if two cases, alike but for it, come to different answers.
TEST(EngineAgainstEnumeration, SaysOfExactlyTheFactsThatCanMatterThatTheyCan) {
    RandomModels random(11, 4);
    int mattering = 0;
    int idle = 0;
    for (int round = 0; round < 600; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Engine slow(model, 0);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            std::vector<bool> matters(model.facts.size(), false);
            for_each_completion(model, observation, [&](const Observation& known) {
                const Answer answer = plain_answer(model, table, known);
                Observation other = known;
                for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
                    if (matters[fact]) continue;
                    for (const Value& value :
                         test::completions(model.facts[fact], observation[fact])) {
                        other[fact] = value;
                        if (plain_answer(model, table, other) != answer) matters[fact] = true;
                    }
                    other[fact] = known[fact];
                }
            });
            std::vector<FactIndex> expected;
            for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
                if (matters[fact]) expected.push_back(fact);
            }
            ASSERT_EQ(engine.can_matter(table, observation), expected) << "round " << round;
            const auto perhaps = slow.can_matter(table, observation);
            ASSERT_TRUE(std::ranges::includes(perhaps, expected)) << "round " << round;

            auto asked = questions(engine, table, observation, [](FactIndex) { return 1.0; });
            std::ranges::sort(asked, {}, &Question::fact);
            ASSERT_TRUE(std::ranges::equal(asked, expected, {}, &Question::fact));
            mattering += static_cast<int>(expected.size());
            idle += static_cast<int>(model.facts.size() - expected.size());
        }
    }
    EXPECT_GT(mattering, 300);
    EXPECT_GT(idle, 300);
}

std::size_t answers_left(const Engine& engine, TableIndex table, const Observation& observation) {
    if (engine.model().tables[table].hit_policy == HitPolicy::collect) {
        const Collected collected = engine.collect(table, observation);
        return static_cast<std::size_t>(std::popcount(collected.possible & ~collected.certain));
    }
    const Outcomes outcomes = engine.decide(table, observation);
    return static_cast<std::size_t>(std::popcount(outcomes.possible)) +
           (outcomes.none_possible ? 1 : 0) + (outcomes.conflict_possible ? 1 : 0) - 1;
}

TEST(EngineAgainstEnumeration, ReckonsWhatAQuestionRulesOutAndMakesIdleAsTryingItWould) {
    RandomModels random(12, 4);
    int reckoned = 0;
    for (int round = 0; round < 300; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        const auto cells = elementary_cells(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            const auto asked = questions(engine, table, observation, [](FactIndex) { return 1.0; });
            for (const Question& question : asked) {
                double left = 0.0;
                double open = 0.0;
                const auto parts = split(observation[question.fact], cells[question.fact]);
                for (const Value& part : parts) {
                    Observation answered = observation;
                    answered[question.fact] = part;
                    left += static_cast<double>(answers_left(engine, table, answered));
                    open += static_cast<double>(engine.can_matter(table, answered).size());
                }
                const auto count = static_cast<double>(parts.size());
                const auto now = static_cast<double>(answers_left(engine, table, observation));
                EXPECT_DOUBLE_EQ(question.rules_out, now - left / count);
                EXPECT_DOUBLE_EQ(question.makes_idle,
                                 static_cast<double>(asked.size()) - open / count);
                ++reckoned;
            }
            EXPECT_TRUE(
                std::ranges::is_sorted(asked, std::ranges::greater{}, &Question::rules_out));
        }
    }
    EXPECT_GT(reckoned, 300);
}

// The fewest facts first, then the smallest distance; each outcome found by trying every
// combination of cells.
using Price = std::pair<int, double>;

double plain_distance(const Fact& fact, const Value& from, const Value& to) {
    if (from.is_not_applicable()) return 1.0;
    if (const Interval* a = from.interval()) {
        const Interval* b = to.interval();
        const double gap = std::max({0.0, b->low - a->high, a->low - b->high});
        return fact.eye_error > 0.0 ? gap / fact.eye_error : gap;
    }
    if (fact.kind != FactKind::ordered) return 1.0;
    int nearest = std::numeric_limits<int>::max();
    for (int a = 0; a < static_cast<int>(fact.levels.size()); ++a) {
        for (int b = 0; b < static_cast<int>(fact.levels.size()); ++b) {
            const bool both = has_level(*from.level_set(), static_cast<LevelIndex>(a)) &&
                              has_level(*to.level_set(), static_cast<LevelIndex>(b));
            if (both) nearest = std::min(nearest, std::abs(a - b));
        }
    }
    return nearest;
}

std::map<OutcomeIndex, Price> cheapest(const Engine& engine, TableIndex table,
                                       const Observation& observation) {
    const Model& model = engine.model();
    const auto cells = elementary_cells(model);
    std::map<OutcomeIndex, Price> best;
    Observation changed = observation;
    const std::function<void(FactIndex, Price)> choose = [&](FactIndex fact, Price price) {
        if (fact == model.facts.size()) {
            const auto outcome = engine.decide(table, changed).outcome();
            if (!outcome) return;
            const auto [kept, added] = best.try_emplace(*outcome, price);
            if (!added) kept->second = std::min(kept->second, price);
            return;
        }
        choose(fact + 1, price);
        const Value& seen = observation[fact];
        const bool could_apply = model.condition_to_apply(fact) != nullptr;
        if (seen.is_unknown() || (seen.is_not_applicable() && !could_apply)) return;
        for (const Value& cell : cells[fact]) {
            changed[fact] = cell;
            choose(fact + 1,
                   {price.first + 1, price.second + plain_distance(model.facts[fact], seen, cell)});
        }
        changed[fact] = seen;
    };
    choose(0, {0, 0.0});
    return best;
}

TEST(EngineAgainstEnumeration, FindsTheSmallestChangeThatLeadsToEachOtherOutcome) {
    RandomModels random(7, 4);
    int of_one_fact = 0;
    int of_several = 0;
    for (int round = 0; round < 6000; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            if (model.tables[table].hit_policy == HitPolicy::collect) continue;
            const auto current = engine.decide(table, observation).outcome();
            const auto changes = engine.nearest_changes(table, observation);
            if (!current) {
                ASSERT_TRUE(changes.empty());
                continue;
            }
            auto expected = cheapest(engine, table, observation);
            expected.erase(*current);
            ASSERT_EQ(changes.size(), expected.size()) << "round " << round;
            for (const Change& change : changes) {
                Observation changed = observation;
                for (const ChangedFact& fact : change.facts) changed[fact.fact] = fact.to;
                // Each stretch is as wide as it may be while the others stay at their nearest, so
                // with one changed fact the whole of it leads there.
                if (change.facts.size() == 1) {
                    ASSERT_EQ(engine.decide(table, changed).outcome(), change.outcome);
                } else {
                    ASSERT_TRUE(has_level(engine.decide(table, changed).possible, change.outcome));
                }
                ASSERT_EQ(change.facts.size(),
                          static_cast<std::size_t>(expected[change.outcome].first))
                    << "round " << round;
                ASSERT_DOUBLE_EQ(change.distance(), expected[change.outcome].second)
                    << "round " << round;
                ++(change.facts.size() == 1 ? of_one_fact : of_several);
            }
        }
    }
    EXPECT_GT(of_one_fact, 150);
    EXPECT_GT(of_several, 30);
}

// Sufficient: with only these known the answer is the same. Minimal: without any of them it is not.
TEST(EngineAgainstEnumeration, FindsFactsThatForceTheAnswerAndOfWhichNoneCanBeLeftOut) {
    RandomModels random(23);
    int fewer_than_observed = 0;
    for (int round = 0; round < 1500; ++round) {
        const Model model = random.model();
        const Engine engine(model);
        const Observation observation = random.observation(model);
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            const bool collects = model.tables[table].hit_policy == HitPolicy::collect;
            const auto same = [&](const Observation& other) {
                return collects ? engine.collect(table, other) == engine.collect(table, observation)
                                : engine.decide(table, other) == engine.decide(table, observation);
            };
            const auto needed = engine.sufficient_facts(table, observation);
            Observation kept = engine.nothing_known();
            for (const FactIndex fact : needed) kept[fact] = observation[fact];
            ASSERT_TRUE(same(kept)) << "round " << round;
            for (const FactIndex fact : needed) {
                Observation without = kept;
                without[fact] = Value{};
                ASSERT_FALSE(same(without)) << "round " << round;
            }
            const auto observed = std::ranges::count_if(
                observation, [](const Value& value) { return !value.is_unknown(); });
            fewer_than_observed += needed.size() < static_cast<std::size_t>(observed) ? 1 : 0;
        }
    }
    EXPECT_GT(fewer_than_observed, 500);
}

}  // namespace
}  // namespace ashtriage::reason
