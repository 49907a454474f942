// The hit policies as the OMG Decision Model and Notation standard names them (restated from
// memory): unique: at most one rule may match; first: the first in rule order; priority: the match
// whose output stands first in the list of output values; collect: all.
#include <gtest/gtest.h>

#include "models.hpp"
#include "reason/engine.hpp"

namespace ashtriage::reason {
namespace {

using test::number_fact;
using test::rule;

// Two rules overlap on 40 to 60; the later one gives the outcome that stands first.
Model overlapping(HitPolicy policy) {
    Model model;
    model.facts = {number_fact("x", 0, 100)};
    Table table;
    table.name = "t";
    table.gives = {"high", "low"};
    table.hit_policy = policy;
    table.rules = {rule("low", Condition::number(0, Interval::closed(20, 60)), 1),
                   rule("high", Condition::number(0, Interval::closed(40, 80)), 0)};
    model.tables = {table};
    return model;
}

Outcomes at(HitPolicy policy, double x) {
    return Engine(overlapping(policy)).decide(0, {Value::number(x)});
}

TEST(HitPolicy, UniqueReportsAConflictWhereTwoRulesMatch) {
    EXPECT_EQ(at(HitPolicy::unique, 30).outcome(), 1U);
    EXPECT_EQ(at(HitPolicy::unique, 70).outcome(), 0U);
    EXPECT_TRUE(at(HitPolicy::unique, 50).conflict_possible);
    EXPECT_EQ(at(HitPolicy::unique, 50).possible, 0U);
}

TEST(HitPolicy, FirstTakesTheEarlierRule) {
    EXPECT_EQ(at(HitPolicy::first, 50).outcome(), 1U);
}

TEST(HitPolicy, PriorityTakesTheEarlierOutcome) {
    EXPECT_EQ(at(HitPolicy::priority, 50).outcome(), 0U);
}

TEST(HitPolicy, CollectTakesBoth) {
    const Collected both = Engine(overlapping(HitPolicy::collect)).collect(0, {Value::number(50)});
    EXPECT_EQ(both.certain, all_levels(2));
}

TEST(HitPolicy, WhereNoRuleMatchesThereIsNoOutcomeRatherThanADefault) {
    for (const auto policy : {HitPolicy::unique, HitPolicy::first, HitPolicy::priority}) {
        const Outcomes gap = at(policy, 10);
        EXPECT_TRUE(gap.none_possible);
        EXPECT_EQ(gap.possible, 0U);
        EXPECT_FALSE(gap.decided());
    }
}

TEST(HitPolicy, AnOverlapAtASingleBoundaryPointIsFound) {
    Model model = overlapping(HitPolicy::unique);
    model.tables[0].rules[1].when = Condition::number(0, Interval::closed(60, 80));
    const Engine engine(model);
    EXPECT_TRUE(engine.decide(0, {Value::number(60)}).conflict_possible);
    EXPECT_EQ(engine.decide(0, {Value::number(60.001)}).outcome(), 0U);
    EXPECT_TRUE(engine.decide(0, {Value()}).conflict_possible);
}

}  // namespace
}  // namespace ashtriage::reason
