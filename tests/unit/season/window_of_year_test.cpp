// Windows where more is known of the year than the calendar.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/units.hpp"
#include "season/window.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::Date;
using measure::parse_date;
using test::steady_heat;
using test::whole_year;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

const Seasons& seasons() {
    static const Seasons read = test::seasons_of(test::known_methods);
    return read;
}

// Ten degree days a day: the total of day n of the year is 10 n.
KnownYear ten_a_day() {
    return {whole_year(2026, 10.0), {}, {}, {}};
}

WindowOfYear found(std::string_view method, const KnownYear& known) {
    return window_for(seasons(), seasons().method(method), std::nullopt, 2026, known);
}

Window window(std::string_view method, const KnownYear& known) {
    const WindowOfYear of_year = found(method, known);
    EXPECT_TRUE(of_year.window) << of_year.why_none;
    return of_year.window.value_or(Window());
}

TEST(WindowOfYear, WithNothingKnownIsTheCalendarsOwn) {
    const Window by_known = window("drench", {});
    const auto by_calendar = window_for(seasons(), "drench", std::nullopt, 2026);
    ASSERT_TRUE(by_calendar);
    EXPECT_EQ(by_known.opens, by_calendar->opens);
    EXPECT_EQ(by_known.opens, parse_date("2026-04-10"));
    EXPECT_EQ(by_known.closes, by_calendar->closes);
    EXPECT_EQ(by_known.opens_by.basis, Basis::calendar);
    EXPECT_EQ(by_known.opens_by.give_or_take_days, 10);
    EXPECT_FALSE(by_known.larger_stems) << "without weather nobody knows six weeks before";
}

// 900 is day 90, 1,000 day 100, 1,200 day 120, which no longer belongs to the window.
TEST(WindowOfYear, OpensOnTheDayOfItsTotalAndClosesBeforeTheDayThatIsNotIncluded) {
    const Window drench = window("drench", ten_a_day());
    EXPECT_EQ(drench.opens, parse_date("2026-03-31"));
    EXPECT_EQ(drench.best_until, parse_date("2026-04-10"));
    EXPECT_EQ(drench.closes, parse_date("2026-04-29"));
    EXPECT_TRUE(drench.contains(parse_date("2026-03-31")));
    EXPECT_FALSE(drench.contains(parse_date("2026-03-30")));
    EXPECT_TRUE(drench.contains(parse_date("2026-04-29")));
    EXPECT_FALSE(drench.contains(parse_date("2026-04-30")));
    EXPECT_EQ(drench.opens_by.basis, Basis::heat_measured);
    EXPECT_EQ(drench.opens_by.give_or_take_days, 7);
    EXPECT_THAT(drench.opens_by.words, HasSubstr("900 degree days"));
    EXPECT_THAT(drench.cautions, Not(Contains(HasSubstr("position"))))
        << "no date of it was moved from another place";
}

TEST(WindowOfYear, ComesADayEarlierInTheCalendarOfALeapYear) {
    const KnownYear known{whole_year(2028, 10.0), {}, {}, {}};
    const auto of_year =
        window_for(seasons(), seasons().method("drench"), std::nullopt, 2028, known);
    ASSERT_TRUE(of_year.window);
    EXPECT_EQ(of_year.window->opens, parse_date("2028-03-30"));
}

// 28 days before day 120 is day 92; where that lies before the window, its first day is the best.
TEST(WindowOfYear, EndsTheBetterPartEarlierForLargerStems) {
    const Window drench = window("drench", ten_a_day());
    ASSERT_TRUE(drench.larger_stems);
    EXPECT_EQ(drench.larger_stems->best_until, parse_date("2026-04-02"));
    EXPECT_EQ(drench.larger_stems->over, measure::Length::of("12", measure::units::inch));
    KnownYear quick{whole_year(2026, 15.0), {}, {}, {}};  // 900 on day 60, 1,200 on day 80
    EXPECT_EQ(window("drench", quick).larger_stems->best_until, window("drench", quick).opens);
    EXPECT_EQ(window("drench", quick).larger_stems->by.words,
              window("drench", quick).opens_by.words);
    EXPECT_THAT(window("drench", quick).cautions,
                Contains(HasSubstr("For stems over 12 in the better part would end on")));
}

TEST(WindowOfYear, OpensWithTheLeavesWhenTheyWereSeenWhateverTheCalendarSays) {
    for (const char* date : {"2026-05-02", "2026-06-05"}) {
        KnownYear known;
        known.leaf_out = parse_date(date);
        const Window injection = window("injection", known);
        EXPECT_EQ(injection.opens, parse_date(date));
        EXPECT_EQ(injection.opens_by.basis, Basis::leaf_out);
        EXPECT_EQ(injection.opens_by.give_or_take_days, 0);
        EXPECT_EQ(injection.closes_by.basis, Basis::calendar);
    }
}

TEST(WindowOfYear, TakesTheCalendarForLeavesThatNobodySawThisYear) {
    KnownYear known;
    known.leaf_out = parse_date("2025-05-02");
    EXPECT_EQ(window("injection", known).opens, parse_date("2026-05-15"));
}

// 14 days before day 140, which itself is not included: day 127, 7 May. Leaves: three days after.
TEST(WindowOfYear, OpensWithTheLaterOfLeavesAndHeatAndClosesWithTheEarlier) {
    KnownYear known = ten_a_day();
    EXPECT_EQ(window("leaf_spray", known).opens, parse_date("2026-05-07"));
    known.leaf_out = parse_date("2026-05-01");
    EXPECT_EQ(window("leaf_spray", known).opens, parse_date("2026-05-07"));
    EXPECT_EQ(window("leaf_spray", known).opens_by.basis, Basis::heat_measured);
    EXPECT_EQ(window("leaf_spray", known).closes, parse_date("2026-05-30"));
    known.leaf_out = parse_date("2026-05-05");
    EXPECT_EQ(window("leaf_spray", known).opens, parse_date("2026-05-08"));
    EXPECT_EQ(window("leaf_spray", known).opens_by.basis, Basis::leaf_out);
}

// 1,450 is day 145, 25 May; 1,800 day 180, 29 June.
TEST(WindowOfYear, BelievesThePlantThatWasSeenBeforeTheHeat) {
    KnownYear known = ten_a_day();
    EXPECT_EQ(window("cover_spray", known).opens, parse_date("2026-05-25"));
    known.cues = {{"blossom", parse_date("2026-05-29")}};
    const Window spray = window("cover_spray", known);
    EXPECT_EQ(spray.opens, parse_date("2026-05-29"));
    EXPECT_EQ(spray.opens_by.basis, Basis::cue);
    EXPECT_EQ(spray.best_until, parse_date("2026-06-05"));
    EXPECT_EQ(spray.closes, parse_date("2026-06-29"));
    EXPECT_EQ(spray.again, parse_date("2026-06-26"));
}

TEST(WindowOfYear, SaysWhenThereIsNoTimeForASecondSpray) {
    KnownYear known = ten_a_day();
    known.cues = {{"blossom", parse_date("2026-06-02")}};
    const Window spray = window("cover_spray", known);
    EXPECT_FALSE(spray.again);
    EXPECT_THAT(spray.cautions, Contains(HasSubstr("second time")));
}

TEST(WindowOfYear, CarriesTheSpreadOfAProjection) {
    // 600 by 1 March; then 8, 10 and 12 a day, that is 38, 30 and 25 days to 900.
    const KnownYear known{steady_heat(2026, 10.0, 60),
                          {whole_year(2023, 8.0), whole_year(2024, 10.0), whole_year(2025, 12.0)},
                          {},
                          {}};
    const Window drench = window("drench", known);
    EXPECT_EQ(drench.opens_by.basis, Basis::heat_projected);
    EXPECT_EQ(drench.opens, parse_date("2026-03-31"));
    EXPECT_EQ(drench.opens_by.earliest, parse_date("2026-03-26"));
    EXPECT_EQ(drench.opens_by.latest, parse_date("2026-04-08"));
    EXPECT_THAT(drench.opens_by.words, HasSubstr("projected"));
}

TEST(WindowOfYear, FallsBackToTheCalendarWhereTheWeatherEndsAndSaysWhy) {
    const Window drench = window("drench", {steady_heat(2026, 10.0, 95), {}, {}, {}});
    EXPECT_EQ(drench.opens_by.basis, Basis::heat_measured);
    EXPECT_EQ(drench.closes, parse_date("2026-05-10"));
    EXPECT_EQ(drench.closes_by.basis, Basis::calendar);
    EXPECT_THAT(drench.cautions, Contains(HasSubstr("By the calendar, since")));
}

TEST(WindowOfYear, DoesNotOpenWhenItsTotalIsNeverReachedAndSaysSo) {
    const WindowOfYear none = found("drench", {whole_year(2026, 1.0), {}, {}, {}});
    EXPECT_FALSE(none.window);
    EXPECT_THAT(none.why_none, HasSubstr("does not open: 2026 ended without reaching 900"));
}

// A spring that brings 1,000 in 100 days, and nothing after it.
TEST(WindowOfYear, ClosesByTheCalendarWhenOnlyItsClosingTotalIsNeverReached) {
    weather::HeatTotals heat = steady_heat(2026, 10.0, 100);
    while (!heat.complete()) {
        heat.days.push_back({measure::add_days(heat.days.back().date, 1), 0.0, 1000.0, false});
    }
    const Window drench = window("drench", {heat, {}, {}, {}});
    EXPECT_EQ(drench.opens_by.basis, Basis::heat_measured);
    EXPECT_EQ(drench.closes, parse_date("2026-05-10"));
    EXPECT_EQ(drench.closes_by.basis, Basis::calendar);
    EXPECT_THAT(drench.cautions, Contains(HasSubstr("without reaching 1200")));
}

TEST(WindowOfYear, SaysThatItWouldCloseBeforeItOpens) {
    KnownYear known;
    known.leaf_out = parse_date("2026-09-01");
    const WindowOfYear none = found("injection", known);
    EXPECT_FALSE(none.window);
    EXPECT_THAT(none.why_none, HasSubstr("close on 31 August 2026"));
    EXPECT_THAT(none.why_none, HasSubstr("opens on 1 September 2026 (by full leaf-out)"));
    known.leaf_out = parse_date("2026-08-31");
    EXPECT_EQ(window("injection", known).opens, window("injection", known).closes);
}

TEST(WindowOfYear, IsCutOffWhereTheMethodMayNotBeUsedYet) {
    // 900 on day 45, in February; 1,200 on day 60, 1 March, which is not included.
    const WindowOfYear none = found("drench", {whole_year(2026, 20.0), {}, {}, {}});
    EXPECT_FALSE(none.window);
    EXPECT_THAT(none.why_none, HasSubstr("wholly beyond 1 March 2026 to 31 August 2026"));
    // 900 on day 56, 25 February; 1,200 on day 75, 16 March.
    const Window cut = window("drench", {whole_year(2026, 16.1), {}, {}, {}});
    EXPECT_EQ(cut.opens, parse_date("2026-03-01"));
    EXPECT_EQ(cut.opens_by.basis, Basis::time_of_year);
    EXPECT_EQ(cut.closes, parse_date("2026-03-15"));
    EXPECT_THAT(cut.cautions, Contains(HasSubstr("cut off")));
}

TEST(WindowOfYear, SaysThatTheBetterPartIsOverBeforeItOpens) {
    KnownYear known = ten_a_day();  // 1,500 on day 150, 30 May
    known.leaf_out = parse_date("2026-06-10");
    const Window injection = window("injection", known);
    EXPECT_EQ(injection.best_until, parse_date("2026-06-10"));
    EXPECT_THAT(injection.cautions, Contains(HasSubstr("better part would end on 29 May 2026")));
}

TEST(WindowOfYear, OnRequestLiesInAutumnAndIsNoMethodOfItsOwn) {
    ASSERT_EQ(seasons().not_offered.size(), 1U);
    ASSERT_TRUE(seasons().not_offered[0].on_request);
    const auto autumn =
        window_for(seasons(), *seasons().not_offered[0].on_request, std::nullopt, 2026, {});
    ASSERT_TRUE(autumn.window);
    EXPECT_EQ(autumn.window->opens, parse_date("2026-10-15"));
    EXPECT_EQ(autumn.window->closes, parse_date("2026-11-15"));
    EXPECT_THROW(seasons().method("autumn_drench"), measure::InputError);
}

TEST(NextWindowOfYear, TakesTheNextYearWhenThisOneHasNoneAndSaysWhy) {
    KnownYear known;
    known.leaf_out = parse_date("2026-09-01");
    const NextWindow next = next_window(seasons(), seasons().method("injection"), std::nullopt,
                                        parse_date("2026-05-01"), known);
    EXPECT_EQ(next.state, WindowState::passed_so_next_year);
    ASSERT_TRUE(next.window);
    EXPECT_EQ(next.window->opens, parse_date("2027-05-15"));
    EXPECT_THAT(next.why_none, HasSubstr("close"));
}

TEST(NextWindowOfYear, IsOpenOnItsFirstAndLastDay) {
    const auto state = [](const char* date) {
        return next_window(seasons(), seasons().method("drench"), std::nullopt, parse_date(date),
                           ten_a_day())
            .state;
    };
    EXPECT_EQ(state("2026-03-30"), WindowState::opens_later_this_year);
    EXPECT_EQ(state("2026-03-31"), WindowState::open_now);
    EXPECT_EQ(state("2026-04-29"), WindowState::open_now);
    EXPECT_EQ(state("2026-04-30"), WindowState::passed_so_next_year);
}

}  // namespace
}  // namespace ashtriage::season
