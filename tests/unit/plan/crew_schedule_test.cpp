// Single cases of planning, each small enough to be reckoned by hand.
#include "plan/crew_schedule.hpp"

#include <gmock/gmock.h>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "plan/replan.hpp"

namespace ashtriage::plan {
namespace {

using measure::InputError;
using measure::parse_date;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

const std::string injection = "injection";
const std::string drench = "drench";
const season::Location office{41.8, -88.0, {}};

// One crew, at the office, 8 hours from Monday to Friday, 18 to 29 May 2026; 60 minutes for an
// injection, 30 for a drench, 20 to set up; 60 km/h, so that a kilometre is a minute.
Crews one_crew() {
    Crews crews;
    crews.settings.minutes_per_tree[injection] = {{std::nullopt, 60}};
    crews.settings.minutes_per_tree[drench] = {{std::nullopt, 30}};
    crews.settings.setup_minutes_per_site = 20;
    crews.settings.travel_speed = measure::Speed::from_ticks(60'000'000);
    Crew crew;
    crew.name = "North";
    crew.start = office;
    crew.starts_at.minutes = 450;
    crew.minutes_per_day = 480;
    crew.weekday_off = {true, false, false, false, false, false, true};
    crew.certified = true;
    crew.first_day = parse_date("2026-05-18");
    crew.last_day = parse_date("2026-05-29");
    crews.crews.push_back(crew);
    return crews;
}

TreeToVisit tree(const std::string& site, const std::string& label) {
    TreeToVisit due;
    due.site = site;
    due.place = office;
    due.tree = label;
    due.method = injection;
    due.release = parse_date("2026-05-18");
    due.deadline = parse_date("2026-05-22");
    return due;
}

CrewSchedule planned(const std::vector<TreeToVisit>& trees, const Crews& crews = one_crew(),
                     const std::vector<AcreRoom>& rooms = {},
                     WithoutPlace without_place = WithoutPlace::leave_out) {
    return crew_schedule(work_due(trees, rooms, crews.settings), crews,
                         {parse_date("2026-05-01"), without_place});
}

std::string refused(const std::vector<TreeToVisit>& trees) {
    try {
        planned(trees);
    } catch (const InputError& error) {
        return error.where() + ": " + error.what();
    }
    return {};
}

TEST(CrewSchedule, DoesTwoMethodsOfASiteInOneVisit) {
    std::vector<TreeToVisit> trees{tree("Elm Court", "1"), tree("Elm Court", "2")};
    trees[1].method = drench;
    const CrewSchedule schedule = planned(trees);
    ASSERT_THAT(schedule.days, SizeIs(1));
    ASSERT_THAT(schedule.days[0].visits, SizeIs(1));
    const Visit& visit = schedule.days[0].visits[0];
    EXPECT_EQ(visit.arrives, 450);
    EXPECT_EQ(visit.leaves, 450 + 20 + 60 + 30);
    EXPECT_EQ(schedule.days[0].day, parse_date("2026-05-18"));
    EXPECT_EQ(schedule.standing, ScheduleStanding::best);
}

// A degree of latitude is 6371.0088 km * pi / 180 = 111.195 km.
TEST(CrewSchedule, TravelsAlongTheGreatCircleAndCountsBegunMinutes) {
    EXPECT_NEAR(great_circle_km({41.0, -88.0, {}}, {42.0, -88.0, {}}), 111.195, 0.001);
    // A quarter of the equator.
    EXPECT_NEAR(great_circle_km({0.0, 0.0, {}}, {0.0, 90.0, {}}), 6371.0088 * 1.5707963, 0.001);
    std::vector<TreeToVisit> trees{tree("North Field", "1")};
    trees[0].place = season::Location{42.8, -88.0, {}};
    const CrewSchedule schedule = planned(trees);
    EXPECT_EQ(schedule.days[0].visits[0].travel, 112);
    EXPECT_EQ(schedule.days[0].travel_back, 112);
    EXPECT_EQ(schedule.minutes, 112 + 20 + 60 + 112);
}

TEST(CrewSchedule, LeavesOutASiteWithoutAPlaceUnlessAskedToPlanItWithoutTravel) {
    std::vector<TreeToVisit> trees{tree("Elm Court", "1"), tree("Nowhere", "1")};
    trees[1].place.reset();
    const CrewSchedule schedule = planned(trees);
    ASSERT_THAT(schedule.left_out, SizeIs(1));
    EXPECT_EQ(schedule.left_out[0].because, LeftOutBecause::site_without_place);
    EXPECT_EQ(schedule.left_out[0].job, 1U);

    const CrewSchedule without_travel =
        planned(trees, one_crew(), {}, WithoutPlace::plan_without_travel);
    EXPECT_THAT(without_travel.left_out, IsEmpty());
    EXPECT_EQ(without_travel.minutes, 2 * 80);
}

TEST(CrewSchedule, SaysWhyATreeCannotBeDoneByAnybody) {
    std::vector<TreeToVisit> trees{tree("A", "1"), tree("B", "1"), tree("C", "1"), tree("D", "1")};
    trees[0].release = parse_date("2026-04-01");
    trees[0].deadline = parse_date("2026-04-30");  // before the day from which is planned
    trees[1].release = parse_date("2026-05-23");   // a weekend
    trees[1].deadline = parse_date("2026-05-24");
    trees[2].needs_certified = true;
    trees[3].place = season::Location{43.7, -88.0, {}};  // 212 minutes each way
    Crews crews = one_crew();
    crews.crews[0].certified = false;
    const CrewSchedule schedule = planned(trees, crews);
    ASSERT_THAT(schedule.left_out, SizeIs(4));
    EXPECT_EQ(schedule.left_out[0].because, LeftOutBecause::window_over);
    EXPECT_EQ(schedule.left_out[1].because, LeftOutBecause::no_crew_day);
    EXPECT_EQ(schedule.left_out[2].because, LeftOutBecause::no_certified_crew);
    EXPECT_EQ(schedule.left_out[3].because, LeftOutBecause::longer_than_any_day);
    EXPECT_EQ(schedule.left_out[3].minutes_needed, 2 * 212 + 20 + 60);
    EXPECT_EQ(schedule.left_out[3].minutes_available, 480);
}

// One day of 480 minutes holds a set-up and seven injections (440), not eight (500).
TEST(CrewSchedule, LeavesOutTheLeastImportantAndProvesThatItMust) {
    std::vector<TreeToVisit> trees;
    for (int i = 1; i <= 8; ++i) {
        trees.push_back(tree("Elm Court", std::to_string(i)));
        trees.back().deadline = trees.back().release;
        trees.back().priority = i == 3 ? 2 : 1;
    }
    const CrewSchedule schedule = planned(trees);
    ASSERT_THAT(schedule.left_out, SizeIs(1));
    EXPECT_EQ(schedule.left_out[0].job, 2U);
    EXPECT_EQ(schedule.left_out[0].because, LeftOutBecause::no_room);
    EXPECT_EQ(schedule.left_out[0].minutes_available, 40);
    ASSERT_THAT(schedule.shortfalls, SizeIs(1));
    EXPECT_EQ(schedule.left_out[0].shortfall, 0U);
    EXPECT_EQ(schedule.shortfalls[0].needed, 500);
    EXPECT_EQ(schedule.shortfalls[0].available, 480);
    EXPECT_EQ(schedule.shortfalls[0].at_least_left_out, 1U);
    EXPECT_EQ(schedule.shortfalls[0].from, parse_date("2026-05-18"));
    EXPECT_EQ(schedule.shortfalls[0].to, parse_date("2026-05-18"));
}

// Together on a later day they would save a set-up.
TEST(CrewSchedule, DoesNotLeaveTheBetterPartOfAWindowToSaveMinutes) {
    std::vector<TreeToVisit> trees{tree("Elm Court", "1"), tree("Elm Court", "2")};
    trees[0].best_until = parse_date("2026-05-19");
    trees[1].release = parse_date("2026-05-21");
    const CrewSchedule schedule = planned(trees);
    ASSERT_THAT(schedule.days, SizeIs(2));
    EXPECT_EQ(schedule.days[0].day, parse_date("2026-05-18"));
    trees[0].best_until = trees[0].deadline;
    EXPECT_THAT(planned(trees).days, SizeIs(1));
    // Rather after it than not at all.
    trees[0].best_until = parse_date("2026-05-17");
    EXPECT_THAT(planned(trees).left_out, IsEmpty());
}

// More trees than are gone through. A later day would hold all twenty in one visit; the better part
// of the window holds fifteen of 30 minutes.
TEST(CrewSchedule, FillsTheBetterPartOfTheWindowsOfManyTrees) {
    std::vector<TreeToVisit> trees;
    for (int i = 0; i < 20; ++i) {
        trees.push_back(tree("Elm Court", std::to_string(10 + i)));
        trees.back().method = drench;
        trees.back().release = parse_date("2026-05-22");
        trees.back().deadline = parse_date("2026-05-26");
        trees.back().best_until = parse_date("2026-05-24");
    }
    Crews crews = one_crew();
    crews.crews.push_back(crews.crews.front());
    crews.crews.back().name = "South";
    crews.crews.back().first_day = parse_date("2026-05-26");
    crews.crews.back().minutes_per_day = 700;
    const CrewSchedule schedule = planned(trees, crews);
    EXPECT_THAT(schedule.left_out, IsEmpty());
    ASSERT_THAT(schedule.days, SizeIs(2));
    EXPECT_EQ(schedule.days[0].day, parse_date("2026-05-22"));
    EXPECT_THAT(schedule.days[0].visits.at(0).jobs, SizeIs(15));
}

TEST(CrewSchedule, KeepsTheAccountOfTheAcreByTheMostImportantTrees) {
    std::vector<TreeToVisit> trees{tree("Elm Court", "1"), tree("Elm Court", "2"),
                                   tree("Elm Court", "3")};
    for (TreeToVisit& due : trees) {
        due.active_ingredient = "imidacloprid";
        due.active = measure::Mass::of("10", measure::units::gram);
    }
    trees[0].priority = 2;
    const measure::Mass two = measure::Mass::of("20", measure::units::gram);
    const CrewSchedule schedule =
        planned(trees, one_crew(), {{"Elm Court", "imidacloprid", 2026, two}});
    ASSERT_THAT(schedule.left_out, SizeIs(1));
    EXPECT_EQ(schedule.left_out[0].job, 0U);
    EXPECT_EQ(schedule.left_out[0].because, LeftOutBecause::acre_account);
    // Another year's account, or another ingredient's, is not this one.
    EXPECT_THAT(planned(trees, one_crew(), {{"Elm Court", "imidacloprid", 2027, two}}).left_out,
                IsEmpty());
    EXPECT_THAT(planned(trees, one_crew(), {{"Elm Court", "dinotefuran", 2026, two}}).left_out,
                IsEmpty());
}

// An account that takes eleven of fifteen equal trees.
TEST(CrewSchedule, ProvesThatNoPlanLeavesOutFewerThanTheAcreAsks) {
    std::vector<TreeToVisit> trees;
    for (int i = 0; i < 15; ++i) {
        trees.push_back(tree("Elm Court", std::to_string(10 + i)));
        trees.back().active_ingredient = "imidacloprid";
        trees.back().active = measure::Mass::of("10", measure::units::gram);
    }
    const measure::Mass left = measure::Mass::of("119", measure::units::gram);
    const CrewSchedule schedule =
        planned(trees, one_crew(), {{"Elm Court", "imidacloprid", 2026, left}});
    EXPECT_EQ(schedule.standing, ScheduleStanding::fewest_left_out);
    ASSERT_THAT(schedule.acre_shortfalls, SizeIs(1));
    EXPECT_EQ(schedule.acre_shortfalls[0].at_least_left_out, 4U);
    EXPECT_EQ(schedule.acre_shortfalls[0].left, left);
    EXPECT_EQ(schedule.acre_shortfalls[0].needed, measure::Mass::of("150", measure::units::gram));
    ASSERT_THAT(schedule.left_out, SizeIs(4));
    for (const LeftOut& each : schedule.left_out) EXPECT_EQ(each.acre_shortfall, 0U);
}

// Every crew day of 480 minutes holds a set-up and seven injections: four of them 28 of 30 trees,
// although all 30 with a single set-up would take no more than 1,820 of 1,920 minutes.
TEST(CrewSchedule, ProvesThatEveryCrewDayHasItsOwnSetUp) {
    Crews crews = one_crew();
    crews.crews.push_back(crews.crews.front());
    crews.crews.back().name = "South";
    std::vector<TreeToVisit> trees;
    for (int i = 0; i < 30; ++i) {
        trees.push_back(tree("Elm Court", std::to_string(10 + i)));
        trees.back().deadline = parse_date("2026-05-19");
    }
    const CrewSchedule schedule = planned(trees, crews);
    EXPECT_THAT(schedule.left_out, SizeIs(2));
    ASSERT_THAT(schedule.shortfalls, SizeIs(1));
    EXPECT_EQ(schedule.shortfalls[0].needed, 30 * 60 + 4 * 20);
    EXPECT_EQ(schedule.shortfalls[0].available, 4 * 480);
    EXPECT_EQ(schedule.shortfalls[0].room_for, 28U);
    EXPECT_EQ(schedule.shortfalls[0].at_least_left_out, 2U);
    EXPECT_EQ(schedule.standing, ScheduleStanding::fewest_left_out);

    // 100 minutes each way, which each crew day takes too: four injections a day.
    for (TreeToVisit& due : trees) due.place = season::Location{42.6955, -88.0, {}};
    const CrewSchedule far = planned(trees, crews);
    EXPECT_THAT(far.left_out, SizeIs(14));
    ASSERT_THAT(far.shortfalls, SizeIs(1));
    EXPECT_EQ(far.shortfalls[0].needed, 30 * 60 + 4 * (20 + 200));
    EXPECT_EQ(far.shortfalls[0].at_least_left_out, 14U);
    EXPECT_EQ(far.standing, ScheduleStanding::fewest_left_out);
}

std::vector<std::string> reserve_days(const Crews& crews) {
    std::vector<std::string> days;
    for (const CrewDay& day : crew_days(crews, parse_date("2026-01-01"), Reserve::kept)) {
        if (day.minutes == 0) days.push_back(measure::text(day.day));
    }
    return days;
}

// 15 percent of 10 days is one and a half: the 7th is kept free, there is no second.
TEST(CrewSchedule, KeepsAShareOfTheDaysOrOfTheHoursForRain) {
    Crews crews = one_crew();
    crews.settings.rain_reserve = {15, ReserveOf::days};
    EXPECT_THAT(reserve_days(crews), ElementsAre("2026-05-26"));
    crews.settings.rain_reserve = {15, ReserveOf::hours};
    EXPECT_THAT(reserve_days(crews), IsEmpty());
    for (const CrewDay& day : crew_days(crews, parse_date("2026-01-01"), Reserve::kept)) {
        EXPECT_EQ(day.minutes, 408);
        EXPECT_EQ(day.reserved, 72);
    }
    for (const CrewDay& day : crew_days(crews, parse_date("2026-01-01"), Reserve::used)) {
        EXPECT_EQ(day.minutes, 480);
    }
}

// Eight injections of which a day of 408 minutes holds six; the 72 minutes kept free for rain hold
// one more.
TEST(CrewSchedule, SaysHowManyOfTheTreesLeftOutTheRainReserveWouldHold) {
    std::vector<TreeToVisit> trees;
    for (int i = 1; i <= 8; ++i) {
        trees.push_back(tree("Elm Court", std::to_string(i)));
        trees.back().deadline = trees.back().release;
    }
    Crews crews = one_crew();
    crews.crews[0].last_day = parse_date("2026-05-18");
    crews.settings.rain_reserve = {15, ReserveOf::hours};
    const CrewSchedule schedule = planned(trees, crews);
    EXPECT_THAT(schedule.left_out, SizeIs(2));
    EXPECT_EQ(schedule.free_for_rain.minutes, 72);
    EXPECT_EQ(schedule.free_for_rain.would_hold, 1U);
    crews.settings.rain_reserve.percent = 0;
    EXPECT_EQ(planned(trees, crews).free_for_rain.would_hold, 0U);
}

TEST(CrewSchedule, MovesOnlyTheLostDay) {
    std::vector<TreeToVisit> trees;
    for (int i = 0; i < 4; ++i) {
        // Four sites that fill a day each.
        for (int k = 0; k < 3; ++k) {
            trees.push_back(tree("Site " + std::to_string(i), std::to_string(k)));
            trees.back().place = season::Location{42.6, -88.0 + 0.3 * i, {}};
            trees.back().deadline = parse_date("2026-05-29");
        }
    }
    const Crews crews = one_crew();
    const WorkDue work = work_due(trees, {}, crews.settings);
    const ScheduleOptions options{parse_date("2026-05-01"), WithoutPlace::leave_out};
    const CrewSchedule before = crew_schedule(work, crews, options);
    ASSERT_THAT(before.days, SizeIs(4));
    const LostDay lost{before.days[1].day, std::nullopt};
    const Replanned after = replan(before, work, crews, options, lost);
    EXPECT_THAT(after.lost_place, IsEmpty());
    ASSERT_THAT(after.moved, SizeIs(3));
    for (const Move& move : after.moved) {
        EXPECT_EQ(move.from->day, lost.day);
        EXPECT_EQ(move.to.day, parse_date("2026-05-22"));
    }
    EXPECT_THAT(after.schedule.lost, SizeIs(1));
}

TEST(CrewSchedule, RefusesALostDayOnWhichNobodyWorks) {
    const Crews crews = one_crew();
    const WorkDue work = work_due({tree("Elm Court", "1")}, {}, crews.settings);
    const ScheduleOptions options{parse_date("2026-05-01"), WithoutPlace::leave_out};
    const CrewSchedule before = crew_schedule(work, crews, options);
    const auto lose = [&](std::string_view day, std::optional<std::size_t> crew) {
        return replan(before, work, crews, options, {parse_date(day), crew});
    };
    EXPECT_THROW(lose("2026-05-23", std::nullopt), InputError);
    EXPECT_THROW(lose("2026-05-23", 0U), InputError);
    EXPECT_THROW(lose("2026-05-18", 1U), InputError);
}

TEST(CrewSchedule, RefusesWorkThatCannotBeMeant) {
    EXPECT_THAT(refused({tree("Elm Court", "1"), tree("Elm Court", "1")}),
                HasSubstr("tree '1' of site 'Elm Court': The tree is due twice"));
    std::vector<TreeToVisit> trees{tree("Elm Court", "1"), tree("Elm Court", "2")};
    trees[1].place = season::Location{41.9, -88.0, {}};
    EXPECT_THAT(refused(trees), HasSubstr("at two places"));
    trees[1] = tree("Elm Court", "2");
    trees[1].deadline = parse_date("2026-05-17");
    EXPECT_THAT(refused(trees), HasSubstr("before it opens"));
    trees[1].deadline = trees[1].release;
    trees[1].method = "cover_spray";
    EXPECT_THAT(refused(trees), HasSubstr("does not say how long a tree takes by 'cover_spray'"));
    Crews nobody = one_crew();
    nobody.crews.clear();
    EXPECT_THROW(planned({tree("Elm Court", "1")}, nobody), InputError);
}

TEST(CrewSchedule, IsEmptyForNoTrees) {
    const CrewSchedule schedule = planned({});
    EXPECT_THAT(schedule.days, IsEmpty());
    EXPECT_EQ(schedule.minutes, 0);
}

}  // namespace
}  // namespace ashtriage::plan
