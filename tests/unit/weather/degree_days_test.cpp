#include "weather/degree_days.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using test::alike;
using test::celsius;
using test::date;
using test::fahrenheit;
using test::take_out;
using testing::HasSubstr;

constexpr double rounding_error = 1e-9;

HeatRule by(HeatMethod method) {
    HeatRule rule;
    rule.method = method;
    return rule;
}

HeatRule by(HeatMethod method, double upper, Cutoff cutoff) {
    HeatRule rule = by(method);
    rule.upper = fahrenheit(upper);
    rule.cutoff = cutoff;
    return rule;
}

double of_day(const HeatRule& rule, double low, double high) {
    return degree_days_of(rule, fahrenheit(low), fahrenheit(high));
}

TEST(DegreeDays, AreNoneUpToTheBaseAndTheMeanAboveItFromTheBaseOn) {
    for (const HeatMethod method : all_heat_methods()) {
        EXPECT_EQ(of_day(by(method), 30, 50), 0.0) << name(method);
        EXPECT_EQ(of_day(by(method), 50, 50), 0.0) << name(method);
        EXPECT_NEAR(of_day(by(method), 50, 70), 10.0, rounding_error) << name(method);
        EXPECT_NEAR(of_day(by(method), 60, 60), 10.0, rounding_error) << name(method);
    }
}

TEST(DegreeDays, OfADayThatReachesTheBaseByAHairAreAlmostNone) {
    for (const HeatMethod method : all_heat_methods()) {
        const double value = of_day(by(method), 30, 50.001);
        EXPECT_GE(value, 0.0) << name(method);
        EXPECT_LT(value, 0.001) << name(method);
    }
}

// Where negative days count as none, raising the maximum too changes nothing.
TEST(DegreeDays, AreTheSameByBothClampingVariants) {
    for (double low = 20; low <= 100; low += 5) {
        for (double high = low; high <= 110; high += 5) {
            EXPECT_NEAR(of_day(by(HeatMethod::clamp_both), low, high),
                        of_day(by(HeatMethod::clamp_minimum), low, high), rounding_error);
            EXPECT_NEAR(of_day(by(HeatMethod::clamp_both, 86, Cutoff::horizontal), low, high),
                        of_day(by(HeatMethod::clamp_minimum, 86, Cutoff::horizontal), low, high),
                        rounding_error);
        }
    }
}

TEST(DegreeDays, WithAHorizontalCutoffGoOnAsAtTheThreshold) {
    for (const HeatMethod method : all_heat_methods()) {
        EXPECT_NEAR(of_day(by(method, 86, Cutoff::horizontal), 90, 100), 36.0, rounding_error);
        EXPECT_NEAR(of_day(by(method, 86, Cutoff::horizontal), 60, 86), 23.0, rounding_error);
    }
    // A day of 30 degrees half above the threshold, worked out by hand: the triangle above 86 has a
    // quarter of the day's area of 30, which is 15 * 0.5 / 2.
    EXPECT_NEAR(of_day(by(HeatMethod::single_triangle, 86, Cutoff::horizontal), 71, 101),
                36.0 - 3.75, rounding_error);
}

TEST(DegreeDays, WithAVerticalCutoffAreNoneWhileItIsTooWarm) {
    for (const HeatMethod method : {HeatMethod::single_triangle, HeatMethod::single_sine,
                                    HeatMethod::double_triangle, HeatMethod::double_sine}) {
        EXPECT_NEAR(of_day(by(method, 86, Cutoff::vertical), 90, 100), 0.0, rounding_error);
        EXPECT_NEAR(of_day(by(method, 86, Cutoff::vertical), 60, 86), 23.0, rounding_error);
    }
    // Half of the day from 71 to 86, evenly: (21 + 36) / 2 degrees for half a day.
    EXPECT_NEAR(of_day(by(HeatMethod::single_triangle, 86, Cutoff::vertical), 71, 101), 14.25,
                rounding_error);
}

TEST(DegreeDays, WithAnIntermediateCutoffShrinkAboveTheThresholdButNeverBelowNothing) {
    // Ten degrees above the threshold all day: 36 + 10 - 2 * 10.
    EXPECT_NEAR(of_day(by(HeatMethod::single_sine, 86, Cutoff::intermediate), 96, 96), 26.0,
                rounding_error);
    EXPECT_NEAR(of_day(by(HeatMethod::single_sine, 86, Cutoff::intermediate), 122, 122), 0.0,
                rounding_error);
    EXPECT_EQ(of_day(by(HeatMethod::single_sine, 86, Cutoff::intermediate), 125, 130), 0.0);
}

TEST(DegreeDays, OfHalfDaysTakeTheNextMinimumWhicheverOfTheTwoIsHigher) {
    const HeatRule rule = by(HeatMethod::double_triangle);
    EXPECT_NEAR(degree_days_of(rule, fahrenheit(60), fahrenheit(80), fahrenheit(70)), 22.5,
                rounding_error);
    EXPECT_NEAR(degree_days_of(rule, fahrenheit(60), fahrenheit(80), fahrenheit(90)), 27.5,
                rounding_error);
    EXPECT_NEAR(degree_days_of(rule, fahrenheit(60), fahrenheit(80)), 20.0, rounding_error);
}

TEST(DegreeDays, InCelsiusAreFiveNinthsOfThoseInFahrenheit) {
    for (const HeatMethod method : all_heat_methods()) {
        HeatRule in_celsius = by(method);
        in_celsius.base = celsius(10);
        in_celsius.unit = DegreeUnit::celsius;
        EXPECT_NEAR(degree_days_of(in_celsius, celsius(3), celsius(22)) * 1.8,
                    degree_days_of(by(method), celsius(3), celsius(22)), 1e-6)
            << name(method);
    }
}

TEST(AddUp, CountsFromTheFirstDayToTheEndOfEach) {
    const WeatherSeries series = alike("2023-12-25", 400, 50, 70);
    const HeatTotals totals = add_up(series, {}, date("2024-01-01"));
    EXPECT_EQ(totals.station, "Test Field");
    EXPECT_EQ(totals.days.size(), 366U);  // a leap year
    EXPECT_TRUE(totals.complete());
    EXPECT_FALSE(totals.stopped);
    EXPECT_NEAR(*totals.total_on(date("2024-01-01")), 10.0, rounding_error);
    EXPECT_NEAR(*totals.total_on(date("2024-02-29")), 600.0, 1e-6);
    EXPECT_NEAR(*totals.total_on(date("2024-12-31")), 3660.0, 1e-6);
    EXPECT_FALSE(totals.total_on(date("2023-12-31")));
    EXPECT_FALSE(totals.total_on(date("2025-01-01")));
}

TEST(AddUp, FindsTheFirstDayOfATotal) {
    const HeatTotals totals = add_up(alike("2024-01-01", 100, 50, 70), {}, date("2024-01-01"));
    EXPECT_EQ(*totals.date_of(450), date("2024-02-14"));  // 45 days
    EXPECT_EQ(*totals.date_of(450.001), date("2024-02-15"));
    EXPECT_EQ(*totals.date_of(0), date("2024-01-01"));
    EXPECT_EQ(*totals.date_of(1000), date("2024-04-09"));
    EXPECT_FALSE(totals.date_of(1000.001));
    EXPECT_FALSE(totals.complete());
}

TEST(AddUp, RunsFromOneYearIntoTheNextForTheSouth) {
    HeatRule rule;
    rule.start = {std::chrono::July, std::chrono::day{1}};
    const HeatTotals totals = add_up(alike("2023-01-01", 800, 50, 70), rule, date("2023-07-01"));
    EXPECT_EQ(totals.days.size(), 366U);  // with 29 February 2024
    EXPECT_EQ(totals.days.back().date, date("2024-06-30"));
    EXPECT_TRUE(totals.complete());
    EXPECT_NEAR(*totals.total_on(date("2024-01-01")), 1850.0, 1e-6);
}

TEST(AddUp, RefusesAFirstDayThatIsNotTheStart) {
    EXPECT_THROW(add_up(alike("2024-01-01", 9, 50, 70), {}, date("2024-01-02")),
                 measure::InputError);
}

TEST(AddUp, StopsBeforeADayWithoutTemperatures) {
    WeatherSeries series = alike("2024-01-01", 100, 50, 70);
    take_out(series, "2024-02-10", 1);
    const HeatTotals totals = add_up(series, {}, date("2024-01-01"));
    ASSERT_TRUE(totals.stopped);
    EXPECT_EQ(totals.stopped->first_missing, date("2024-02-10"));
    EXPECT_EQ(totals.days.back().date, date("2024-02-09"));
    EXPECT_FALSE(totals.total_on(date("2024-02-10")));
    EXPECT_EQ(*totals.date_of(400), date("2024-02-09"));
    EXPECT_FALSE(totals.date_of(401));
}

TEST(AddUp, DoesNotBeginWhenTheFirstDayIsMissing) {
    const HeatTotals totals = add_up(alike("2024-01-02", 9, 50, 70), {}, date("2024-01-01"));
    ASSERT_TRUE(totals.stopped);
    EXPECT_TRUE(totals.days.empty());
}

TEST(AddUp, TakesTheEndOfTheSeriesForNoGap) {
    WeatherSeries series = alike("2024-01-01", 100, 50, 70);
    series.days.back().maximum.reset();
    const HeatTotals totals = add_up(series, {}, date("2024-01-01"));
    EXPECT_FALSE(totals.stopped);
    EXPECT_EQ(totals.days.size(), 99U);
    EXPECT_TRUE(add_up(WeatherSeries{}, {}, date("2024-01-01")).days.empty());
}

TEST(AddUp, MarksFilledDaysAndGoesOnOverFourOfThemInAMonth) {
    WeatherSeries series = alike("2024-01-01", 100, 50, 70);
    take_out(series, "2024-02-10", 4);
    const HeatTotals totals = add_up(fill_short_gaps(series, 4), {}, date("2024-01-01"));
    EXPECT_FALSE(totals.stopped);
    EXPECT_EQ(totals.filled_days, 4);
    EXPECT_TRUE(totals.days[40].filled);
    EXPECT_FALSE(totals.days[39].filled);
}

TEST(AddUp, StopsInAMonthOfWhichFiveDaysWereNotMeasuredEvenIfFilled) {
    WeatherSeries series = alike("2024-01-01", 100, 50, 70);
    take_out(series, "2024-02-10", 2);
    take_out(series, "2024-02-20", 3);
    const HeatTotals totals = add_up(fill_short_gaps(series, 4), {}, date("2024-01-01"));
    ASSERT_TRUE(totals.stopped);
    EXPECT_EQ(totals.stopped->first_missing, date("2024-02-10"));
    EXPECT_THAT(totals.stopped->why, HasSubstr("5 days of that month"));
}

TEST(AddUp, DoesNotCountDaysBeforeTheStartAgainstAMonth) {
    WeatherSeries series = alike("2024-01-01", 100, 50, 70);
    take_out(series, "2024-02-02", 4);
    take_out(series, "2024-02-20", 1);
    HeatRule rule;
    rule.start = {std::chrono::February, std::chrono::day{10}};
    EXPECT_FALSE(add_up(fill_short_gaps(series, 4), rule, date("2024-02-10")).stopped);
}

}  // namespace
}  // namespace ashtriage::weather
