// The plan as people read it: nothing wider than the page, every tree named, reasons given.
#include <gmock/gmock.h>

#include <sstream>

#include "crew_random.hpp"
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

TEST(CrewScheduleText, SaysWhatAShortfallProves) {
    plan::Shortfall shortfall{measure::parse_date("2026-05-18"),
                              measure::parse_date("2026-05-19"),
                              false,
                              {0, 1, 2},
                              605,
                              480,
                              2};
    EXPECT_EQ(
        words(shortfall),
        "From 18 May 2026 to 19 May 2026 the trees that are due only then take at least "
        "10 h 05 min of work, set-up and travel; all crews together have 8 h 00 min. Any plan "
        "leaves out at least 2 of these 3 trees.");
}

}  // namespace
}  // namespace ashtriage::present
