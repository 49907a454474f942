// Which trees of a property come to the crews, from which day on, and with what they take.
#include "present/work_to_schedule.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>

#include "labelled_cards.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"

namespace ashtriage::present {
namespace {

using measure::Mass;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
namespace units = measure::units;

class WorkForCrews : public testing::Test {
 protected:
    WorkToSchedule work() const {
        return work_to_schedule(
            {{property, before,
              due_report({{property, applications}}, knowledge, std::nullopt, property.as_of)
                  .rows}},
            knowledge);
    }
    // The tree was treated by the method that the recommendation now asks for.
    void treat(const PlannedTree& tree, const char* on) {
        treat::ApplicationRecord record;
        record.work_date = measure::parse_date(on);
        record.method = packs::plain_name(tree.card.method);
        record.actives = {{tree.card.active_ingredient, {}}};
        record.trees = {{.tree = tree.tree.id,
                         .label = tree.tree.label,
                         .dbh = {},
                         .product = {},
                         .mix = {},
                         .rate = {}}};
        applications.push_back(record);
    }
    const plan::TreeToVisit* find(const WorkToSchedule& work, const std::string& label) const {
        const auto found = std::ranges::find(work.trees, label, &plan::TreeToVisit::tree);
        return found == work.trees.end() ? nullptr : &*found;
    }
    // The first tree that comes to the crews and what it is treated with.
    const PlannedTree first() const { return work().planned.front(); }

    Knowledge knowledge = with_labels([](treat::LabelCard&) {});
    PropertyAssessment property = property_with(knowledge);
    treat::SiteHistory before;
    std::vector<treat::ApplicationRecord> applications;
};

TEST_F(WorkForCrews, IsEveryTreeToBeTreatedWithinItsWindow) {
    const WorkToSchedule found = work();
    ASSERT_FALSE(found.trees.empty());
    ASSERT_EQ(found.trees.size(), found.planned.size());
    EXPECT_FALSE(found.example);
    for (std::size_t i = 0; i < found.trees.size(); ++i) {
        const plan::TreeToVisit& due = found.trees[i];
        EXPECT_EQ(due.tree, found.planned[i].tree.label);
        EXPECT_GE(due.release, demo_day());
        EXPECT_LE(due.release, due.deadline);
        EXPECT_FALSE(found.planned[i].ruled_out());
    }
    for (const TreeAssessment& tree : property.trees) {
        EXPECT_TRUE(!tree.treatment || find(found, tree.tree.label) != nullptr) << tree.tree.label;
    }
}

TEST_F(WorkForCrews, WaitsForTheDayOnWhichTheLabelAllowsTheTreeAgain) {
    const PlannedTree tree = first();
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.key != tree.card.key) return;
        card.limits = {};
        card.limits.again_after_days = 30;
    });
    property = property_with(knowledge);
    const plan::TreeToVisit free = *find(work(), tree.tree.label);
    const measure::Date last = measure::add_days(free.deadline, -30);
    before.on_trees = {{tree.tree.id, tree.card.active_ingredient, last}};
    ASSERT_NE(find(work(), tree.tree.label), nullptr);
    EXPECT_EQ(find(work(), tree.tree.label)->release, free.deadline);  // both days belong to it
    before.on_trees.front().on = measure::add_days(last, 1);
    EXPECT_EQ(find(work(), tree.tree.label), nullptr);
    EXPECT_THAT(work().not_scheduled,
                Contains(Field(&NotScheduled::why,
                               HasSubstr("allows " + tree.card.active_ingredient + " again"))));
}

TEST_F(WorkForCrews, WaitsForNextYearWhereTheLabelAllowsNoMoreInThisOne) {
    const PlannedTree tree = first();
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.key != tree.card.key) return;
        card.limits = {};
        card.limits.applications_per_year = 1;
    });
    property = property_with(knowledge);
    const plan::TreeToVisit free = *find(work(), tree.tree.label);
    const auto year = static_cast<int>(free.release.year());
    before.on_trees = {{tree.tree.id, tree.card.active_ingredient,
                        measure::parse_date(std::to_string(year) + "-01-01")}};
    EXPECT_EQ(find(work(), tree.tree.label), nullptr);
    before.on_trees.front().on = measure::parse_date(std::to_string(year - 1) + "-12-31");
    EXPECT_NE(find(work(), tree.tree.label), nullptr);
}

TEST_F(WorkForCrews, LeavesATreeInPeaceUntilItIsDue) {
    knowledge = with_labels([](treat::LabelCard& card) { card.limits = {}; });
    property = property_with(knowledge);
    const PlannedTree tree = first();
    const plan::TreeToVisit free = *find(work(), tree.tree.label);
    // No method in the words of the record: it is taken to last for one year.
    treat(tree, fmt::format("{}-05-01", static_cast<int>(free.deadline.year())).c_str());
    property.as_of = measure::add_days(applications.front().work_date, 1);
    const WorkToSchedule same_season = work();
    EXPECT_EQ(find(same_season, tree.tree.label), nullptr);
    EXPECT_THAT(same_season.not_yet_due, Contains(Field(&NotScheduled::tree, tree.tree.label)));
    EXPECT_THAT(same_season.not_scheduled,
                testing::Not(Contains(Field(&NotScheduled::tree, tree.tree.label))));
    applications.front().work_date = applications.front().work_date - std::chrono::years(1);
    EXPECT_EQ(find(work(), tree.tree.label)->deadline, free.deadline);
    EXPECT_THAT(work().not_yet_due, IsEmpty());
}

// The window of the method goes on; the label's own season ends before it, or begins after it
// opens.
TEST_F(WorkForCrews, KeepsToTheSeasonOfTheLabelAtBothEnds) {
    const PlannedTree tree = first();
    const plan::TreeToVisit free = *find(work(), tree.tree.label);
    const auto on_day = [](const measure::Date& date) {
        return treat::MonthDay{static_cast<int>(static_cast<unsigned>(date.month())),
                               static_cast<int>(static_cast<unsigned>(date.day()))};
    };
    const measure::Date from = measure::add_days(free.release, 3);
    const measure::Date to = measure::add_days(free.release, 8);
    ASSERT_LT(to, free.deadline);
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.key == tree.card.key) card.conditions.season = {on_day(from), on_day(to)};
    });
    property = property_with(knowledge);
    const plan::TreeToVisit kept = *find(work(), tree.tree.label);
    EXPECT_EQ(kept.release, from);
    EXPECT_EQ(kept.deadline, to);
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.key == tree.card.key) card.conditions.season = treat::LabelSeason{{1, 2}, {1, 9}};
    });
    property = property_with(knowledge);
    EXPECT_EQ(find(work(), tree.tree.label), nullptr);
    EXPECT_THAT(work().not_scheduled,
                Contains(Field(&NotScheduled::why, HasSubstr("season of the label"))));
}

TEST_F(WorkForCrews, GoesByTheYearThatIsKnown) {
    const std::vector<PlannedTree> planned = work().planned;
    const auto injected = std::ranges::find_if(planned, [](const PlannedTree& tree) {
        return tree.card.application == treat::Application::trunk_injection;
    });
    ASSERT_NE(injected, planned.end());
    const PlannedTree& tree = *injected;
    const plan::TreeToVisit usual = *find(work(), tree.tree.label);
    const auto year = usual.release.year();
    knowledge.year.leaf_out = year / std::chrono::July / 1;
    property.as_of = year / std::chrono::April / 1;
    property = property_with(knowledge, property.as_of);
    EXPECT_EQ(find(work(), tree.tree.label)->release, *knowledge.year.leaf_out);
    knowledge.year.leaf_out.reset();
    property = property_with(knowledge, property.as_of);
    EXPECT_LT(find(work(), tree.tree.label)->release, year / std::chrono::July / 1);
}

TEST_F(WorkForCrews, TakesFromOneAccountOfTheSiteForEachIngredientAndYear) {
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.active_per_acre_per_year = Mass::of("100", units::gram);
    });
    property = property_with(knowledge);
    const WorkToSchedule found = work();
    for (const plan::TreeToVisit& due : found.trees) {
        EXPECT_FALSE(due.active_ingredient.empty());
        EXPECT_GT(due.active, Mass());
        const auto rooms = std::ranges::count_if(found.rooms, [&](const plan::AcreRoom& room) {
            return room.active_ingredient == due.active_ingredient &&
                   room.year == static_cast<int>(due.release.year());
        });
        EXPECT_EQ(rooms, 1);
    }
    const plan::AcreRoom room = found.rooms.front();
    before.spent = {{room.active_ingredient, treat::CountedUse::other,
                     std::chrono::year{room.year} / std::chrono::January / 2,
                     Mass::of("7", units::gram)}};
    const WorkToSchedule less = work();
    EXPECT_EQ(less.rooms.front().left, room.left - Mass::of("7", units::gram));
}

TEST_F(WorkForCrews, LeavesOutWhatNobodyCanReckonAndSaysSo) {
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.active_per_acre_per_year = Mass::of("100", units::gram);
    });
    property = property_with(knowledge);
    property.site.area.reset();
    EXPECT_THAT(work().trees, IsEmpty());
    EXPECT_THAT(work().not_scheduled,
                Contains(Field(&NotScheduled::why, HasSubstr("area of the site"))));
    property = property_with(knowledge);
    for (const int year : {2026, 2027, 2028}) {
        before.untold.push_back({9, std::chrono::year{year} / std::chrono::January / 3, {}});
    }
    EXPECT_THAT(work().trees, IsEmpty());
    EXPECT_THAT(work().not_scheduled,
                Contains(Field(&NotScheduled::why, HasSubstr("application 9"))));
}

TEST_F(WorkForCrews, NeedsACertifiedApplicatorUnlessTheLabelIsForGeneralUse) {
    for (const plan::TreeToVisit& due : work().trees) EXPECT_FALSE(due.needs_certified);
    knowledge = with_labels([](treat::LabelCard& card) { card.from_label->restricted_use = true; });
    property = property_with(knowledge);
    for (const plan::TreeToVisit& due : work().trees) EXPECT_TRUE(due.needs_certified);
    property = property_with(built_in_knowledge());
    knowledge = read_knowledge(packs::built_in_rule_files());
    const WorkToSchedule example = work();
    EXPECT_TRUE(example.example);
    for (const plan::TreeToVisit& due : example.trees) EXPECT_TRUE(due.needs_certified);
}

}  // namespace
}  // namespace ashtriage::present
