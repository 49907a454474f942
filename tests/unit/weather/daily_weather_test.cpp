#include "weather/daily_weather.hpp"

#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using test::alike;
using test::date;
using test::day_of;
using test::fahrenheit;
using test::take_out;

TEST(Gaps, AreTheDaysBetweenThatLackATemperature) {
    WeatherSeries series = alike("2024-02-25", 10, 40, 60);
    EXPECT_TRUE(gaps(series).empty());
    take_out(series, "2024-02-27", 3);
    series.days[4].minimum.reset();  // 3 March
    const auto found = gaps(series);
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0].first, date("2024-02-27"));
    EXPECT_EQ(found[0].last, date("2024-02-29"));
    EXPECT_EQ(found[0].days(), 3);
    EXPECT_EQ(found[1].first, date("2024-03-03"));
    EXPECT_EQ(found[1].days(), 1);
}

TEST(Gaps, AreNotWhatComesBeforeTheFirstOrAfterTheLastMeasuredDay) {
    WeatherSeries series = alike("2024-05-01", 5, 40, 60);
    series.days.front().maximum.reset();
    series.days.back().maximum.reset();
    EXPECT_TRUE(gaps(series).empty());
    EXPECT_TRUE(gaps(WeatherSeries{}).empty());
}

TEST(FillShortGaps, DrawsAStraightLineAndMarksTheDays) {
    WeatherSeries series;
    series.days = {day_of(date("2024-05-01"), 40, 60), day_of(date("2024-05-05"), 48, 64)};
    const WeatherSeries filled = fill_short_gaps(series, 3);
    ASSERT_EQ(filled.days.size(), 5U);
    EXPECT_EQ(filled.days[1].minimum, fahrenheit(42));
    EXPECT_EQ(filled.days[2].minimum, fahrenheit(44));
    EXPECT_EQ(filled.days[3].maximum, fahrenheit(63));
    EXPECT_FALSE(filled.days[0].filled);
    EXPECT_TRUE(filled.days[1].filled);
    EXPECT_TRUE(filled.days[3].filled);
    EXPECT_FALSE(filled.days[4].filled);
    EXPECT_EQ(filled.days[2].date, date("2024-05-03"));
}

TEST(FillShortGaps, LeavesAGapThatIsOneDayTooLong) {
    WeatherSeries series = alike("2024-05-01", 10, 40, 60);
    take_out(series, "2024-05-03", 3);
    EXPECT_EQ(gaps(fill_short_gaps(series, 2)).size(), 1U);
    EXPECT_TRUE(gaps(fill_short_gaps(series, 3)).empty());
}

TEST(FillShortGaps, KeepsTheRainOfADayWithoutTemperatures) {
    WeatherSeries series = alike("2024-05-01", 3, 40, 60);
    series.days[1].maximum.reset();
    series.days[1].rain = measure::Length::of("0.5", measure::units::inch);
    const WeatherSeries filled = fill_short_gaps(series, 1);
    ASSERT_EQ(filled.days.size(), 3U);
    EXPECT_TRUE(filled.days[1].filled);
    EXPECT_EQ(filled.days[1].rain, series.days[1].rain);
}

TEST(FillShortGaps, RefusesALengthBelowOneDay) {
    EXPECT_THROW(fill_short_gaps(alike("2024-05-01", 3, 40, 60), 0), measure::InputError);
}

TEST(DaysNotMeasured, CountMissingAndFilledDays) {
    WeatherSeries series = alike("2024-05-01", 31, 40, 60);
    take_out(series, "2024-05-10", 2);
    take_out(series, "2024-05-20", 1);
    EXPECT_EQ(days_not_measured(series, date("2024-05-01"), date("2024-05-31")), 3);
    EXPECT_EQ(days_not_measured(fill_short_gaps(series, 1), date("2024-05-01"), date("2024-05-31")),
              3);
    EXPECT_EQ(days_not_measured(series, date("2024-05-11"), date("2024-05-19")), 1);
    EXPECT_EQ(days_not_measured(series, date("2024-05-12"), date("2024-05-19")), 0);
}

}  // namespace
}  // namespace ashtriage::weather
