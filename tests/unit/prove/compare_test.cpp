#include "prove/compare.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <optional>

#include "enumeration.hpp"

namespace ashtriage::prove {
namespace {

using reason::Condition;
using reason::FactIndex;
using reason::HitPolicy;
using reason::Interval;
using reason::Model;
using reason::Observation;
using reason::TableIndex;
using reason::Value;
using reason::test::above;
using reason::test::completions;
using reason::test::for_each_completion;
using reason::test::level_fact;
using reason::test::number_fact;
using reason::test::PlainEvaluation;
using reason::test::RandomModels;
using reason::test::rule;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

Model advice(double stop) {
    Model model;
    model.facts = {number_fact("loss", 0, 100)};
    reason::Table table;
    table.name = "advice";
    table.gives = {"drop", "keep"};
    table.hit_policy = HitPolicy::priority;
    table.rules = {rule("drop", Condition::number(0, above(stop, 100)), 0),
                   rule("keep", Condition::number(0, Interval::closed(0, stop)), 1)};
    model.tables = {table};
    return model;
}

TEST(Compare, FindsNothingBetweenAModelAndItself) {
    const Comparison same = compare(advice(50), advice(50));
    EXPECT_THAT(same.changes, IsEmpty());
    EXPECT_THAT(same.not_analysed, IsEmpty());
    EXPECT_THAT(same.facts_changed, IsEmpty());
}

TEST(Compare, NamesExactlyTheStretchBetweenTheOldThresholdAndTheNew) {
    const Comparison lower = compare(advice(50), advice(40));
    ASSERT_THAT(lower.changes, SizeIs(1));
    const ChangedAnswer& change = lower.changes[0];
    EXPECT_EQ(change.table, "advice");
    EXPECT_EQ(change.before, "keep");
    EXPECT_EQ(change.after, "drop");
    ASSERT_THAT(change.where, SizeIs(1));
    EXPECT_EQ(change.where[0].values[0], Value::range({40, 50, true, false}));
}

TEST(Compare, TellsTheWordsApartAndNotTheirOrder) {
    Model other = advice(50);
    std::swap(other.tables[0].gives[0], other.tables[0].gives[1]);
    for (reason::Rule& each : other.tables[0].rules) each.gives = 1 - each.gives;
    EXPECT_THAT(compare(advice(50), other).changes, IsEmpty());
    other.tables[0].gives[1] = "fell";
    const Comparison renamed = compare(advice(50), other);
    ASSERT_THAT(renamed.changes, SizeIs(1));
    EXPECT_EQ(renamed.changes[0].before, "drop");
    EXPECT_EQ(renamed.changes[0].after, "fell");
}

TEST(Compare, NamesFactsAndTablesThatOnlyOneOfTheTwoHas) {
    Model other = advice(50);
    other.facts.push_back(number_fact("lean", 0, 90));
    other.facts[0].range.high = 99;
    reason::Table table = other.tables[0];
    table.name = "flags";
    other.tables.push_back(table);
    const Comparison there = compare(advice(50), other);
    EXPECT_THAT(there.facts_added, ElementsAre("lean"));
    EXPECT_THAT(there.facts_changed, ElementsAre("loss"));
    EXPECT_THAT(there.tables_added, ElementsAre("flags"));
    const Comparison back = compare(other, advice(50));
    EXPECT_THAT(back.facts_removed, ElementsAre("lean"));
    EXPECT_THAT(back.tables_removed, ElementsAre("flags"));
}

TEST(Compare, TakesALevelThatOneEditionLacksForOneThatMeetsNoneOfItsTests) {
    const auto kinds = [](std::vector<std::string> levels) {
        Model model;
        model.facts = {level_fact("kind", reason::FactKind::choice, std::move(levels))};
        reason::Table table;
        table.name = "host";
        table.gives = {"ash", "other"};
        table.hit_policy = HitPolicy::priority;
        table.rules = {rule("ash", Condition::level(0, 1), 0),
                       rule("other", Condition::negation(Condition::level(0, 1)), 1)};
        model.tables = {table};
        return model;
    };
    Model with_more = kinds({"green", "white"});
    with_more.tables[0].rules[0].when = Condition::level(0, 3);
    with_more.tables[0].rules[1].when = Condition::negation(Condition::level(0, 3));
    const Comparison compared = compare(kinds({"green", "oak"}), with_more);
    ASSERT_THAT(compared.changes, SizeIs(1));
    EXPECT_EQ(compared.facts.facts[0].levels, (std::vector<std::string>{"green", "oak", "white"}));
    EXPECT_EQ(compared.changes[0].before, "other");
    EXPECT_EQ(compared.changes[0].after, "ash");
    EXPECT_EQ(compared.changes[0].where[0].values[0], Value::level(2));
}

TEST(Compare, SaysWhatItCouldNotAnalyse) {
    EXPECT_THAT(compare(advice(50), advice(40), 20, 0).not_analysed, ElementsAre("advice"));
}

// What a table comes to as a list of outcome names, so that two models can be compared.
std::vector<std::string> answer(const Model& model, TableIndex table, const Observation& known) {
    const PlainEvaluation plain(model, known);
    const reason::Table& described = model.tables[table];
    const reason::Outcomes outcomes =
        described.hit_policy == HitPolicy::collect ? reason::Outcomes{} : plain.outcome(table);
    const reason::LevelSet set =
        described.hit_policy == HitPolicy::collect ? plain.collected(table) : outcomes.possible;
    std::vector<std::string> names;
    for (std::size_t i = 0; i < described.gives.size(); ++i) {
        if (reason::has_level(set, i)) names.push_back(described.gives[i]);
    }
    if (outcomes.conflict_possible) names.push_back("conflict");
    return names;
}

bool reported(const Comparison& comparison, const std::string& table, const Observation& known) {
    return std::ranges::any_of(comparison.changes, [&](const ChangedAnswer& change) {
        return change.table == table &&
               std::ranges::any_of(change.where, [&](const Region& region) {
                   for (FactIndex fact = 0; fact < known.size(); ++fact) {
                       const auto inside =
                           completions(comparison.facts.facts[fact], region.values[fact]);
                       if (std::ranges::find(inside, known[fact]) == inside.end()) return false;
                   }
                   return true;
               });
    });
}

TEST(CompareAgainstEnumeration, ReportsExactlyTheCasesThatGetAnotherAnswer) {
    RandomModels random(51, 4);
    int changed = 0;
    int unchanged = 0;
    for (int round = 0; round < 300; ++round) {
        const Model before = random.model();
        Model after = random.model();
        after.facts = before.facts;  // other rules over the same facts
        after.applies_if = before.applies_if;
        after.tables = random.tables(before);
        const Comparison comparison = compare(before, after, 10000);
        for (TableIndex table = 0; table < before.tables.size(); ++table) {
            const auto now = after.find_table(before.tables[table].name);
            if (!now) continue;
            // What a table collects and what another comes to are compared outcome by outcome; that
            // two rules of a unique one hold together is no outcome.
            const auto collects = [](const reason::Table& each) {
                return each.hit_policy == HitPolicy::collect;
            };
            if (collects(before.tables[table]) != collects(after.tables[*now])) continue;
            for_each_completion(
                before, Observation(before.facts.size()), [&](const Observation& known) {
                    const bool differs = answer(before, table, known) != answer(after, *now, known);
                    ASSERT_EQ(reported(comparison, before.tables[table].name, known), differs)
                        << "round " << round;
                    ++(differs ? changed : unchanged);
                });
        }
    }
    EXPECT_GT(changed, 1000);
    EXPECT_GT(unchanged, 1000);
}

}  // namespace
}  // namespace ashtriage::prove
