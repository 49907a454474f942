#include "weather/projection.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using measure::InputError;
using test::alike;
using test::date;

// Whole years of which each day brings 10, 20 and 40 degree days, 2021 to 2023.
WeatherSeries three_years() {
    WeatherSeries series = alike("2021-01-01", 365, 50, 70);
    for (const auto& more : {alike("2022-01-01", 365, 60, 80), alike("2023-01-01", 365, 80, 100)}) {
        series.days.insert(series.days.end(), more.days.begin(), more.days.end());
    }
    return series;
}

std::vector<HeatTotals> past() {
    return complete_seasons(three_years(), {}, date("2024-01-01"));
}

HeatTotals so_far(const char* first = "2024-01-01", int days = 10) {
    return add_up(alike(first, days, 50, 70), {}, date("2024-01-01"));
}

TEST(CompleteSeasons, AreThoseWithoutAGapThatEndBeforeTheDay) {
    WeatherSeries series = three_years();
    ASSERT_EQ(past().size(), 3U);
    EXPECT_EQ(past()[0].first, date("2021-01-01"));
    EXPECT_EQ(complete_seasons(series, {}, date("2023-12-31")).size(), 2U);
    test::take_out(series, "2022-12-31", 1);
    EXPECT_EQ(complete_seasons(series, {}, date("2024-01-01")).size(), 2U);
    test::take_out(series, "2021-01-01", 1);
    EXPECT_EQ(complete_seasons(series, {}, date("2024-01-01")).size(), 1U);
    EXPECT_TRUE(complete_seasons(WeatherSeries{}, {}, date("2024-01-01")).empty());
}

// 100 degree days until 10 January, and 280 to go: 28, 14 or 7 days; by the mean of 70 / 3 a
// day, 12.
TEST(ProjectDate, AddsWhatRemainedInPastYears) {
    const DateProjection projected = project_date(so_far(), 380, past());
    EXPECT_EQ(projected.seasons, 3U);
    EXPECT_EQ(projected.reached_in, 3U);
    EXPECT_EQ(projected.earliest, date("2024-01-17"));
    EXPECT_EQ(projected.mean, date("2024-01-22"));
    EXPECT_EQ(projected.latest, date("2024-02-07"));
    // Of 28, 14 and 7 around 49 / 3, a sample.
    EXPECT_NEAR(*projected.standard_deviation_days, 10.6927, 1e-4);
}

TEST(ProjectDate, HasNoLatestDayWhenAPastYearDoesNotGetThere) {
    // 4,000 are brought about by the two warmer years alone: 10 a day for 356 days are 3,560.
    const DateProjection projected = project_date(so_far(), 4000, past());
    EXPECT_EQ(projected.reached_in, 2U);
    EXPECT_TRUE(projected.mean);
    EXPECT_TRUE(projected.earliest);
    EXPECT_FALSE(projected.latest);
    EXPECT_FALSE(projected.standard_deviation_days);
    EXPECT_EQ(project_date(so_far(), 1e6, past()).reached_in, 0U);
    EXPECT_FALSE(project_date(so_far(), 1e6, past()).mean);
}

TEST(ProjectDate, RefusesATotalThatIsReached) {
    EXPECT_THROW(project_date(so_far(), 100, past()), InputError);
    EXPECT_EQ(project_date(so_far(), 100.01, past()).earliest, date("2024-01-11"));
}

TEST(ProjectDate, NeedsThreePastSeasons) {
    auto two = past();
    two.pop_back();
    try {
        project_date(so_far(), 380, two);
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), testing::HasSubstr("needs 3"));
        EXPECT_THAT(error.what(), testing::HasSubstr("are 2"));
    }
}

TEST(ProjectDate, DoesNotReachAcrossAGap) {
    WeatherSeries series = alike("2024-01-01", 20, 50, 70);
    test::take_out(series, "2024-01-05", 1);
    EXPECT_THROW(project_date(add_up(series, {}, date("2024-01-01")), 380, past()), InputError);
}

TEST(ProjectDate, WorksBeforeTheSeasonHasBegun) {
    EXPECT_EQ(project_date(so_far("2023-12-01", 20), 400, past()).earliest, date("2024-01-10"));
}

TEST(ProjectTotal, GivesTheMeanAndTheSpreadOnADay) {
    const TotalProjection projected = project_total(so_far(), date("2024-01-20"), past());
    EXPECT_EQ(projected.seasons, 3U);
    EXPECT_NEAR(projected.lowest, 200, 1e-6);
    EXPECT_NEAR(projected.mean, 100 + 700.0 / 3, 1e-6);
    EXPECT_NEAR(projected.highest, 500, 1e-6);
    EXPECT_NEAR(projected.standard_deviation, 152.7525, 1e-4);
}

TEST(ProjectTotal, CountsTheSameDaysOfTheYearAlsoOnALeapDay) {
    const HeatTotals leap = so_far("2024-01-01", 60);  // to 29 February; past years to the 28th
    EXPECT_NEAR(project_total(leap, date("2024-03-01"), past()).lowest, 610, 1e-6);
    // The season has a day more than the past ones, of which nobody knows.
    EXPECT_NEAR(project_total(leap, date("2024-12-31"), past()).lowest, 600 + 3060, 1e-6);
}

TEST(ProjectTotal, RefusesDaysThatAreKnownOrBeyondTheSeason) {
    EXPECT_THROW(project_total(so_far(), date("2024-01-10"), past()), InputError);
    EXPECT_THROW(project_total(so_far(), date("2025-01-01"), past()), InputError);
    EXPECT_NO_THROW(project_total(so_far(), date("2024-12-31"), past()));
}

}  // namespace
}  // namespace ashtriage::weather
