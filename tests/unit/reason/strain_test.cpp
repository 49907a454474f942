// Rule sets far larger than anybody would write by hand: they cost a bounded amount of work, and
// what could not be looked into is said to be so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "models.hpp"
#include "reason/engine.hpp"

namespace ashtriage::reason {
namespace {

using test::number_fact;
using test::rule;

// Rules that each take a small piece of every one of eight facts, so that hardly any two share a
// threshold: no diagram of them is small.
Table scattered_rules(std::size_t facts, std::size_t rules, std::mt19937_64& random) {
    Table table;
    table.name = "scattered";
    table.gives = {"one", "two", "three"};
    table.hit_policy = HitPolicy::first;
    std::uniform_real_distribution<double> somewhere(0.0, 900.0);
    for (std::size_t i = 0; i < rules; ++i) {
        std::vector<Condition> parts;
        for (FactIndex fact = 0; fact < facts; ++fact) {
            const double low = somewhere(random);
            parts.push_back(Condition::number(fact, Interval::closed(low, low + 100.0)));
        }
        table.rules.push_back(
            rule("r" + std::to_string(i), Condition::all(std::move(parts)), i % 3));
    }
    return table;
}

Model scattered(std::size_t facts, std::size_t rules) {
    std::mt19937_64 random(20260401);
    Model model;
    for (std::size_t i = 0; i < facts; ++i) {
        model.facts.push_back(number_fact("f" + std::to_string(i), 0.0, 1000.0));
    }
    model.tables.push_back(scattered_rules(facts, rules, random));
    return model;
}

TEST(AStrain, OfTenThousandScatteredRulesIsAnsweredWithoutADiagram) {
    const Engine engine(scattered(8, 10'000));
    ASSERT_FALSE(engine.has_diagram(0));

    const Outcomes open = engine.decide(0, engine.nothing_known());
    EXPECT_FALSE(open.exact);
    EXPECT_EQ(open.possible, all_levels(3));
    EXPECT_TRUE(open.none_possible);
    EXPECT_FALSE(open.decided());

    // A known case is still looked into wholly.
    Observation known = engine.nothing_known();
    for (Value& value : known) value = Value::number(450.5);
    EXPECT_TRUE(engine.decide(0, known).exact);
}

TEST(AStrain, OfACollectTableLeavesOpenWhatWasNotLookedInto) {
    Model model = scattered(8, 10'000);
    model.tables.front().hit_policy = HitPolicy::collect;
    const Engine engine(std::move(model));
    const Collected open = engine.collect(0, engine.nothing_known());
    EXPECT_EQ(open.certain, LevelSet{0});
    EXPECT_EQ(open.possible, all_levels(3));
}

TEST(AStrain, OfManyHardTablesTakesNoMoreThanOneStoreMayHold) {
    std::mt19937_64 random(7);
    Model model = scattered(5, 0);
    for (std::size_t i = 0; i < 64; ++i) {
        Table table = scattered_rules(5, 60, random);
        table.name += std::to_string(i);
        model.tables.push_back(std::move(table));
    }
    const std::size_t tables = model.tables.size();
    const Engine engine(std::move(model));
    std::size_t compiled = 0;
    for (TableIndex table = 0; table < tables; ++table) compiled += engine.has_diagram(table);
    EXPECT_GT(compiled, 0U);
    EXPECT_LT(compiled, tables);
}

}  // namespace
}  // namespace ashtriage::reason
