// Checks of decision tables held against the literature on checking them.
//
// The loan table is the example of Calvanese, Dumas, Laurson, Maggi, Montali and Teinemaa,
// "Semantics and Analysis of DMN Decision Tables" (2016), written down from memory: four rules over
// annual income and loan size under the policy "unique". Two of them overlap on both columns from
// 500 to 1000, touching at the end of a closed interval, and much is left uncovered.
#include <gmock/gmock.h>

#include "prove/check.hpp"
#include "reason/engine.hpp"

namespace ashtriage::prove {
namespace {

using reason::Condition;
using reason::Interval;
using reason::Value;

constexpr reason::FactIndex income = 0;
constexpr reason::FactIndex loan = 1;

reason::Fact amount(std::string name) {
    reason::Fact fact;
    fact.name = std::move(name);
    fact.kind = reason::FactKind::number;
    fact.range = Interval::closed(0, 5000);
    return fact;
}

reason::Model loan_table() {
    reason::Model model;
    model.facts = {amount("annual_income"), amount("loan_size")};
    reason::Table table;
    table.name = "grade";
    table.gives = {"very_good", "good", "fair", "poor"};
    table.hit_policy = reason::HitPolicy::unique;
    const auto rule = [](std::string id, double from, double to, double low, double high,
                         reason::OutcomeIndex grade) {
        return reason::Rule{std::move(id),
                            Condition::all({Condition::number(income, Interval::closed(from, to)),
                                            Condition::number(loan, Interval::closed(low, high))}),
                            grade};
    };
    table.rules = {rule("A", 0, 1000, 0, 1000, 0), rule("B", 250, 750, 4000, 5000, 1),
                   rule("C", 500, 1500, 500, 3000, 2), rule("D", 2000, 2500, 0, 2000, 3)};
    model.tables = {table};
    return model;
}

TEST(TheLoanTable, HasOneOverlapOfTheFirstAndThirdRule) {
    const TableCheck found = check(loan_table()).tables.front();
    EXPECT_EQ(found.overlap_count, 1U);
    ASSERT_EQ(found.overlaps.size(), 1U);
    EXPECT_EQ(found.overlaps[0].first, 0U);
    EXPECT_EQ(found.overlaps[0].second, 2U);
    EXPECT_TRUE(found.overlaps[0].conflict);
    EXPECT_EQ(found.overlaps[0].where.values[income], Value::range(Interval::closed(500, 1000)));
    EXPECT_EQ(found.overlaps[0].where.values[loan], Value::range(Interval::closed(500, 1000)));
}

TEST(TheLoanTable, IsNotComplete) {
    const TableCheck found = check(loan_table()).tables.front();
    EXPECT_FALSE(found.gaps.empty());
    const reason::Engine engine(loan_table());
    for (const Region& gap : found.gaps) {
        reason::Observation example = gap.example;
        for (Value& value : example) {
            if (value.is_unknown()) value = Value::number(0);
        }
        EXPECT_TRUE(engine.decide(0, example).none_possible);
    }
}

TEST(TheLoanTable, HasNoRuleThatNeverFires) {
    EXPECT_THAT(check(loan_table()).tables.front().dead_rules, testing::IsEmpty());
}

TEST(TheLoanTable, BecomesFreeOfConflictsUnderPriority) {
    reason::Model model = loan_table();
    model.tables[0].hit_policy = reason::HitPolicy::priority;
    const TableCheck found = check(model).tables.front();
    EXPECT_EQ(found.conflict_count, 0U);
    EXPECT_EQ(reason::Engine(model).decide(0, {Value::number(700), Value::number(700)}).outcome(),
              0U);
}

}  // namespace
}  // namespace ashtriage::prove
