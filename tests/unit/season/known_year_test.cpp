#include "season/known_year.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::parse_date;
using test::steady_heat;
using test::whole_year;
using testing::HasSubstr;

KnownYear with(weather::HeatTotals heat, std::vector<weather::HeatTotals> past = {}) {
    return {std::move(heat), std::move(past), {}, {}};
}

std::vector<weather::HeatTotals> three_years() {
    return {whole_year(2023, 8.0), whole_year(2024, 10.0), whole_year(2025, 12.0)};
}

TEST(DateOfHeat, IsTheDayOnWhichTheTotalIsReached) {
    const KnownYear known = with(steady_heat(2026, 10.0, 100));
    const HeatDate found = date_of_heat(known, 2026, 450.0);
    EXPECT_EQ(found.knowledge, HeatKnowledge::measured);
    EXPECT_EQ(found.date, parse_date("2026-02-14"));  // day 45
    EXPECT_EQ(date_of_heat(known, 2026, 450.1).date, parse_date("2026-02-15"));
    EXPECT_EQ(date_of_heat(known, 2026, 1000.0).knowledge, HeatKnowledge::measured);
    EXPECT_EQ(date_of_heat(known, 2026, 1000.1).knowledge, HeatKnowledge::unknown);
}

TEST(DateOfHeat, CountsTheLeapDay) {
    const KnownYear known = with(steady_heat(2028, 10.0, 100));
    EXPECT_EQ(date_of_heat(known, 2028, 600.0).date, parse_date("2028-02-29"));
    EXPECT_EQ(date_of_heat(known, 2028, 610.0).date, parse_date("2028-03-01"));
}

TEST(DateOfHeat, IsUnknownWithoutWeatherAndNeedsNoReason) {
    const HeatDate found = date_of_heat({}, 2026, 450.0);
    EXPECT_EQ(found.knowledge, HeatKnowledge::unknown);
    EXPECT_TRUE(found.why.empty());
}

TEST(DateOfHeat, IsProjectedFromThreePastSeasonsAndNotFromTwo) {
    // 300 by 30 January; then 8, 10 and 12 a day: 450 after 19, 15 and 13 days, by the mean 15.
    const HeatDate found =
        date_of_heat(with(steady_heat(2026, 10.0, 30), three_years()), 2026, 450);
    EXPECT_EQ(found.knowledge, HeatKnowledge::projected);
    EXPECT_EQ(found.seasons, 3U);
    EXPECT_EQ(found.date, parse_date("2026-02-14"));
    EXPECT_EQ(found.earliest, parse_date("2026-02-12"));
    EXPECT_EQ(found.latest, parse_date("2026-02-18"));

    auto two = three_years();
    two.pop_back();
    const HeatDate open = date_of_heat(with(steady_heat(2026, 10.0, 30), two), 2026, 450);
    EXPECT_EQ(open.knowledge, HeatKnowledge::unknown);
    EXPECT_THAT(open.why, HasSubstr("there are 2"));
}

// One reason for every total that is not reached, which names the year.
TEST(DateOfHeat, SaysHowFarTheWeatherGoesAndOfWhichYearNothingIsKnown) {
    const KnownYear known = with(steady_heat(2026, 10.0, 30));
    EXPECT_EQ(date_of_heat(known, 2026, 450.0).why, date_of_heat(known, 2026, 900.0).why);
    EXPECT_THAT(date_of_heat(known, 2026, 450.0).why,
                HasSubstr("goes to 30 January 2026 and 300.0 degree days"));
    EXPECT_THAT(date_of_heat(known, 2027, 100.0).why,
                HasSubstr("nothing is known of the weather of 2027"));
}

TEST(DateOfHeat, OfTheNextYearIsAllProjected) {
    const KnownYear known =
        with(whole_year(2025, 12.0), {whole_year(2023, 8.0), whole_year(2024, 10.0)});
    const HeatDate found = date_of_heat(known, 2026, 450.0);
    EXPECT_EQ(found.knowledge, HeatKnowledge::projected);
    EXPECT_EQ(found.seasons, 3U) << "the year that is over counts as a past one";
    EXPECT_EQ(found.date, parse_date("2026-02-14"));
}

TEST(DateOfHeat, OfAYearBeforeTheWeatherIsUnknown) {
    const HeatDate found = date_of_heat(with(whole_year(2026, 10.0)), 2025, 450.0);
    EXPECT_EQ(found.knowledge, HeatKnowledge::unknown);
    EXPECT_THAT(found.why, HasSubstr("2025"));
}

TEST(DateOfHeat, IsNeverWhenTheYearEndedWithoutIt) {
    EXPECT_EQ(date_of_heat(with(whole_year(2026, 1.0)), 2026, 365.0).knowledge,
              HeatKnowledge::measured);
    EXPECT_EQ(date_of_heat(with(whole_year(2026, 1.0)), 2026, 366.0).knowledge,
              HeatKnowledge::never);
}

TEST(DateOfHeat, IsNeverWhenPastSeasonsDoNotGetThere) {
    const std::vector<weather::HeatTotals> cold{whole_year(2023, 1.0), whole_year(2024, 1.0),
                                                whole_year(2025, 1.0)};
    EXPECT_EQ(date_of_heat(with(steady_heat(2026, 1.0, 30), cold), 2026, 450.0).knowledge,
              HeatKnowledge::never);
}

TEST(DateOfHeat, GoesNoFurtherThanAGap) {
    auto heat = steady_heat(2026, 10.0, 30);
    heat.stopped = weather::Stop{parse_date("2026-01-31"), "that day has no temperatures"};
    EXPECT_EQ(date_of_heat(with(heat, three_years()), 2026, 300.0).knowledge,
              HeatKnowledge::measured);
    const HeatDate found = date_of_heat(with(heat, three_years()), 2026, 450.0);
    EXPECT_EQ(found.knowledge, HeatKnowledge::unknown);
    EXPECT_THAT(found.why, HasSubstr("gap from 2026-01-31"));
}

TEST(KnownYear, HoldsWhatWasSeenForItsOwnYearOnly) {
    KnownYear known;
    known.leaf_out = parse_date("2026-05-12");
    known.cues = {{"blossom", parse_date("2026-05-25")}};
    EXPECT_EQ(known.leaf_out_in(2026), parse_date("2026-05-12"));
    EXPECT_FALSE(known.leaf_out_in(2027));
    EXPECT_EQ(known.seen_in("blossom", 2026), parse_date("2026-05-25"));
    EXPECT_FALSE(known.seen_in("blossom", 2025));
    EXPECT_FALSE(known.seen_in("beetles", 2026));
}

TEST(CheckKnownYear, RefusesTotalsThatTheFiguresDoNotHoldFor) {
    const Calendar calendar = test::seasons_of(test::known_methods).calendar;
    EXPECT_NO_THROW(check(calendar, with(whole_year(2026, 10.0))));
    auto other_base = whole_year(2026, 10.0);
    other_base.rule.base = measure::parse_temperature("40F");
    auto other_start = whole_year(2026, 10.0);
    other_start.rule.start = {std::chrono::March, std::chrono::day{1}};
    auto other_unit = whole_year(2026, 10.0);
    other_unit.rule.unit = weather::DegreeUnit::celsius;
    for (const auto& other : {other_base, other_start, other_unit}) {
        EXPECT_THROW(check(calendar, with(other)), measure::InputError);
        EXPECT_THROW(check(calendar, with(whole_year(2026, 10.0), {other})), measure::InputError);
    }
}

TEST(CheckKnownYear, RefusesACueThatNobodyCanSee) {
    const Calendar calendar = test::seasons_of(test::known_methods).calendar;
    const auto seen = [](const char* cue) {
        KnownYear known;
        known.cues = {{cue, parse_date("2026-05-25")}};
        return known;
    };
    EXPECT_NO_THROW(check(calendar, seen("blossom")));
    EXPECT_THROW(check(calendar, seen("beetles")), measure::InputError);
    EXPECT_THROW(check(calendar, seen("blosom")), measure::InputError);
}

}  // namespace
}  // namespace ashtriage::season
