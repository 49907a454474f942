// What is refused, and what is shown, of weather that can be read.
#include "weather/read_weather.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather/weather_check.hpp"
#include "weather_text.hpp"

namespace ashtriage::weather {
namespace {

using measure::InputError;
using test::date;
using test::problems_of;
using test::read;
using test::reading;
using test::table;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(ReadWeather, ShowsEveryProblemOfAFileAtOnce) {
    EXPECT_THAT(problems_of("date,tmin_f,tmax_f,rain_in\n"
                            "2024-05-01,40,60,0\n"
                            "2024-05-02,61,60,0\n"
                            "2024-05-02,40,60,0\n"
                            "2024-05-01,40,60,0\n"
                            "2024-05-05,40,sixty,0\n"
                            "2024-05-04,40,60,-1\n"
                            "2024-13-01,40,60,0\n"
                            "2026-07-01,40,60,0\n"
                            "2024-05-06,40\n"),
                testing::UnorderedElementsAre("minimum-above-maximum:3", "duplicate-day:4",
                                              "duplicate-day:5", "not-a-number:6", "out-of-order:7",
                                              "impossible-value:7", "bad-date:8", "future-day:9",
                                              "row-width:10"));
}

TEST(ReadWeather, TakesEqualMinimumAndMaximumAndTheDayItIs) {
    EXPECT_THAT(problems_of("date,tmin_f,tmax_f\n2026-06-30,60,60\n"), IsEmpty());
}

TEST(ReadWeather, RefusesWhatLiesBeyondTheRecordsOfTheEarth) {
    const auto of = [](const char* columns, const char* values) {
        return problems_of(std::string("date,") + columns + "\n2024-01-05," + values + "\n");
    };
    EXPECT_THAT(of("tmin_c,tmax_c", "-89.2,56.7"), IsEmpty());
    EXPECT_THAT(of("tmin_c,tmax_c", "-89.3,56.7"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_c,tmax_c", "-89.2,56.8"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_f,tmax_f", "-128,134"), IsEmpty());
    EXPECT_THAT(of("tmin_f,tmax_f", "-129,134"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_f,tmax_f", "-128,135"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_f,tmax_f,rain_mm,wind_ms", "40,60,1825,113.2"), IsEmpty());
    EXPECT_THAT(of("tmin_f,tmax_f,rain_mm", "40,60,1826"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_f,tmax_f,wind_ms", "40,60,113.3"), ElementsAre("impossible-value:2"));
    EXPECT_THAT(of("tmin_f,tmax_f,wind_mph", "40,60,-1"), ElementsAre("impossible-value:2"));
}

TEST(ReadWeather, RefusesAMarkForMissingDaysHoweverOftenItStands) {
    EXPECT_EQ(problems_of(table("c", "2024-01-01", 300, "-9999", "-9999")).size(), 11U);
}

TEST(ReadWeather, RefusesFahrenheitReadAsCelsius) {
    EXPECT_THAT(problems_of(table("c", "2024-06-01", 3, "62", "80")),
                testing::Contains("impossible-value:2"));
    // No single value of a cold March in F is impossible in C, but a month of them is.
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 31, "25", "45")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 31, "20", "40")), IsEmpty());  // 30 C
}

TEST(ReadWeather, RefusesCelsiusReadAsFahrenheit) {
    EXPECT_THAT(problems_of(table("f", "2024-07-01", 31, "18", "30")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("f", "2024-05-01", 31, "8", "20")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-07-01", 31, "4", "15.8")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-07-01", 31, "4", "16")), IsEmpty());
    EXPECT_THAT(problems_of(table("f", "2024-01-01", 31, "-8", "2")), IsEmpty());  // a cold January
}

// Before any month of the growing season is known.
TEST(ReadWeather, RefusesAnAprilThatIsColderThanAnyWhereTreesAreTreated) {
    EXPECT_THAT(problems_of(table("f", "2024-04-01", 30, "4", "16")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-04-01", 30, "-13", "-3.2")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-04-01", 30, "-13", "-3")), IsEmpty());
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 31, "-13", "-3.2")), IsEmpty());
}

TEST(ReadWeather, RefusesAJuneThatIsColderThanAnyWhereTreesAreTreated) {
    EXPECT_THAT(problems_of(table("c", "2024-06-01", 30, "2", "13.8")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-06-01", 30, "2", "14")), IsEmpty());
    EXPECT_THAT(problems_of(table("c", "2024-05-01", 31, "2", "13.8")), IsEmpty());
}

// As whole F read as tenths of a degree C do.
TEST(ReadWeather, RefusesDaysThatSwingLessThanThreeDegrees) {
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 60, "5", "7.9")),
                ElementsAre("unit-doubtful:0"));
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 60, "5", "8")), IsEmpty());
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 59, "5", "7.9")), IsEmpty());
    auto checked = reading();
    checked.unit_checked = true;
    EXPECT_THAT(problems_of(table("c", "2024-03-01", 60, "5", "7.9"), checked), IsEmpty());
}

TEST(ReadWeather, JudgesTheUnitOnlyByTwentyDaysOfAMonth) {
    EXPECT_THAT(problems_of(table("f", "2024-07-01", 19, "18", "30")), IsEmpty());
    EXPECT_THAT(problems_of(table("f", "2024-07-01", 20, "18", "30")),
                ElementsAre("unit-doubtful:0"));
}

TEST(ReadWeather, TakesAUnitThatWasChecked) {
    auto how = reading();
    how.unit_checked = true;
    EXPECT_THAT(problems_of(table("f", "2024-07-01", 31, "18", "30"), how), IsEmpty());
}

TEST(ReadWeather, KnowsThatJulyIsWinterInTheSouth) {
    std::string south = "date,latitude,longitude,tmin_c,tmax_c\n";
    std::string north = south;
    for (int i = 0; i < 31; ++i) {
        const std::string day = measure::text(measure::add_days(date("2024-07-01"), i));
        south += day + ",-38,145,5,12\n";
        north += day + ",45,-93,5,12\n";
    }
    EXPECT_THAT(problems_of(south), IsEmpty());
    EXPECT_THAT(problems_of(north), ElementsAre("unit-doubtful:0"));
    // Without a place the warmer half of the year tells.
    EXPECT_THAT(problems_of(table("c", "2024-01-01", 31, "15", "27") +
                            table("c", "2024-07-01", 31, "5", "12").substr(19)),
                IsEmpty());
    // October there is as April in the north.
    std::string october = "date,latitude,longitude,tmin_f,tmax_f\n";
    for (int i = 0; i < 31; ++i) {
        october += measure::text(measure::add_days(date("2024-10-01"), i)) + ",-38,145,5,16\n";
    }
    EXPECT_THAT(problems_of(october), ElementsAre("unit-doubtful:0"));
}

TEST(IsSouthern, GoesByThePlaceAndElseByTheWarmerHalf) {
    const auto halves = [](const char* january, const char* july) {
        return is_southern(read(table("c", "2024-01-01", 31, "5", january) +
                                table("c", "2024-07-01", 31, "5", july).substr(19))
                               .series);
    };
    EXPECT_TRUE(halves("28", "20"));
    EXPECT_FALSE(halves("20", "28"));
    EXPECT_FALSE(halves("20", "20"));
    WeatherSeries series = test::alike("2024-06-01", 5, 40, 60);
    EXPECT_FALSE(is_southern(series));
    series.place = StationPlace{-37.8, 145.0, {}};
    EXPECT_TRUE(is_southern(series));
}

TEST(ReadWeather, RefusesTwoStationsUnlessOneIsChosen) {
    const std::string text =
        "station,date,tmin_f,tmax_f\n"
        "Hill,2024-05-01,40,60\n"
        "Dale,2024-05-01,44,66\n"
        "Hill,2024-05-02,41,61\n";
    EXPECT_THAT(problems_of(text), ElementsAre("two-stations:3"));
    auto how = reading();
    how.station = "dale";
    const WeatherFile dale = read(text, how);
    EXPECT_EQ(dale.series.station, "Dale");
    ASSERT_EQ(dale.series.days.size(), 1U);
    EXPECT_EQ(dale.series.days[0].minimum, test::fahrenheit(44));
    how.station = "Valley";
    EXPECT_THROW(read(text, how), InputError);
}

TEST(ReadWeather, NamesTheStationAsTheUserDoesWhereTheTableDoesNot) {
    auto how = reading();
    how.station = "By the barn";
    EXPECT_EQ(read(table("f", "2024-05-01", 2, "40", "60"), how).series.station, "By the barn");
}

TEST(ReadWeather, LeavesAGapWhereAFieldIsEmpty) {
    const WeatherFile file = read(
        "date,tmin_f,tmax_f\n2024-05-01,40,60\n2024-05-02,,60\n2024-05-03,NA,60\n"
        "2024-05-04,40,60\n");
    const auto found = gaps(file.series);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].days(), 2);
}

TEST(ReadWeather, SaysWhenItHardlyWarmsByDay) {
    const auto text = [](int days) { return table("c", "2024-05-01", days, "15", "19.9"); };
    EXPECT_THAT(read(text(59)).findings, IsEmpty());
    const auto findings = read(text(60)).findings;
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_THAT(findings[0].text, HasSubstr("4.9 C"));
    EXPECT_THAT(read(table("c", "2024-05-01", 60, "15", "20")).findings, IsEmpty());
}

TEST(ReadWeather, RefusesATableWithoutDays) {
    EXPECT_THROW(read(""), InputError);
    EXPECT_THROW(read("date,tmin_f,tmax_f\n"), InputError);
}

}  // namespace
}  // namespace ashtriage::weather
