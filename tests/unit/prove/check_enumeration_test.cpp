// Checks of random models against plain enumeration: every combination of values tried, the rules
// evaluated in ordinary two-valued logic.
#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <functional>
#include <optional>
#include <set>
#include <utility>

#include "enumeration.hpp"
#include "prove/check.hpp"

namespace ashtriage::prove {
namespace {

using reason::FactIndex;
using reason::HitPolicy;
using reason::Model;
using reason::Observation;
using reason::OutcomeIndex;
using reason::RuleIndex;
using reason::TableIndex;
using reason::Value;
using reason::test::completions;
using reason::test::for_each_completion;
using reason::test::PlainEvaluation;
using reason::test::RandomModels;

constexpr int rounds = 400;

void for_each_case(const Model& model, const std::function<void(const Observation&)>& action) {
    for_each_completion(model, Observation(model.facts.size()), action);
}

bool lies_in(const Model& model, const Observation& known, const Observation& region) {
    for (FactIndex fact = 0; fact < known.size(); ++fact) {
        const auto inside = completions(model.facts[fact], region[fact]);
        if (std::ranges::find(inside, known[fact]) == inside.end()) return false;
    }
    return true;
}

// What a region leaves open is filled in with anything.
Observation filled(const Model& model, const Observation& example) {
    Observation known = example;
    for (FactIndex fact = 0; fact < known.size(); ++fact) {
        if (known[fact].is_unknown()) {
            known[fact] = completions(model.facts[fact], known[fact]).front();
        }
    }
    return known;
}

TEST(CheckAgainstEnumeration, ReportsExactlyTheCasesInWhichNoRuleHolds) {
    RandomModels random(41, 4);
    int with_gap = 0;
    int complete = 0;
    for (int round = 0; round < rounds; ++round) {
        const Model model = random.model();
        const ModelCheck found = check(model);
        for (const TableCheck& table : found.tables) {
            if (model.tables[table.table].hit_policy == HitPolicy::collect) continue;
            ASSERT_TRUE(table.gaps_analysed);
            ASSERT_FALSE(table.more_gaps);
            for_each_case(model, [&](const Observation& known) {
                const bool unanswered = PlainEvaluation(model, known).holding(table.table).empty();
                const bool reported = std::ranges::any_of(table.gaps, [&](const Region& gap) {
                    return lies_in(model, known, gap.values);
                });
                ASSERT_EQ(reported, unanswered) << "round " << round;
            });
            for (const Region& gap : table.gaps) {
                const Observation example = filled(model, gap.example);
                EXPECT_TRUE(PlainEvaluation(model, example).holding(table.table).empty());
            }
            ++(table.gaps.empty() ? complete : with_gap);
        }
    }
    EXPECT_GT(with_gap, 100);
    EXPECT_GT(complete, 20);
}

TEST(CheckAgainstEnumeration, ReportsExactlyTheRulesThatHoldTogether) {
    RandomModels random(42, 4);
    int overlapping = 0;
    for (int round = 0; round < rounds; ++round) {
        const Model model = random.model();
        const ModelCheck found = check(model);
        for (const TableCheck& table : found.tables) {
            const reason::Table& described = model.tables[table.table];
            std::set<std::pair<const reason::Rule*, const reason::Rule*>> together;
            for_each_case(model, [&](const Observation& known) {
                const auto holding = PlainEvaluation(model, known).holding(table.table);
                for (std::size_t a = 0; a < holding.size(); ++a) {
                    for (std::size_t b = a + 1; b < holding.size(); ++b) {
                        together.emplace(holding[a], holding[b]);
                    }
                }
            });
            ASSERT_TRUE(table.overlaps_analysed);
            ASSERT_EQ(table.overlap_count, together.size()) << "round " << round;
            ASSERT_EQ(table.overlaps.size(), together.size());
            const bool unique = described.hit_policy == HitPolicy::unique;
            EXPECT_EQ(table.conflict_count, unique ? together.size() : 0U);
            for (const Overlap& overlap : table.overlaps) {
                const reason::Rule* first = &described.rules[overlap.first];
                const reason::Rule* second = &described.rules[overlap.second];
                EXPECT_TRUE(together.contains({first, second}));
                EXPECT_EQ(overlap.conflict, unique);
                EXPECT_EQ(overlap.same_outcome, first->gives == second->gives);
                const Observation example = filled(model, overlap.where.example);
                const auto holding = PlainEvaluation(model, example).holding(table.table);
                EXPECT_NE(std::ranges::find(holding, first), holding.end());
                EXPECT_NE(std::ranges::find(holding, second), holding.end());
                ++overlapping;
            }
        }
    }
    EXPECT_GT(overlapping, 200);
}

// The rules that in some case are met, and those that in some case give the answer.
void expect_dead_rules(const Model& model, const TableCheck& table, int& dead_seen) {
    const reason::Table& described = model.tables[table.table];
    std::vector<bool> met(described.rules.size(), false);
    std::vector<bool> decides(described.rules.size(), false);
    for_each_case(model, [&](const Observation& known) {
        const PlainEvaluation plain(model, known);
        const auto holding = plain.holding(table.table);
        for (const reason::Rule* rule : holding) {
            const auto index = static_cast<std::size_t>(rule - described.rules.data());
            met[index] = true;
            switch (described.hit_policy) {
                case HitPolicy::first:
                    decides[index] = decides[index] || rule == holding.front();
                    break;
                case HitPolicy::priority:
                    decides[index] =
                        decides[index] ||
                        reason::has_level(plain.outcome(table.table).possible, rule->gives);
                    break;
                case HitPolicy::unique:
                case HitPolicy::collect:
                    decides[index] = true;
            }
        }
    });
    ASSERT_TRUE(table.dead_rules_analysed);
    for (RuleIndex rule = 0; rule < described.rules.size(); ++rule) {
        const auto dead = std::ranges::find(table.dead_rules, rule, &DeadRule::rule);
        ASSERT_EQ(dead != table.dead_rules.end(), !decides[rule]);
        if (dead == table.dead_rules.end()) continue;
        EXPECT_EQ(dead->why == WhyDead::never_met, !met[rule]);
        ++dead_seen;
    }
}

TEST(CheckAgainstEnumeration, ReportsExactlyTheRulesThatNeverDecide) {
    RandomModels random(43, 4);
    int dead = 0;
    for (int round = 0; round < rounds; ++round) {
        const Model model = random.model();
        for (const TableCheck& table : check(model).tables) expect_dead_rules(model, table, dead);
    }
    EXPECT_GT(dead, 100);
}

TEST(CheckAgainstEnumeration, ReportsExactlyTheFactsThatMakeNoDifference) {
    RandomModels random(44, 4);
    int idle = 0;
    for (int round = 0; round < rounds; ++round) {
        const Model model = random.model();
        const ModelCheck found = check(model);
        for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
            bool matters = false;
            for_each_case(model, [&](const Observation& known) {
                if (matters) return;
                Observation other = known;
                for (const Value& value : completions(model.facts[fact], Value{})) {
                    other[fact] = value;
                    for (TableIndex table = 0; table < model.tables.size(); ++table) {
                        const PlainEvaluation here(model, known);
                        const PlainEvaluation there(model, other);
                        const bool collects = model.tables[table].hit_policy == HitPolicy::collect;
                        matters =
                            matters || (collects ? here.collected(table) != there.collected(table)
                                                 : here.outcome(table) != there.outcome(table));
                    }
                }
            });
            const auto& vain = found.tested_in_vain;
            const auto& never = found.never_tested;
            const bool reported = std::ranges::find(vain, fact) != vain.end() ||
                                  std::ranges::find(never, fact) != never.end();
            ASSERT_EQ(reported, !matters) << "round " << round << " " << model.facts[fact].name;
            idle += reported ? 1 : 0;
        }
    }
    EXPECT_GT(idle, 100);
}

// How bad a value is by the claim; nothing for levels that it does not compare.
std::optional<double> badness(const reason::WorseClaim& claim, const Value& value) {
    if (const reason::Interval* number = value.interval()) {
        return claim.falling ? -number->low : number->low;
    }
    const auto level = static_cast<std::size_t>(std::countr_zero(*value.level_set()));
    if (claim.order.empty()) return claim.falling ? -double(level) : double(level);
    const auto place = std::ranges::find(claim.order, level);
    if (place == claim.order.end()) return std::nullopt;
    return double(place - claim.order.begin());
}

bool milder(const Model& model, TableIndex table, const reason::WorseClaim& claim,
            const Observation& better, const Observation& worse) {
    const PlainEvaluation before(model, better);
    const PlainEvaluation after(model, worse);
    if (claim.unless && (before.holds(*claim.unless) || after.holds(*claim.unless))) return false;
    if (model.tables[table].hit_policy == HitPolicy::collect) {
        return (before.collected(table) & ~after.collected(table) & ~claim.excepted) != 0;
    }
    const auto outcome = [&](const PlainEvaluation& plain) {
        return plain.outcome(table).possible;  // one bit, or none without an answer
    };
    return outcome(before) != 0 && outcome(after) != 0 && outcome(after) > outcome(before);
}

TEST(CheckAgainstEnumeration, ProvesExactlyTheClaimsThatHold) {
    RandomModels random(45, 4);
    int proved = 0;
    int refuted = 0;
    for (int round = 0; round < rounds; ++round) {
        Model model = random.model();
        for (reason::Table& table : model.tables) table.worse = {random.claim(model, table)};
        const ModelCheck found = check(model);
        for (const TableCheck& table : found.tables) {
            const reason::WorseClaim& claim = model.tables[table.table].worse.front();
            bool holds = true;
            for_each_case(model, [&](const Observation& better) {
                Observation worse = better;
                for (const Value& value : completions(model.facts[claim.fact], Value{})) {
                    worse[claim.fact] = value;
                    const auto from = badness(claim, better[claim.fact]);
                    const auto to = badness(claim, value);
                    if (!from || !to || *from >= *to) continue;
                    holds = holds && !milder(model, table.table, claim, better, worse);
                }
            });
            ASSERT_TRUE(table.claims_analysed);
            ASSERT_EQ(table.claims.size(), 1U);
            const auto& counterexample = table.claims.front().refuted_by;
            ASSERT_EQ(counterexample.has_value(), !holds) << "round " << round;
            ++(holds ? proved : refuted);
            if (!counterexample) continue;
            const Observation better = filled(model, example_of(counterexample->better));
            const Observation worse = filled(model, example_of(counterexample->worse));
            for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
                EXPECT_TRUE(fact == claim.fact || better[fact] == worse[fact]);
            }
            EXPECT_LT(badness(claim, better[claim.fact]), badness(claim, worse[claim.fact]));
            EXPECT_TRUE(milder(model, table.table, claim, better, worse)) << "round " << round;
        }
    }
    EXPECT_GT(proved, 50);
    EXPECT_GT(refuted, 50);
}

}  // namespace
}  // namespace ashtriage::prove
