#include "prove/regions.hpp"

#include <gtest/gtest.h>

#include "enumeration.hpp"

namespace ashtriage::prove {
namespace {

using reason::Interval;
using reason::Observation;
using reason::Value;

TEST(ExampleOf, TakesTheLowEndWhereItBelongsToTheStretch) {
    EXPECT_EQ(example_of({Value::range(Interval::closed(30, 50))})[0], Value::number(30));
    EXPECT_EQ(example_of({Value::range({30, 50, false, true})})[0], Value::number(30));
}

TEST(ExampleOf, TakesTheNextPlainNumberWhereTheLowEndDoesNotBelongToIt) {
    EXPECT_EQ(example_of({Value::range({15, 3000, true, false})})[0], Value::number(16));
    EXPECT_EQ(example_of({Value::range({0, 1, true, true})})[0], Value::number(0.1));
    EXPECT_EQ(example_of({Value::range({1, 2.2, true, true})})[0], Value::number(2));
    EXPECT_EQ(example_of({Value::range({0.25, 0.3, true, true})})[0], Value::number(0.26));
}

TEST(ExampleOf, TakesTheFirstOfSeveralLevels) {
    EXPECT_EQ(example_of({Value::levels(6)})[0], Value::level(1));
}

TEST(ExampleOf, LeavesOpenWhatMayBeAnything) {
    EXPECT_EQ(example_of({Value{}})[0], Value{});
}

// However few are asked for, it is said that there are more.
TEST(Regions, SaysWhenThereIsMoreThanItWasToFind) {
    reason::Model model;
    model.facts = {reason::test::number_fact("a", 0, 100), reason::test::number_fact("b", 0, 100)};
    reason::Table table;
    table.name = "t";
    table.gives = {"x"};
    table.hit_policy = reason::HitPolicy::first;
    // Two corners.
    using reason::Condition;
    using reason::test::above;
    using reason::test::below;
    table.rules = {
        reason::test::rule("corners",
                           Condition::any({Condition::all({Condition::number(0, below(0, 10)),
                                                           Condition::number(1, below(0, 10))}),
                                           Condition::all({Condition::number(0, above(90, 100)),
                                                           Condition::number(1, above(90, 100))})}),
                           0)};
    model.tables = {table};
    const auto branches = reason::branches_of(model, reason::DoesNotApply::where_it_can_be);
    reason::Compiler compiler(model, branches, {0, 1});
    ASSERT_TRUE(compiler.compile(0, 1000));
    const reason::Node set = compiler.compiled(0)->rules[0];
    compiler.store().allow(1000);
    EXPECT_TRUE(regions(compiler, model, branches, set, 1).more);
    const Regions all = regions(compiler, model, branches, set, 5);
    EXPECT_FALSE(all.more);
    EXPECT_EQ(all.found.size(), 2U);
}

}  // namespace
}  // namespace ashtriage::prove
