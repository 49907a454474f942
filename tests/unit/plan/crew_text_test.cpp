// The plan as people read it: nothing wider than the page, every tree named, reasons given.
#include <gmock/gmock.h>

#include <sstream>

#include "crew_random.hpp"
#include "measure/units.hpp"
#include "present/crew_schedule_text.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {
namespace {

using plan::test::between;
using plan::test::Case;
using testing::HasSubstr;
using testing::Not;

void expect_fits_the_page(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(width_of(line), page_width) << line;
    }
}

TEST(CrewScheduleText, NamesEveryTreeOnceAsPlannedOrLeftOut) {
    std::mt19937 random(10);
    for (int round = 0; round < 200; ++round) {
        const Case each = plan::test::random_case(random, {4, between(random, 1, 9), 2, 4});
        const auto schedule = crew_schedule(each.work, each.crews, each.options);
        const std::string sheets = day_sheets(schedule, each.work, each.crews);
        const std::string left_out = left_out_text(schedule, each.work);
        const std::string overview = season_overview(schedule, each.crews);
        for (const std::string& text : {sheets, left_out, overview}) expect_fits_the_page(text);
        for (const plan::LeftOut& left : schedule.left_out) {
            const std::string& label = each.work.jobs[left.job].tree;
            EXPECT_THAT(left_out, HasSubstr("tree " + label + " at "));
            EXPECT_THAT(sheets, Not(HasSubstr(label)));
        }
        for (const plan::PlannedDay& day : schedule.days) {
            EXPECT_THAT(sheets, HasSubstr(measure::long_text(day.day)));
            for (const plan::Visit& visit : day.visits) {
                for (const std::size_t job : visit.jobs) {
                    EXPECT_THAT(sheets, HasSubstr(each.work.jobs[job].tree));
                }
            }
        }
        if (schedule.days.empty()) continue;
        EXPECT_THAT(sheets, HasSubstr("label in force"));
        EXPECT_THAT(sheets, HasSubstr("example figures"));
        const auto after = replan(schedule, each.work, each.crews, each.options,
                                  {schedule.days.front().day, std::nullopt});
        const std::string moves = moves_text(after, each.work, each.crews);
        expect_fits_the_page(moves);
        for (const plan::Move& move : after.moved) {
            EXPECT_THAT(moves, HasSubstr("tree " + each.work.jobs[move.job].tree + " at "));
        }
        EXPECT_EQ(moves.find("other hours") != std::string::npos, !after.changed_hours.empty());
    }
}

TEST(CrewScheduleText, ShowsHowFullTheWeeksAre) {
    plan::Crews crews;
    crews.crews.resize(2);
    crews.crews[0].name = "North";
    crews.crews[1].name = "Southeast";
    plan::CrewSchedule schedule;
    const auto add = [&](std::size_t crew, std::string_view day, int minutes) {
        schedule.days.push_back({crew, measure::parse_date(day), {}, 0, minutes, 400});
    };
    add(0, "2026-05-20", 400);  // a Wednesday
    add(1, "2026-05-22", 100);
    add(1, "2026-06-01", 399);
    EXPECT_EQ(season_overview(schedule, crews),
              "Weeks from Monday 2026-05-18: 0 to 9 tenths of the planned days full, * full\n"
              "North      *..\n"
              "Southeast  2.9\n");
}

TEST(CrewScheduleText, TellsTheHoursThatALostDayChanges) {
    plan::Crews crews;
    crews.crews.resize(1);
    crews.crews[0].name = "North";
    plan::WorkDue work;
    work.sites = {{"Elm Court", {}}};
    plan::Replanned replanned;
    replanned.changed_hours = {
        {{0, measure::parse_date("2026-05-20")}, {0, {0}, 20, 480, 540}, {0, {0}, 50, 510, 570}}};
    EXPECT_EQ(moves_text(replanned, work, crews),
              "Nothing was moved.\n"
              "Same day and crew, other hours:\n"
              "  - Elm Court, 20 May 2026, North: 08:30 to 09:30, before 08:00 to 09:00\n");
}

TEST(CrewScheduleText, CountsTheTreesAfterTheBetterPartOfTheirWindow) {
    plan::WorkDue work;
    work.jobs.resize(3);
    work.jobs[0].best_until = measure::parse_date("2026-05-20");
    work.jobs[1].best_until = measure::parse_date("2026-05-19");
    plan::CrewSchedule schedule;
    schedule.days = {
        {0, measure::parse_date("2026-05-20"), {{0, {0, 1, 2}, 0, 480, 540}}, 0, 60, 480}};
    EXPECT_EQ(after_best_words(schedule, work),
              "1 of 3 trees is planned after the better part of its window.");
    work.jobs[1].best_until.reset();
    EXPECT_EQ(after_best_words(schedule, work), "");
}

TEST(CrewScheduleText, SaysWhatTheRainReserveWouldHold) {
    EXPECT_EQ(
        words(plan::FreeForRain{72, 1}),
        "1 h 12 min of all crews are kept free for rain. As far as it does not rain, 1 of the "
        "trees that are left out would fit there.");
    EXPECT_EQ(words(plan::FreeForRain{72, 0}), "");
}

TEST(CrewScheduleText, FitsThePageWithLongNamesOfSites) {
    plan::WorkDue work;
    work.sites = {{"The long drive behind the water tower and the old mill, third house", {}}};
    work.jobs.resize(1);
    work.jobs[0].tree = "A1";
    work.jobs[0].method = "trunk_injection_emamectin";
    plan::Crews crews;
    crews.crews.resize(1);
    const std::string sheet = day_sheet(
        {0, measure::parse_date("2026-05-20"), {{0, {0}, 10, 480, 540}}, 10, 80, 480}, work, crews);
    expect_fits_the_page(sheet);
    EXPECT_THAT(sheet, HasSubstr("water tower"));
    EXPECT_THAT(sheet, HasSubstr("emamectin: A1"));
}

TEST(CrewScheduleText, AsksForThePlacesWhereTheWayIsLongerThanADay) {
    plan::WorkDue work;
    work.jobs.resize(1);
    work.jobs[0].release = measure::parse_date("2026-05-18");
    work.jobs[0].deadline = measure::parse_date("2026-05-19");
    plan::LeftOut left;
    left.because = plan::LeftOutBecause::longer_than_any_day;
    left.minutes_needed = 577 * 60;
    EXPECT_THAT(words(left, work), HasSubstr("west of Greenwich a longitude is negative"));
    left.minutes_needed = 10 * 60;
    EXPECT_THAT(words(left, work), HasSubstr("it takes 10 h 00 min"));
}

TEST(CrewScheduleText, SaysOnceThatNothingIsPlanned) {
    const plan::CrewSchedule nothing;
    EXPECT_EQ(season_overview(nothing, {}), "");
    EXPECT_EQ(day_sheets(nothing, {}, {}), "No visit is planned.\n");
}

TEST(CrewScheduleText, SaysWhatAShortfallProves) {
    plan::Shortfall shortfall{measure::parse_date("2026-05-18"),
                              measure::parse_date("2026-05-19"),
                              false,
                              {0, 1, 2},
                              605,
                              480,
                              1,
                              2};
    EXPECT_EQ(
        words(shortfall),
        "From 18 May 2026 to 19 May 2026 the trees that are due only then take at least "
        "10 h 05 min of work, set-up and travel; all crews together have 8 h 00 min. Any plan "
        "leaves out at least 2 of these 3 trees.");
    shortfall.needed = 480;
    EXPECT_EQ(words(shortfall),
              "From 18 May 2026 to 19 May 2026 the trees that are due only then are 3; with set-up "
              "and travel the days of all crews together have room for 1 at most. Any plan leaves "
              "out at least 2 of these 3 trees.");
}

TEST(CrewScheduleText, NumbersTheProofsByTheAcreAfterThoseByTime) {
    plan::WorkDue work;
    work.sites = {{"Elm Court", {}}};
    work.jobs.resize(4);
    for (std::size_t i = 0; i < 4; ++i) {
        work.jobs[i].tree = std::to_string(i + 1);
        work.jobs[i].release = measure::parse_date("2026-05-18");
        work.jobs[i].deadline = measure::parse_date("2026-05-19");
    }
    work.rooms = {{"Elm Court", "imidacloprid", 2026, {}}};
    plan::CrewSchedule schedule;
    schedule.shortfalls.resize(1);
    schedule.shortfalls[0].from = measure::parse_date("2026-05-18");
    schedule.shortfalls[0].to = measure::parse_date("2026-05-19");
    schedule.acre_shortfalls = {{0,
                                 {1, 2, 3},
                                 measure::Mass::of("30", measure::units::gram),
                                 measure::Mass::of("20", measure::units::gram),
                                 1}};
    schedule.left_out.resize(2);
    schedule.left_out[0].shortfall = 0;
    schedule.left_out[1].job = 3;
    schedule.left_out[1].acre_shortfall = 0;
    const std::string text = left_out_text(schedule, work);
    EXPECT_THAT(text, HasSubstr("(proof 1)"));
    EXPECT_THAT(text, HasSubstr("(proof 2)"));
    const std::string proof = proofs_of(schedule, work).at(1);
    EXPECT_THAT(proof, HasSubstr("Elm Court may take 20"));
    EXPECT_THAT(proof, HasSubstr("more of imidacloprid in 2026"));
    EXPECT_THAT(proof, HasSubstr("Any plan leaves out at least 1 of these 3 trees."));
}

}  // namespace
}  // namespace ashtriage::present
