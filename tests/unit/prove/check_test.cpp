#include "prove/check.hpp"

#include <gmock/gmock.h>

#include "models.hpp"

namespace ashtriage::prove {
namespace {

using reason::Condition;
using reason::HitPolicy;
using reason::Interval;
using reason::Model;
using reason::only_level;
using reason::Table;
using reason::Value;
using reason::WorseClaim;
using reason::test::above;
using reason::test::below;
using reason::test::level_fact;
using reason::test::number_fact;
using reason::test::rule;
using reason::test::yes_no_fact;
using testing::IsEmpty;
using testing::SizeIs;

// Two thresholds on one number: keep below `low`, drop above `high`.
Model two_thresholds(const Interval& keep, const Interval& drop, HitPolicy policy) {
    Model model;
    model.facts = {number_fact("loss", 0, 100)};
    Table table;
    table.name = "advice";
    table.gives = {"drop", "keep"};
    table.hit_policy = policy;
    table.rules = {rule("drop", Condition::number(0, drop), 0),
                   rule("keep", Condition::number(0, keep), 1)};
    model.tables = {table};
    return model;
}

TableCheck checked(const Model& model, const CheckLimits& limits = {}) {
    return check(model, limits).tables.front();
}

TEST(Check, FindsTheGapOfASinglePointBetweenBelowAndAbove) {
    const auto found = checked(two_thresholds(below(0, 50), above(50, 100), HitPolicy::unique));
    ASSERT_THAT(found.gaps, SizeIs(1));
    EXPECT_EQ(found.gaps[0].values[0], Value::number(50));
    EXPECT_EQ(found.gaps[0].example[0], Value::number(50));
    EXPECT_EQ(found.overlap_count, 0U);
    EXPECT_FALSE(found.passed());
}

TEST(Check, FindsTheOverlapOfASinglePointBetweenAtMostAndAtLeast) {
    const auto found = checked(
        two_thresholds(Interval::closed(0, 50), Interval::closed(50, 100), HitPolicy::unique));
    EXPECT_THAT(found.gaps, IsEmpty());
    ASSERT_THAT(found.overlaps, SizeIs(1));
    EXPECT_TRUE(found.overlaps[0].conflict);
    EXPECT_FALSE(found.overlaps[0].same_outcome);
    EXPECT_EQ(found.overlaps[0].where.values[0], Value::number(50));
    EXPECT_EQ(found.conflict_count, 1U);
    EXPECT_FALSE(found.passed());
}

TEST(Check, LetsTheHitPolicySettleAnOverlap) {
    const auto found = checked(
        two_thresholds(Interval::closed(0, 50), Interval::closed(50, 100), HitPolicy::priority));
    ASSERT_THAT(found.overlaps, SizeIs(1));
    EXPECT_FALSE(found.overlaps[0].conflict);
    EXPECT_EQ(found.conflict_count, 0U);
    EXPECT_TRUE(found.passed());
}

TEST(Check, PassesWhatMeetsWithoutTouching) {
    EXPECT_TRUE(checked(two_thresholds(Interval::closed(0, 50), above(50, 100), HitPolicy::unique))
                    .passed());
}

TEST(Check, TellsARuleThatIsNeverMetFromOneThatIsAlwaysOutranked) {
    Model model = two_thresholds(Interval::closed(0, 100), above(50, 100), HitPolicy::first);
    model.tables[0].rules.insert(model.tables[0].rules.begin(),
                                 rule("never",
                                      Condition::all({Condition::number(0, above(60, 100)),
                                                      Condition::number(0, below(0, 40))}),
                                      0));
    model.tables[0].rules.push_back(rule("late", Condition::number(0, above(70, 100)), 1));
    const auto found = checked(model);
    ASSERT_THAT(found.dead_rules, SizeIs(2));
    EXPECT_EQ(found.dead_rules[0].rule, 0U);
    EXPECT_EQ(found.dead_rules[0].why, WhyDead::never_met);
    EXPECT_EQ(found.dead_rules[1].rule, 3U);
    EXPECT_EQ(found.dead_rules[1].why, WhyDead::outranked);
}

TEST(Check, ProvesThatMoreLossIsNeverAnsweredMoreMildly) {
    Model model = two_thresholds(Interval::closed(0, 50), above(50, 100), HitPolicy::unique);
    WorseClaim claim;
    claim.fact = 0;
    model.tables[0].worse = {claim};
    EXPECT_FALSE(checked(model).claims[0].refuted_by.has_value());
    EXPECT_TRUE(checked(model).passed());

    model.tables[0].worse[0].falling = true;
    const auto refuted = checked(model);
    ASSERT_TRUE(refuted.claims[0].refuted_by.has_value());
    const Counterexample& pair = *refuted.claims[0].refuted_by;
    EXPECT_EQ(pair.better_gives, 0U);  // more than 50: drop, although less is held to be worse
    EXPECT_EQ(pair.worse_gives, 1U);
    EXPECT_FALSE(refuted.passed());
}

TEST(Check, LeavesOutThePairsThatAClaimExcepts) {
    Model model = two_thresholds(above(50, 100), Interval::closed(0, 50), HitPolicy::unique);
    model.facts.push_back(yes_no_fact("treated"));
    WorseClaim claim;
    claim.fact = 0;
    model.tables[0].worse = {claim};
    EXPECT_TRUE(checked(model).claims[0].refuted_by.has_value());
    model.tables[0].worse[0].unless = Condition::number(0, above(50, 100));
    EXPECT_FALSE(checked(model).claims[0].refuted_by.has_value());
}

TEST(Check, TakesAFactForAlwaysApplyingUnlessItIsSaidThatItMayNot) {
    Model model = two_thresholds(Interval::closed(0, 50), above(50, 100), HitPolicy::unique);
    EXPECT_THAT(checked(model).gaps, IsEmpty());
    model.facts[0].may_not_apply = true;
    const auto found = checked(model);
    ASSERT_THAT(found.gaps, SizeIs(1));
    EXPECT_EQ(found.gaps[0].values[0], Value::not_applicable());
}

// Holes that are not there have no shape: a rule that asks for none of it need not be told so.
TEST(Check, KnowsWhenAFactDoesNotApply) {
    Model model;
    model.facts = {yes_no_fact("holes"),
                   level_fact("shape", reason::FactKind::choice, {"round", "flat"})};
    model.applies_if = {std::nullopt, Condition::level(0, only_level(1))};
    Table table;
    table.name = "sign";
    table.gives = {"seen", "none"};
    table.hit_policy = HitPolicy::unique;
    table.rules = {rule("seen", Condition::level(1, only_level(0) | only_level(1)), 0),
                   rule("none", Condition::level(0, only_level(0)), 1)};
    model.tables = {table};
    EXPECT_TRUE(checked(model).passed());
}

TEST(Check, SaysOfWhatItCouldNotAnalyseThatItCouldNot) {
    // One test of two facts in every rule joined by "any": no box, so nothing stands in for the
    // diagram.
    Model model;
    for (int fact = 0; fact < 12; ++fact) {
        model.facts.push_back(number_fact("f" + std::to_string(fact), 0, 10));
    }
    Table table;
    table.name = "wide";
    table.gives = {"yes"};
    table.hit_policy = HitPolicy::unique;
    for (reason::FactIndex fact = 0; fact < 6; ++fact) {
        table.rules.push_back(rule("r" + std::to_string(fact),
                                   Condition::any({Condition::number(fact, above(5, 10)),
                                                   Condition::number(fact + 6, above(5, 10))}),
                                   0));
    }
    model.tables = {table};
    CheckLimits tight;
    tight.diagram = 10;
    const auto found = checked(model, tight);
    EXPECT_FALSE(found.gaps_analysed);
    EXPECT_FALSE(found.overlaps_analysed);
    EXPECT_FALSE(found.dead_rules_analysed);
    EXPECT_FALSE(found.claims_analysed);
    EXPECT_FALSE(found.analysed());
    EXPECT_FALSE(found.passed());
    EXPECT_TRUE(checked(model).analysed());
}

}  // namespace
}  // namespace ashtriage::prove
