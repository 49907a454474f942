// The layouts that weather comes in.
#include "weather/weather_layouts.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather_text.hpp"

namespace ashtriage::weather {
namespace {

using measure::InputError;
using test::celsius;
using test::date;
using test::fahrenheit;
using test::problems_of;
using test::read;
using test::reading;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
namespace units = measure::units;

WeatherDay only_day(const std::string& text, const WeatherReading& how = reading()) {
    const WeatherFile file = read(text, how);
    EXPECT_EQ(file.series.days.size(), 1U);
    return file.series.days.at(0);
}

std::string refusal_of(const std::string& text, const WeatherReading& how = reading()) {
    try {
        read(text, how);
    } catch (const InputError& error) {
        return std::string(error.what()) + " | " + error.hint();
    }
    return {};
}

TEST(OwnLayout, HasItsUnitsInTheNamesOfTheColumns) {
    const WeatherDay day =
        only_day("Date,TMIN_F,Tmax_C,rain_in,wind_mph,note\n2024-05-01,50,20,0.5,10,showers\n");
    EXPECT_EQ(day.date, date("2024-05-01"));
    EXPECT_EQ(day.minimum, fahrenheit(50));
    EXPECT_EQ(day.maximum, celsius(20));
    EXPECT_EQ(day.rain, measure::Length::of("0.5", units::inch));
    EXPECT_EQ(day.wind, measure::Speed::of("10", units::mile_per_hour));
    EXPECT_FALSE(day.filled);
}

TEST(OwnLayout, IsAlsoReadInTenths) {
    const WeatherDay day = only_day(
        "date,tmin_tenths_c,tmax_tenths_c,rain_tenths_mm,wind_tenths_ms\n2024-05-01,-12,128,254,"
        "45\n");
    EXPECT_EQ(day.minimum, celsius(-1.2));
    EXPECT_EQ(day.maximum, celsius(12.8));
    EXPECT_EQ(day.rain, measure::Length::of("25.4", units::millimetre));
    EXPECT_EQ(day.wind, measure::Speed::of("4.5", units::metre_per_second));
}

TEST(OwnLayout, RefusesAColumnWithoutAUnit) {
    EXPECT_THAT(refusal_of("date,tmin,tmax\n2024-05-01,40,60\n"), HasSubstr("'tmin' has no unit"));
    EXPECT_THAT(refusal_of("date,tmin_f,tmax_f,rain\n2024-05-01,40,60,0\n"),
                HasSubstr("'rain' has no unit"));
}

TEST(OwnLayout, RefusesAColumnItDoesNotKnowWithTheNearest) {
    EXPECT_THAT(refusal_of("date,tmin_f,tmax_f,rian_in\n2024-05-01,40,60,0\n"),
                HasSubstr("did you mean 'rain_in'"));
    EXPECT_THAT(refusal_of("date,tmin_f,tmax_k\n2024-05-01,40,60\n"), HasSubstr("tmax_k"));
    EXPECT_THAT(refusal_of("date,tmin_f,tmin_c,tmax_f\n2024-05-01,40,4,60\n"),
                HasSubstr("said to hold the same"));
}

TEST(OwnLayout, RefusesATableWithoutOneOfTheThreeItNeeds) {
    EXPECT_THAT(refusal_of("tmin_f,tmax_f\n40,60\n"), HasSubstr("'date'"));
    EXPECT_THAT(refusal_of("date,tmax_f\n2024-05-01,60\n"), HasSubstr("'tmin'"));
    EXPECT_THAT(refusal_of("date,tmin_f\n2024-05-01,60\n"), HasSubstr("'tmax'"));
}

TEST(OwnLayout, TakesDatesWithTheYearFirstAndNoOthers) {
    for (const char* written : {"2024-05-01", "2024-5-1", "2024/05/01", "20240501"}) {
        EXPECT_EQ(only_day(fmt::format("date,tmin_f,tmax_f\n{},40,60\n", written)).date,
                  date("2024-05-01"))
            << written;
    }
    for (const char* written : {"05/01/2024", "1 May 2024", "2024-5/1", "2024", "2023-02-29"}) {
        EXPECT_THAT(problems_of(fmt::format("date,tmin_f,tmax_f\n{},40,60\n", written)),
                    ElementsAre("bad-date:2"))
            << written;
    }
}

TEST(DeclaredColumns, AreReadFromAForeignHeader) {
    auto how = reading();
    how.columns = "date=DAY, tmin=LOW:F, tmax=HIGH:f, rain=Wet:mm, station=Where";
    const WeatherFile file =
        read("Where,DAY,LOW,HIGH,Wet,Sky\nOak Field,2024-05-01,40,60,5,cloudy\n", how);
    EXPECT_EQ(file.series.station, "Oak Field");
    EXPECT_EQ(file.series.days.at(0).maximum, fahrenheit(60));
    EXPECT_EQ(file.series.days.at(0).rain, measure::Length::of("5", units::millimetre));
}

TEST(DeclaredColumns, AreRefusedWithoutAUnitOrTwiceOrMissing) {
    const auto with = [](const char* columns) {
        auto how = reading();
        how.columns = columns;
        return refusal_of("DAY,LOW,HIGH\n2024-05-01,40,60\n", how);
    };
    EXPECT_THAT(with("date=DAY, tmin=LOW, tmax=HIGH:F"), HasSubstr("'LOW' has no unit"));
    EXPECT_THAT(with("date=DAY, tmin=LOW:K, tmax=HIGH:F"), HasSubstr("F, C or tenths C"));
    EXPECT_THAT(with("date=DAY, tmin=LOW:F, tmin=HIGH:F"), HasSubstr("hold the same"));
    EXPECT_THAT(with("date=DAY, tmin=LOW:F, tmax=HIHG:F"), HasSubstr("HIGH"));
    EXPECT_THAT(with("DAY, tmin=LOW:F"), HasSubstr("does not say which"));
    EXPECT_THAT(with("date=DAY, low=LOW:F, tmax=HIGH:F"), HasSubstr("does not begin with"));
    EXPECT_THAT(with("date=, tmin=LOW:F, tmax=HIGH:F"), HasSubstr("names no column"));
    EXPECT_THAT(with("date=DAY, tmin=LOW:F"), HasSubstr("'tmax'"));
}

const std::string wide =
    "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES,TMIN,"
    "TMIN_ATTRIBUTES,SNWD\n"
    "TST00000001,2024-05-01,41.8,-88.1,213.4,25,\",,W,2400\",128,\",,W\",50,\",,W\",0\n"
    "TST00000001,2024-05-02,41.8,-88.1,213.4,,,178,\",S,W\",60,\"H,,W\",\n";

TEST(WidePublicLayout, NeedsItsUnitFromTheUser) {
    EXPECT_THAT(refusal_of(wide), HasSubstr("--temperature-unit"));
    auto how = reading();
    how.temperature_unit = "K";
    EXPECT_THAT(refusal_of(wide, how), HasSubstr("'K'"));
}

TEST(WidePublicLayout, IsReadWithStationPlaceAndQualityFlags) {
    auto how = reading();
    how.temperature_unit = "tenths C";
    const WeatherFile file = read(wide, how);
    EXPECT_EQ(file.series.station, "TST00000001");
    ASSERT_TRUE(file.series.place);
    EXPECT_EQ(file.series.place->latitude, 41.8);
    EXPECT_EQ(file.series.place->longitude, -88.1);
    EXPECT_EQ(file.series.place->elevation, measure::Length::of("213.4", units::metre));
    ASSERT_EQ(file.series.days.size(), 2U);
    EXPECT_EQ(file.series.days[0].maximum, celsius(12.8));
    EXPECT_EQ(file.series.days[0].minimum, celsius(5));
    EXPECT_EQ(file.series.days[0].rain, measure::Length::of("2.5", units::millimetre));
    EXPECT_FALSE(file.series.days[1].maximum);  // flagged
    EXPECT_EQ(file.series.days[1].minimum, celsius(6));
    ASSERT_EQ(file.findings.size(), 1U);
    EXPECT_EQ(file.findings[0].line, 3U);
    EXPECT_THAT(file.findings[0].text, HasSubstr("quality"));
}

TEST(WidePublicLayout, TakesRainAndWindInTheUnitsThatGoWithTheTemperatures) {
    auto how = reading();
    how.temperature_unit = "F";
    const std::string text = "STATION,DATE,PRCP,TMAX,TMIN,AWND\nT1,2024-05-01,0.5,60,40,10\n";
    EXPECT_EQ(only_day(text, how).rain, measure::Length::of("0.5", units::inch));
    EXPECT_EQ(only_day(text, how).wind, measure::Speed::of("10", units::mile_per_hour));
    how.temperature_unit = "C";
    const std::string metric = "STATION,DATE,PRCP,TMAX,TMIN,AWND\nT1,2024-05-01,5,20,10,4\n";
    EXPECT_EQ(only_day(metric, how).rain, measure::Length::of("5", units::millimetre));
    EXPECT_EQ(only_day(metric, how).wind, measure::Speed::of("4", units::metre_per_second));
}

TEST(LongPublicLayout, IsReadWithAndWithoutAHeader) {
    const std::string rows =
        "TST00000001,20240501,TMAX,128,,,W,0700\n"
        "TST00000001,20240501,SNOW,0,,,W,\n"
        "TST00000001,20240502,TMAX,-9999,,,W,\n"
        "TST00000001,20240501,TMIN,50,,,W,\n"
        "TST00000001,20240501,PRCP,25,,,W,\n"
        "TST00000001,20240502,TMIN,60,,I,W,\n";
    for (const std::string& text : {rows, "ID,DATE,ELEMENT,VALUE,M,Q,S,TIME\n" + rows,
                                    "station,date,element,value,m,q,s,time\n" + rows}) {
        const WeatherFile file = read(text);
        EXPECT_EQ(file.series.station, "TST00000001");
        ASSERT_EQ(file.series.days.size(), 2U);
        EXPECT_EQ(file.series.days[0].maximum, celsius(12.8));
        EXPECT_EQ(file.series.days[0].minimum, celsius(5));
        EXPECT_EQ(file.series.days[0].rain, measure::Length::of("2.5", units::millimetre));
        EXPECT_FALSE(file.series.days[1].minimum);
        ASSERT_EQ(file.findings.size(), 2U);  // the flag, and the day that ends in the morning
        EXPECT_THAT(file.findings[1].text, HasSubstr("0700"));
    }
}

TEST(LongPublicLayout, IsReadWithFourColumnsToo) {
    EXPECT_EQ(only_day("T1,20240501,TMAX,128\nT1,20240501,TMIN,50\n").maximum, celsius(12.8));
}

TEST(LongPublicLayout, RefusesAValueThatStandsTwiceOnItsLine) {
    EXPECT_THAT(problems_of("T1,20240501,TMAX,128\nT1,20240501,TMIN,50\nT1,20240501,TMAX,130\n"),
                ElementsAre("duplicate-value:3"));
}

std::string fixed_line(const std::string& element, const std::vector<std::string>& values) {
    std::string line = "TST00000001202404" + element;
    for (std::size_t day = 0; day < 31; ++day) {
        line += day < values.size() ? fmt::format("{:>8}", values[day]) : "-9999   ";
    }
    return line + "\n";
}

TEST(FixedWidthLayout, IsReadAMonthALine) {
    const WeatherFile file =
        read(fixed_line("TMAX", {"  128  W", "  178 SW", "-9999   "}) +
             fixed_line("TMIN", {"   50  W", "   60  W"}) + fixed_line("SNWD", {"    0  W"}));
    EXPECT_EQ(file.series.station, "TST00000001");
    ASSERT_EQ(file.series.days.size(), 2U);
    EXPECT_EQ(file.series.days[0].date, date("2024-04-01"));
    EXPECT_EQ(file.series.days[0].maximum, celsius(12.8));
    EXPECT_FALSE(file.series.days[1].maximum);
    EXPECT_EQ(file.series.days[1].minimum, celsius(6));
}

TEST(FixedWidthLayout, RefusesADayTheMonthDoesNotHaveAndABrokenLine) {
    std::vector<std::string> days(31, "  128  W");
    EXPECT_THAT(problems_of(fixed_line("TMAX", days) + "TST00000001\n"),
                ElementsAre("bad-date:1", "fixed-width:2"));
}

}  // namespace
}  // namespace ashtriage::weather
