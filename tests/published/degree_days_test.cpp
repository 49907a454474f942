// Degree days against published worked examples, and against what must hold between the methods.
// Sources of the tables: data/README.md.
#include "weather/degree_days.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <string>

#include "measure/number.hpp"
#include "measure/units.hpp"
#include "packs/csv_rows.hpp"

namespace ashtriage::weather {
namespace {

using measure::Temperature;
namespace units = measure::units;

Temperature fahrenheit(double degrees) {
    return Temperature::of(degrees, units::fahrenheit);
}

HeatRule rule(HeatMethod method, double base, double upper = 0.0, Cutoff cutoff = Cutoff::none) {
    HeatRule rule;
    rule.method = method;
    rule.base = fahrenheit(base);
    if (cutoff != Cutoff::none) rule.upper = fahrenheit(upper);
    rule.cutoff = cutoff;
    return rule;
}

double of_day(const HeatRule& rule, double low, double high) {
    return degree_days_of(rule, fahrenheit(low), fahrenheit(high));
}

const std::map<std::string, HeatMethod> method_columns{
    {"single_triangle", HeatMethod::single_triangle},
    {"double_triangle", HeatMethod::double_triangle},
    {"single_sine", HeatMethod::single_sine},
    {"double_sine", HeatMethod::double_sine}};

// Compares every figure of a table; says how many there were.
int compare(const std::string& file, double base, double upper) {
    std::ifstream stream(std::string(ASHTRIAGE_SOURCE_DIR) + "/tests/published/data/" + file);
    packs::CsvReader reader(stream, file);
    const auto& header = reader.header();
    packs::CsvRow row;
    int compared = 0;
    while (reader.next(row)) {
        const auto field = [&](const std::string& name) {
            return measure::parse_number(row.fields.at(header.require(name)));
        };
        for (const auto& [column, method] : method_columns) {
            const auto published = field(column);
            if (!published) continue;
            std::optional<Temperature> next;
            if (const auto minimum = field("next_tmin_f")) next = fahrenheit(*minimum);
            EXPECT_NEAR(degree_days_of(rule(method, base, upper, Cutoff::horizontal),
                                       fahrenheit(field("tmin_f").value()),
                                       fahrenheit(field("tmax_f").value()), next),
                        *published, 0.01)
                << file << " line " << row.line << " " << column;
            ++compared;
        }
    }
    return compared;
}

TEST(PublishedDegreeDays, OfZalomAndOthersTable7) {
    EXPECT_EQ(compare("zalom1983-table7.csv", 55, 90), 24);
}

TEST(PublishedDegreeDays, OfDaysThatCrossTheBase) {
    EXPECT_EQ(compare("days-across-the-base.csv", 55, 93.9), 22);
}

// Nugent, Michigan State University, comparison of degree-day methods; Cornell University, examples
// of degree days base 50 F; Herms, Ohio State University, teaching slides. All read.
TEST(PublishedDegreeDays, OfSingleDaysAboveFifty) {
    EXPECT_NEAR(of_day(rule(HeatMethod::simple_average, 50), 40, 65), 2.5, 1e-9);
    EXPECT_NEAR(of_day(rule(HeatMethod::simple_average, 50), 46, 67), 6.5, 1e-9);
    EXPECT_NEAR(of_day(rule(HeatMethod::simple_average, 50), 40, 70), 5.0, 1e-9);
    EXPECT_NEAR(of_day(rule(HeatMethod::clamp_both, 50), 40, 70), 10.0, 1e-9);
    EXPECT_NEAR(of_day(rule(HeatMethod::clamp_minimum, 50), 40, 70), 10.0, 1e-9);
}

// Mistakes seen in published examples: the base taken from the sum of minimum and maximum instead
// of their mean; the mean cut to a whole degree; the arc sine of the sum instead of the mean.
TEST(PublishedMistakes, AreNotMadeHere) {
    const double day = of_day(rule(HeatMethod::simple_average, 50), 46, 67);
    EXPECT_GT(std::abs(day - (46.0 + 67.0 - 50.0)), 1.0);
    EXPECT_GT(std::abs(day - (std::floor((46.0 + 67.0) / 2.0) - 50.0)), 0.4);

    const double sine = of_day(rule(HeatMethod::single_sine, 55), 36, 67);
    const double half = (67.0 - 36.0) / 2.0;
    const double of_sum = std::asin(std::max(-1.0, (55.0 - (67.0 + 36.0)) / half));
    const double wrong =
        ((51.5 - 55.0) * (std::acos(-1.0) / 2.0 - of_sum) + half * std::cos(of_sum)) /
        std::acos(-1.0);
    EXPECT_GT(std::abs(sine - wrong), 1.0);
}

constexpr double base = 50;
constexpr double upper = 86;

template <class Check>
void for_each_day(Check&& check) {
    for (double low = 0; low <= 110; low += 2.5) {
        for (double high = low; high <= 120; high += 2.5) check(low, high);
    }
}

TEST(DegreeDayIdentity, HorizontalCutoffIsDaysAboveTheBaseLessDaysAboveTheThreshold) {
    for (const HeatMethod method : all_heat_methods()) {
        for_each_day([&](double low, double high) {
            EXPECT_NEAR(
                of_day(rule(method, base, upper, Cutoff::horizontal), low, high),
                of_day(rule(method, base), low, high) - of_day(rule(method, upper), low, high),
                1e-9)
                << name(method) << ' ' << low << ' ' << high;
        });
    }
}

// The six rows of the published tables of cases, written out, for sine and triangle.
TEST(DegreeDayIdentity, GivesThePublishedRowsWithBothThresholdsCrossed) {
    for_each_day([](double low, double high) {
        if (low >= base || high <= upper) return;
        const double range = high - low;
        EXPECT_NEAR(
            of_day(rule(HeatMethod::single_triangle, base, upper, Cutoff::horizontal), low, high),
            (std::pow(high - base, 2) - std::pow(high - upper, 2)) / (2 * range), 1e-9);
        const double pi = std::acos(-1.0);
        const double mean = (low + high) / 2;
        const double half = range / 2;
        const double theta = std::asin((base - mean) / half);
        const double phi = std::asin((upper - mean) / half);
        EXPECT_NEAR(
            of_day(rule(HeatMethod::single_sine, base, upper, Cutoff::horizontal), low, high),
            ((mean - base) * (phi - theta) + half * (std::cos(theta) - std::cos(phi)) +
             (upper - base) * (pi / 2 - phi)) /
                pi,
            1e-9);
    });
}

TEST(DegreeDayOrder, IsClampedThenSineThenTriangleThenAverageOnDaysThatCrossTheBase) {
    int strictly = 0;
    for_each_day([&](double low, double high) {
        const double clamped = of_day(rule(HeatMethod::clamp_both, base), low, high);
        const double sine = of_day(rule(HeatMethod::single_sine, base), low, high);
        const double triangle = of_day(rule(HeatMethod::single_triangle, base), low, high);
        const double average = of_day(rule(HeatMethod::simple_average, base), low, high);
        if (low < base && base < high) {
            EXPECT_GE(clamped, sine - 1e-9) << low << ' ' << high;
            EXPECT_GE(sine, triangle - 1e-9) << low << ' ' << high;
            EXPECT_GE(triangle, average - 1e-9) << low << ' ' << high;
            if (clamped > sine && sine > triangle && triangle > average) ++strictly;
        } else {
            EXPECT_NEAR(clamped, sine, 1e-9);
            EXPECT_NEAR(sine, triangle, 1e-9);
            EXPECT_NEAR(triangle, average, 1e-9);
        }
    });
    EXPECT_GT(strictly, 100);
}

}  // namespace
}  // namespace ashtriage::weather
