#include "prove/box_check.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <random>
#include <set>

#include "models.hpp"

namespace ashtriage::prove {
namespace {

using reason::Condition;
using reason::HitPolicy;
using reason::Interval;
using reason::Model;
using reason::test::level_fact;
using reason::test::number_fact;
using reason::test::rule;
using testing::IsEmpty;

// Boxes over two numbers and a choice, some of them with a side left out.
Model random_boxes(std::mt19937& random, int rules) {
    const auto below = [&](int end) {
        return static_cast<int>(random() % static_cast<unsigned>(end));
    };
    Model model;
    model.facts = {number_fact("a", 0, 10), number_fact("b", 0, 10),
                   level_fact("c", reason::FactKind::choice, {"x", "y", "z"})};
    reason::Table table;
    table.name = "boxes";
    table.gives = {"one", "two"};
    table.hit_policy = HitPolicy::unique;
    for (int i = 0; i < rules; ++i) {
        std::vector<Condition> sides;
        for (const reason::FactIndex fact : {0U, 1U}) {
            if (below(4) == 0) continue;
            const double low = below(8);
            const double high = low + 1 + below(5);
            sides.push_back(
                Condition::number(fact, {low, std::min(high, 10.0), below(2) == 0, below(2) == 0}));
        }
        if (below(3) != 0) {
            sides.push_back(Condition::level(2, static_cast<reason::LevelSet>(1 + below(7))));
        }
        table.rules.push_back(rule("r" + std::to_string(i), Condition::all(std::move(sides)),
                                   static_cast<reason::OutcomeIndex>(below(2))));
    }
    model.tables = {table};
    return model;
}

TableCheck by_boxes(const Model& model, std::size_t steps = 1U << 20U) {
    const auto branches = reason::branches_of(model, reason::DoesNotApply::where_it_can_be);
    const auto boxes = BoxTable::of(model, branches, 0);
    TableCheck check;
    EXPECT_TRUE(boxes.has_value());
    if (!boxes) return check;
    boxes->find_overlaps(check, 1000000);
    boxes->find_gaps(check, steps, 1000000);
    return check;
}

std::set<std::pair<std::size_t, std::size_t>> pairs(const TableCheck& check) {
    std::set<std::pair<std::size_t, std::size_t>> pairs;
    for (const Overlap& overlap : check.overlaps) pairs.emplace(overlap.first, overlap.second);
    return pairs;
}

TEST(BoxTable, AgreesWithTheDiagramOnOverlapsAndOnWhetherThereAreGaps) {
    std::mt19937 random(6);
    int complete = 0;
    for (int round = 0; round < 400; ++round) {
        const Model model = random_boxes(random, 1 + round % 30);
        const TableCheck boxes = by_boxes(model);
        const TableCheck diagram = check(model).tables.front();
        ASSERT_EQ(boxes.overlap_count, diagram.overlap_count) << "round " << round;
        ASSERT_EQ(boxes.conflict_count, diagram.conflict_count);
        if (diagram.overlap_count <= CheckLimits{}.most_examples) {
            ASSERT_EQ(pairs(boxes), pairs(diagram));
        }
        ASSERT_TRUE(boxes.gaps_analysed);
        ASSERT_EQ(boxes.gaps.empty(), diagram.gaps.empty()) << "round " << round;
        complete += boxes.gaps.empty() ? 1 : 0;
        // Every place that is reported is a place where no rule holds.
        for (const Region& gap : boxes.gaps) {
            for (const reason::Rule& each : model.tables[0].rules) {
                const bool meets = std::ranges::all_of(each.when.parts, [&](const Condition& side) {
                    if (const auto* number = std::get_if<reason::NumberTest>(&side.test)) {
                        const auto* at = gap.example[number->fact].interval();
                        return at == nullptr || number->accepted.contains(at->low);
                    }
                    const auto& level = std::get<reason::LevelTest>(side.test);
                    const auto* at = gap.example[level.fact].level_set();
                    return at == nullptr || (*at & level.accepted) != 0;
                });
                ASSERT_FALSE(meets) << "round " << round << " " << each.id;
            }
        }
    }
    EXPECT_GT(complete, 20);
}

TEST(BoxTable, IsNotForRulesThatAreMoreThanBoxes) {
    std::mt19937 random(6);
    const auto is_box_table = [](const Model& model) {
        const auto branches = reason::branches_of(model, reason::DoesNotApply::where_it_can_be);
        return BoxTable::of(model, branches, 0).has_value();
    };
    Model model = random_boxes(random, 3);
    EXPECT_TRUE(is_box_table(model));
    model.facts[0].may_not_apply = true;
    model.tables[0].rules[0].when = Condition::number(0, Interval::closed(1, 2));
    EXPECT_FALSE(is_box_table(model));
    model = random_boxes(random, 3);
    model.tables[0].rules[1].when = Condition::any({Condition::number(0, Interval::closed(1, 2)),
                                                    Condition::number(1, Interval::closed(1, 2))});
    EXPECT_FALSE(is_box_table(model));
    model.tables[0].rules[1].when = Condition::negation(Condition::level(2, 1));
    EXPECT_FALSE(is_box_table(model));
}

TEST(BoxTable, SaysWhenTheStepsEndedBeforeEverythingWasLookedInto) {
    std::mt19937 random(8);
    const Model model = random_boxes(random, 30);
    EXPECT_TRUE(by_boxes(model).gaps_analysed);
    const TableCheck cut_short = by_boxes(model, 3);
    EXPECT_FALSE(cut_short.gaps_analysed);
    EXPECT_FALSE(cut_short.passed());
}

// 1,000 rules over 8 facts, a table as it comes from a tree of decisions whose leaves were then
// widened or narrowed by a tenth (as in Calvanese et al. 2016): far past what a diagram can hold.
Model widened_leaves(std::mt19937& random, int rules, bool widened) {
    struct Leaf {
        std::vector<Interval> sides;
    };
    const int facts = 8;
    std::vector<Leaf> leaves{{std::vector<Interval>(facts, Interval::closed(0, 1000))}};
    while (static_cast<int>(leaves.size()) < rules) {
        const std::size_t which = random() % leaves.size();
        const std::size_t fact = random() % facts;
        Leaf other = leaves[which];
        const Interval whole = leaves[which].sides[fact];
        if (whole.high - whole.low < 2) continue;
        const double cut = std::floor((whole.low + whole.high) / 2);
        leaves[which].sides[fact] = {whole.low, cut, whole.low_open, false};
        other.sides[fact] = {cut, whole.high, true, whole.high_open};
        leaves.push_back(other);
    }
    Model model;
    for (int fact = 0; fact < facts; ++fact) {
        model.facts.push_back(number_fact("f" + std::to_string(fact), 0, 1000));
    }
    reason::Table table;
    table.name = "leaves";
    table.gives = {"a", "b"};
    table.hit_policy = HitPolicy::unique;
    int number = 0;
    for (Leaf& leaf : leaves) {
        if (number % 10 == 0) {
            Interval& side = leaf.sides[random() % facts];
            const double tenth = (side.high - side.low) / 10;
            side = widened ? Interval{std::max(0.0, side.low - tenth),
                                      std::min(1000.0, side.high + tenth), false, false}
                           : Interval{side.low + tenth, side.high - tenth, true, false};
        }
        std::vector<Condition> sides;
        for (int fact = 0; fact < facts; ++fact) {
            sides.push_back(Condition::number(static_cast<reason::FactIndex>(fact),
                                              leaf.sides[static_cast<std::size_t>(fact)]));
        }
        table.rules.push_back(rule("r" + std::to_string(number), Condition::all(std::move(sides)),
                                   static_cast<reason::OutcomeIndex>(number % 2)));
        ++number;
    }
    model.tables = {table};
    return model;
}

TEST(BoxTable, TakesTablesFarTooLargeForADiagram) {
    std::mt19937 random(9);
    const TableCheck wide = by_boxes(widened_leaves(random, 1000, true), 1U << 26U);
    EXPECT_THAT(wide.gaps, IsEmpty());
    EXPECT_TRUE(wide.gaps_analysed);
    EXPECT_GT(wide.overlap_count, 0U);
    const TableCheck narrow = by_boxes(widened_leaves(random, 1000, false), 1U << 26U);
    EXPECT_FALSE(narrow.gaps.empty());
    EXPECT_EQ(narrow.overlap_count, 0U);
}

}  // namespace
}  // namespace ashtriage::prove
