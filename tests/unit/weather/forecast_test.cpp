#include "weather/forecast.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::weather {
namespace {

using std::chrono::minutes;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
namespace units = measure::units;

Forecast read(const std::string& text, const std::string& columns = {}) {
    return read_forecast(text, "forecast.csv", columns);
}

std::string complaint(const std::string& text, const std::string& columns = {}) {
    try {
        read(text, columns);
    } catch (const measure::InputError& error) {
        return std::string(error.what()) + " | " + error.hint();
    }
    return "no complaint";
}

Moment at(int hour, int minute = 0, const char* date = "2026-05-18") {
    return moment(measure::parse_date(date), minutes(hour * 60 + minute));
}

const std::string two_hours =
    "time,temp_f,wind_mph,rain_in,rain_chance_percent\n"
    "2026-05-18 09:00,60,6,0,10\n"
    "2026-05-18T10:00,62,8,0.1,\n";

TEST(ReadForecast, StopsAtTenRowsOfOneKindOfProblemAndCountsTheRest) {
    const auto hours = [](int count) {
        std::string text = "time,temp_f\n";
        for (int i = 0; i < count; ++i) text += fmt::format("2026-05-18T{:02}:00Z,60\n", i);
        try {
            read(text);
        } catch (const packs::BadFile& bad) {
            return bad.problems().list();
        }
        return std::vector<packs::Problem>{};
    };
    EXPECT_THAT(hours(10), SizeIs(10));
    const auto problems = hours(24);
    ASSERT_THAT(problems, SizeIs(11));
    EXPECT_THAT(problems.back().message, HasSubstr("24 are like this"));
}

TEST(ReadForecast, TakesEachHourUpToTheNext) {
    const auto periods = read(two_hours).periods;
    ASSERT_THAT(periods, SizeIs(2));
    EXPECT_EQ(periods[0].time, (Stretch{at(9), at(10)}));
    EXPECT_EQ(periods[1].time, (Stretch{at(10), at(11)}));
    EXPECT_EQ(periods[0].coolest, measure::Temperature::of("60", units::fahrenheit));
    EXPECT_EQ(periods[0].warmest, periods[0].coolest);
    EXPECT_EQ(periods[1].wind, measure::Speed::of("8", units::mile_per_hour));
    EXPECT_EQ(periods[1].rain, measure::Length::of("0.1", units::inch));
    EXPECT_EQ(periods[0].rain_chance, measure::Percent::of("10", units::percent));
    EXPECT_FALSE(periods[1].rain_chance);
}

TEST(ReadForecast, TakesADayFromMidnightToMidnight) {
    const auto periods =
        read("date,tmin_c,tmax_c,wind_kmh,rain_mm\n2026-05-18,8,20,12,0\n").periods;
    ASSERT_THAT(periods, SizeIs(1));
    EXPECT_EQ(periods[0].time, (Stretch{at(0), at(0, 0, "2026-05-19")}));
    EXPECT_TRUE(periods[0].daily);
    EXPECT_LT(periods[0].coolest, periods[0].warmest);
}

TEST(ReadForecast, ReadsDeclaredColumnsOfForeignNames) {
    const auto periods = read("WHEN,T,POP\n2026-05-18 09:00,20,30\n2026-05-18 10:00,21,40\n",
                              "time=WHEN, temp=T:C, rain_chance=POP:percent")
                             .periods;
    ASSERT_THAT(periods, SizeIs(2));
    EXPECT_EQ(periods[0].coolest, measure::Temperature::of("20", units::celsius));
    EXPECT_EQ(periods[1].rain_chance, measure::Percent::of("40", units::percent));
}

// A row is not stretched over hours for which nothing is forecast.
TEST(ReadForecast, LeavesAGapWhereARowIsMissing) {
    const auto forecast =
        read("time,wind_mph\n2026-05-18 09:00,5\n2026-05-18 10:00,5\n2026-05-18 13:00,5\n");
    EXPECT_THAT(not_covered(forecast, {at(9), at(15)}),
                ElementsAre(Stretch{at(11), at(13)}, Stretch{at(14), at(15)}));
    EXPECT_THAT(not_covered(forecast, {at(9), at(11)}), IsEmpty());
}

TEST(ReadForecast, LetsARowSayForHowManyHoursItHolds) {
    const auto periods = read(
                             "time,hours,wind_mph\n2026-05-18 09:00,1,5\n2026-05-18 10:00,3,5\n"
                             "2026-05-18 13:00,6,5\n")
                             .periods;
    EXPECT_EQ(periods[1].time.to, at(13));
    EXPECT_EQ(periods[2].time.to, at(19));
}

TEST(ReadForecast, ALoneHourDoesNotSayHowLongItHolds) {
    EXPECT_THAT(complaint("time,wind_mph\n2026-05-18 09:00,5\n"), HasSubstr("one row alone"));
}

TEST(ReadForecast, RefusesAColumnWithoutItsUnit) {
    for (const char* column : {"temp", "wind", "rain", "rain_chance", "tmin"}) {
        const std::string name(column);
        EXPECT_THAT(complaint("time," + name + "\n2026-05-18 09:00,5\n2026-05-18 10:00,5\n"),
                    HasSubstr("'" + name + "' has no unit"));
    }
    EXPECT_THAT(complaint("WHEN,T\n2026-05-18 09:00,5\n", "time=WHEN, temp=T"),
                HasSubstr("'T' has no unit"));
    EXPECT_THAT(complaint("time,wind_knots\n2026-05-18 09:00,5\n"),
                HasSubstr("'knots' is not a unit"));
}

TEST(ReadForecast, NamesTheLinesOfTimesOutOfOrderAndTwice) {
    const std::string text =
        complaint("time,wind_mph\n2026-05-18 10:00,5\n2026-05-18 09:00,5\n2026-05-18 09:00,5\n");
    EXPECT_THAT(text, HasSubstr("forecast.csv:3"));
    EXPECT_THAT(text, HasSubstr("comes after"));
    EXPECT_THAT(text, HasSubstr("forecast.csv:4"));
    EXPECT_THAT(text, HasSubstr("stands twice"));
}

TEST(ReadForecast, NamesEveryImpossibleValueWithItsLine) {
    const std::string text = complaint(
        "time,temp_f,wind_mph,rain_in,rain_chance_percent\n"
        "2026-05-18 09:00,200,6,0,10\n"
        "2026-05-18 10:00,60,-1,0,10\n"
        "2026-05-18 11:00,60,6,100,10\n"
        "2026-05-18 12:00,60,6,0,101\n"
        "2026-05-18 25:00,60,6,0,10\n"
        "2026-02-30 10:00,60,6,0,10\n"
        "2026-05-18 13:00,warm,6,0,10\n");
    for (const char* line : {":2", ":3", ":4", ":5", ":6", ":7", ":8"}) {
        EXPECT_THAT(text, HasSubstr("forecast.csv" + std::string(line)));
    }
}

TEST(ReadForecast, RefusesHoursThatOverlap) {
    EXPECT_THAT(complaint("time,hours,wind_mph\n2026-05-18 09:00,2,5\n2026-05-18 10:00,1,5\n"),
                HasSubstr("still belongs to the row before"));
}

TEST(ReadForecast, RefusesATableWithoutATimeOrWithTwo) {
    EXPECT_THAT(complaint("temp_f\n60\n"), HasSubstr("one column that says when"));
    EXPECT_THAT(complaint("time,date,temp_f\n2026-05-18 09:00,2026-05-18,60\n"),
                HasSubstr("one column that says when"));
    EXPECT_THAT(complaint("time\n2026-05-18 09:00\n"), HasSubstr("says nothing of"));
    EXPECT_THAT(complaint("time,temp_f\n"), HasSubstr("no row"));
    EXPECT_THAT(complaint("date,tmin_f,tmax_f\n2026-05-18,70,60\n"),
                HasSubstr("minimum is above the maximum"));
}

TEST(Forecast, AMomentBelongsToThePeriodThatBeginsWithIt) {
    const auto forecast = read(two_hours);
    const auto found = periods_within(forecast, {at(10), at(10, 1)});
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found.front().time.from, at(10));
    EXPECT_THAT(periods_within(forecast, {at(11), at(12)}), IsEmpty());
}

TEST(Forecast, CoversNothingWhenItIsEmpty) {
    EXPECT_THAT(not_covered({}, {at(9), at(10)}), ElementsAre(Stretch{at(9), at(10)}));
}

}  // namespace
}  // namespace ashtriage::weather
