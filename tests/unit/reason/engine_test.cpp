#include "reason/engine.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "models.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {
namespace {

using test::above;
using test::below;
using test::level_fact;
using test::number_fact;
using test::rule;
using test::yes_no_fact;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

enum Fuel : FactIndex { level, smell, colour };
enum Verdict : OutcomeIndex { stop, go, wait };

// Above 50: stop. 30 to 50: go only if it smells, else stop. Below 30: go. Red: wait, if not
// stopped.
Model traffic() {
    Model model;
    model.facts = {number_fact("level", 0, 100, 10), yes_no_fact("smell"),
                   level_fact("colour", FactKind::choice, {"red", "green", "blue"})};
    model.facts[colour].changeable = false;
    Table table;
    table.name = "verdict";
    table.gives = {"stop", "go", "wait"};
    table.hit_policy = HitPolicy::first;
    table.rules = {
        rule("over", Condition::number(level, above(50, 100)), stop),
        rule("red", Condition::level(colour, only_level(0)), wait),
        rule("middle",
             Condition::all({Condition::number(level, Interval::closed(30, 50)),
                             Condition::level(smell, only_level(0))}),
             stop),
        rule("otherwise", Condition::always(), go),
    };
    model.tables = {table};
    return model;
}

Observation seen(const Value& of_level, const Value& of_smell, const Value& of_colour) {
    return {of_level, of_smell, of_colour};
}

const Value green = Value::level(1);

TEST(Decide, KnownFactsGiveOneOutcomeOnEachSideOfAThreshold) {
    const Engine engine(traffic());
    const auto outcome = [&](double value) {
        return engine.decide(0, seen(Value::number(value), Value::no(), green)).outcome();
    };
    EXPECT_EQ(outcome(29.999), go);
    EXPECT_EQ(outcome(30), stop);
    EXPECT_EQ(outcome(50), stop);
    EXPECT_EQ(outcome(50.001), stop);
    EXPECT_EQ(engine.decide(0, seen(Value::number(50), Value::yes(), green)).outcome(), go);
}

TEST(Decide, AnUnknownThatCannotMatterLeavesTheAnswerDecided) {
    const Engine engine(traffic());
    const Observation far_over = seen(Value::number(80), Value(), Value());
    EXPECT_EQ(engine.decide(0, far_over).outcome(), stop);
    EXPECT_THAT(engine.can_matter(0, far_over), IsEmpty());
}

TEST(Decide, AnUnknownThatMattersLeavesExactlyTheOutcomesItLeadsTo) {
    const Engine engine(traffic());
    const Observation middling = seen(Value::number(40), Value(), green);
    const Outcomes outcomes = engine.decide(0, middling);
    EXPECT_EQ(outcomes.possible, only_level(stop) | only_level(go));
    EXPECT_FALSE(outcomes.none_possible);
    EXPECT_THAT(engine.can_matter(0, middling), ElementsAre(smell));
}

TEST(Decide, ARangeIsTreatedAsEveryValueInIt) {
    const Engine engine(traffic());
    const auto possible = [&](const Interval& range) {
        return engine.decide(0, seen(Value::range(range), Value::yes(), green)).possible;
    };
    EXPECT_EQ(possible(Interval::closed(40, 50)), only_level(go));
    EXPECT_EQ(possible(Interval::closed(40, 51)), only_level(stop) | only_level(go));
}

TEST(Decide, NoConditionOnAFactThatDoesNotApplyIsMet) {
    const Engine engine(traffic());
    const Observation odd = seen(Value::number(40), Value::not_applicable(), green);
    EXPECT_EQ(engine.decide(0, odd).outcome(), go);
}

TEST(Decide, BothKindsOfUnknownLeaveEveryValuePossible) {
    const Engine engine(traffic());
    for (const auto why : {WhyUnknown::not_asked, WhyUnknown::could_not_see}) {
        const Outcomes outcomes =
            engine.decide(0, seen(Value::number(40), Value::unknown(why), Value::unknown(why)));
        EXPECT_EQ(outcomes.possible, all_levels(3));
    }
}

// Whether or not it smells, one of the two rules holds: three-valued logic cannot see that.
TEST(Decide, IsExactWhereThreeValuedLogicIsNot) {
    Model model;
    model.facts = {yes_no_fact("smell")};
    Table table;
    table.name = "verdict";
    table.gives = {"stop", "go"};
    table.hit_policy = HitPolicy::priority;
    table.rules = {rule("smells", Condition::level(0, only_level(1)), 0),
                   rule("smells-not", Condition::negation(Condition::level(0, only_level(1))), 0),
                   rule("otherwise", Condition::always(), 1)};
    model.tables = {table};
    const Engine engine(model);

    const Estimates estimates = estimate(model, {0}, engine.nothing_known());
    EXPECT_EQ(estimates[0].outcomes.possible, all_levels(2));
    EXPECT_EQ(engine.decide(0, engine.nothing_known()).outcome(), 0U);
    EXPECT_THAT(engine.can_matter(0, engine.nothing_known()), IsEmpty());
}

TEST(Collect, IsExactWhereThreeValuedLogicIsNot) {
    Model model;
    model.facts = {yes_no_fact("crack"), yes_no_fact("lean")};
    const auto cracked = [] { return Condition::level(0, only_level(1)); };
    Table table;
    table.name = "flags";
    table.gives = {"always", "never", "lean"};
    table.hit_policy = HitPolicy::collect;
    table.rules = {
        rule("a", Condition::any({cracked(), Condition::negation(cracked())}), 0),
        rule("b", Condition::all({cracked(), Condition::negation(cracked())}), 1),
        rule("c", Condition::level(1, only_level(1)), 2),
    };
    model.tables = {table};
    const Engine engine(model);

    const Collected nothing_known = engine.collect(0, engine.nothing_known());
    EXPECT_EQ(nothing_known.certain, only_level(0));
    EXPECT_EQ(nothing_known.possible, only_level(0) | only_level(2));
    EXPECT_THAT(engine.can_matter(0, engine.nothing_known()), ElementsAre(1U));
}

TEST(Decide, ATableMayTestWhatAnotherCollectedOrDecided) {
    Model model;
    model.facts = {yes_no_fact("crack"), number_fact("lean", 0, 90)};
    Table last;
    last.name = "last";
    last.gives = {"act", "rest"};
    last.hit_policy = HitPolicy::first;
    last.rules = {rule("any-flag", Condition::outcome(1, only_level(0) | only_level(1)), 0),
                  rule("otherwise", Condition::always(), 1)};
    Table flags;
    flags.name = "flags";
    flags.gives = {"cracked", "leaning"};
    flags.hit_policy = HitPolicy::collect;
    flags.rules = {rule("cracked", Condition::level(0, only_level(1)), 0),
                   rule("leaning", Condition::number(1, above(40, 90)), 1)};
    model.tables = {last, flags};
    const Engine engine(model);

    EXPECT_EQ(engine.decide(0, {Value::yes(), Value()}).outcome(), 0U);
    EXPECT_EQ(engine.decide(0, {Value::no(), Value::number(40)}).outcome(), 1U);
    EXPECT_EQ(engine.decide(0, {Value::no(), Value()}).possible, all_levels(2));
    EXPECT_THAT(engine.can_matter(0, {Value::no(), Value()}), ElementsAre(1U));
    EXPECT_THAT(facts_behind(model, 0), ElementsAre(0U, 1U));
}

TEST(Firmness, AValueFartherFromEveryThresholdThanTheEyeErrorIsFirm) {
    const Engine engine(traffic());
    const Firmness firm = engine.firmness(0, seen(Value::number(19), Value::no(), green));
    EXPECT_TRUE(firm.firm);
    EXPECT_THAT(firm.measure_again, IsEmpty());
}

TEST(Firmness, AValueThatReachesAThresholdWithinTheEyeErrorIsACloseCall) {
    const Engine engine(traffic());
    const Firmness close = engine.firmness(0, seen(Value::number(20), Value::no(), green));
    EXPECT_FALSE(close.firm);
    EXPECT_EQ(close.within_error.possible, only_level(stop) | only_level(go));
    EXPECT_THAT(close.measure_again, ElementsAre(level));
}

TEST(Firmness, WhatIsNotDecidedIsNotFirm) {
    const Engine engine(traffic());
    EXPECT_FALSE(engine.firmness(0, seen(Value::number(40), Value(), green)).firm);
}

// Each error alone leaves the sum-like rule unmet; both together may meet it.
TEST(Firmness, FactsThatOpenTheAnswerOnlyTogetherAreAllNamed) {
    Model model;
    model.facts = {number_fact("left", 0, 100, 10), number_fact("right", 0, 100, 10)};
    Table table;
    table.name = "verdict";
    table.gives = {"stop", "go"};
    table.hit_policy = HitPolicy::first;
    table.rules = {rule("both-over",
                        Condition::all({Condition::number(0, above(50, 100)),
                                        Condition::number(1, above(50, 100))}),
                        0),
                   rule("otherwise", Condition::always(), 1)};
    model.tables = {table};
    const Engine engine(model);
    const Firmness close = engine.firmness(0, {Value::number(45), Value::number(45)});
    EXPECT_FALSE(close.firm);
    EXPECT_THAT(close.measure_again, ElementsAre(0U, 1U));
}

TEST(NearestChanges, NamesTheLeastChangeOfOneFactAndNeverAnUnchangeableOne) {
    const Engine engine(traffic());
    const auto changes = engine.nearest_changes(0, seen(Value::number(42), Value::no(), green));
    ASSERT_EQ(changes.size(), 1U);  // "wait" needs another colour, which cannot change
    EXPECT_EQ(changes[0].outcome, go);
    ASSERT_EQ(changes[0].facts.size(), 1U);
    EXPECT_EQ(changes[0].facts[0].fact, smell);
    EXPECT_EQ(changes[0].facts[0].to, Value::yes());
    EXPECT_EQ(changes[0].distance(), 1.0);
}

TEST(NearestChanges, JoinsTheStretchesThatLeadToTheSameOutcome) {
    const Engine engine(traffic());
    const auto changes = engine.nearest_changes(0, seen(Value::number(60), Value::yes(), green));
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].outcome, go);
    ASSERT_EQ(changes[0].facts.size(), 1U);
    EXPECT_EQ(changes[0].facts[0].to, Value::range(Interval::closed(0, 50)));
    EXPECT_EQ(changes[0].distance(), 1.0);  // ten points, one eye error
}

TEST(NearestChanges, AreNoneWhileTheAnswerIsOpen) {
    const Engine engine(traffic());
    EXPECT_THAT(engine.nearest_changes(0, seen(Value::number(40), Value(), green)), IsEmpty());
}

TEST(Explain, TellsOfEachRuleWhetherItHeldAndWhichDecided) {
    const Engine engine(traffic());
    const auto traces = engine.explain(0, seen(Value::number(40), Value::no(), green));
    ASSERT_EQ(traces.size(), 4U);
    EXPECT_EQ(traces[0].holds, Truth::no);
    EXPECT_EQ(traces[2].holds, Truth::yes);
    EXPECT_TRUE(traces[2].decides);
    EXPECT_EQ(traces[3].holds, Truth::yes);
    EXPECT_FALSE(traces[3].decides);  // the first rule that holds decides
    ASSERT_EQ(traces[2].condition.parts.size(), 2U);
    EXPECT_EQ(traces[2].condition.parts[1].truth, Truth::yes);
}

TEST(Explain, AnUnknownFactLeavesItsRuleUndecided) {
    const Engine engine(traffic());
    const auto traces = engine.explain(0, seen(Value::number(40), Value(), green));
    EXPECT_EQ(traces[2].holds, Truth::maybe);
    EXPECT_EQ(traces[2].condition.parts[0].truth, Truth::yes);
    EXPECT_EQ(traces[2].condition.parts[1].truth, Truth::maybe);
}

TEST(EngineRefuses, TablesThatFeedEachOtherInACircle) {
    Model model = traffic();
    Table other = model.tables[0];
    other.rules = {rule("circle", Condition::outcome(0, only_level(0)), 0)};
    model.tables[0].rules[0].when = Condition::outcome(1, only_level(0));
    model.tables.push_back(other);
    EXPECT_THROW(Engine{model}, std::invalid_argument);
}

TEST(EngineRefuses, WhatTheModelDoesNotDeclare) {
    Model no_such_fact = traffic();
    no_such_fact.tables[0].rules[0].when = Condition::number(7, Interval::closed(0, 1));
    EXPECT_THROW(Engine{no_such_fact}, std::invalid_argument);

    Model level_of_a_number = traffic();
    level_of_a_number.tables[0].rules[0].when = Condition::level(level, 1);
    EXPECT_THROW(Engine{level_of_a_number}, std::invalid_argument);

    Model no_such_level = traffic();
    no_such_level.tables[0].rules[0].when = Condition::level(smell, only_level(2));
    EXPECT_THROW(Engine{no_such_level}, std::invalid_argument);

    Model no_such_outcome = traffic();
    no_such_outcome.tables[0].rules[0].gives = 3;
    EXPECT_THROW(Engine{no_such_outcome}, std::invalid_argument);
}

}  // namespace
}  // namespace ashtriage::reason
