// Which trees of a property come to the crews, from which day on, and with what they take.
#include "present/work_to_schedule.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "labelled_cards.hpp"
#include "measure/units.hpp"

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
    WorkToSchedule work() const { return work_to_schedule({{property, before}}, knowledge); }
    const plan::TreeToVisit* find(const WorkToSchedule& work, const std::string& label) const {
        const auto found = std::ranges::find(work.trees, label, &plan::TreeToVisit::tree);
        return found == work.trees.end() ? nullptr : &*found;
    }
    // The first tree that comes to the crews and what it is treated with.
    const PlannedTree first() const { return work().planned.front(); }

    Knowledge knowledge = with_labels([](treat::LabelCard&) {});
    PropertyAssessment property = property_with(knowledge);
    treat::SiteHistory before;
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
    const WorkToSchedule example = work_to_schedule({{property, before}}, built_in_knowledge());
    EXPECT_TRUE(example.example);
    for (const plan::TreeToVisit& due : example.trees) EXPECT_TRUE(due.needs_certified);
}

}  // namespace
}  // namespace ashtriage::present
