#include "weather/normals.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "packs/bad_file.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using measure::InputError;
using test::date;
using testing::HasSubstr;

std::string table(const std::string& row_of_april = "4,40,60,9") {
    std::string text = "month,tmin_f,tmax_f,spread_f\n";
    for (int month = 1; month <= 12; ++month) {
        text += month == 4 ? row_of_april + "\n" : fmt::format("{},40,60,9\n", month);
    }
    return text;
}

std::string refusal_of(const std::string& text) {
    try {
        read_normals(text, "normals.csv", "Test Field");
    } catch (const InputError& error) {
        return std::string(error.what()) + " | " + error.hint();
    }
    return {};
}

TEST(ReadNormals, TakesTwelveMonthsWithTheirSpread) {
    const Normals normals = read_normals(table("4,45,65,10.8"), "normals.csv", "Test Field");
    EXPECT_EQ(normals.station, "Test Field");
    EXPECT_NEAR(normals.months[3].spread_celsius, 6.0, 1e-9);
    EXPECT_NEAR(degrees(normals.months[3].minimum, DegreeUnit::fahrenheit), 45.0, 1e-3);
    EXPECT_NEAR(degrees(normals.months[11].maximum, DegreeUnit::fahrenheit), 60.0, 1e-3);
}

TEST(ReadNormals, RefusesNormalsWithoutASpreadAndSaysWhy) {
    EXPECT_THAT(refusal_of("month,tmin_f,tmax_f\n1,40,60\n"), HasSubstr("a week late"));
    EXPECT_THAT(refusal_of(table("4,40,60,0")), HasSubstr("impossible-spread"));
    EXPECT_THAT(refusal_of(table("4,40,60,")), HasSubstr("not-a-number"));
}

TEST(ReadNormals, RefusesMonthsThatAreMissingTwiceOrImpossible) {
    EXPECT_THAT(refusal_of(table("3,40,60,9")), HasSubstr("duplicate-month"));
    EXPECT_THAT(refusal_of(table("3,40,60,9")), HasSubstr("month 4 is missing"));
    EXPECT_THAT(refusal_of(table("13,40,60,9")), HasSubstr("bad-month"));
    EXPECT_THAT(refusal_of(table("4,61,60,9")), HasSubstr("impossible-value"));
    EXPECT_THAT(refusal_of(table("4,40,60")), HasSubstr("row-width"));
    EXPECT_THAT(refusal_of("month,tmin,tmax,spread\n1,40,60,9\n"), HasSubstr("tmin_f"));
}

// The mean of all days is 50 F, the base. By the simple average a smooth day brings nothing; moved
// by a normal spread s it brings s / sqrt(2 pi) = 0.39894 s on average, of which ten equal steps
// catch all but a few percent.
TEST(ExpectedTotals, CountTheDaysThatSwingAboveTheBase) {
    HeatRule rule;
    rule.method = HeatMethod::simple_average;
    const Normals normals = read_normals(table(), "normals.csv", "Test Field");
    const HeatTotals totals = expected_totals(normals, rule, date("2024-01-01"));
    ASSERT_EQ(totals.days.size(), 366U);
    EXPECT_TRUE(totals.complete());
    const double exact = 0.398942 * 9;
    EXPECT_LT(totals.days[100].of_day, exact);
    EXPECT_GT(totals.days[100].of_day, 0.95 * exact);
    EXPECT_NEAR(totals.days.back().total, 366 * totals.days[100].of_day, 1e-3);
}

TEST(ExpectedTotals, RunAlongStraightLinesBetweenTheMiddlesOfTheMonths) {
    HeatRule rule;
    rule.method = HeatMethod::simple_average;
    std::string text = "month,tmin_c,tmax_c,spread_c\n";
    for (int month = 1; month <= 12; ++month) {
        text += fmt::format("{},{},{},0.001\n", month, month == 6 ? 20 : 14, month == 6 ? 30 : 24);
    }
    rule.unit = DegreeUnit::celsius;
    const HeatTotals totals =
        expected_totals(read_normals(text, "normals.csv", ""), rule, date("2023-01-01"));
    const auto of = [&](const char* day) {
        return totals
            .days[static_cast<std::size_t>(measure::days_between(date("2023-01-01"), date(day)))]
            .of_day;
    };
    EXPECT_NEAR(of("2023-05-16"), 9.0, 1e-3);
    EXPECT_NEAR(of("2023-07-16"), 9.0, 1e-3);
    EXPECT_NEAR(of("2023-06-15"), 15.0 - 6 * 0.5 / 30.5, 1e-3);  // half a day before the middle
    EXPECT_NEAR(of("2023-06-16"), 15.0 - 6 * 0.5 / 30.5, 1e-3);
    EXPECT_NEAR(of("2023-05-31"), 9.0 + 6 * 15 / 30.5, 1e-3);
    EXPECT_NEAR(of("2023-12-31"), 9.0, 1e-3);
}

TEST(ExpectedTotals, AreRefusedWithoutASpread) {
    EXPECT_THROW(expected_totals(Normals{}, {}, date("2024-01-01")), InputError);
    EXPECT_THROW(expected_totals(read_normals(table(), "n.csv", ""), {}, date("2024-01-02")),
                 InputError);
}

}  // namespace
}  // namespace ashtriage::weather
