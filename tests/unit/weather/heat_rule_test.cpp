#include "weather/heat_rule.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using measure::InputError;
using test::date;
using test::fahrenheit;
using testing::HasSubstr;

HeatRule with_cutoff(HeatMethod method, Cutoff cutoff) {
    HeatRule rule;
    rule.method = method;
    rule.upper = fahrenheit(86);
    rule.cutoff = cutoff;
    return rule;
}

TEST(HeatRule, IsSingleSineAboveFiftyFromTheFirstOfJanuaryUnlessSaidOtherwise) {
    EXPECT_EQ(words({}), "single sine, base 50 F, from 1 January, no upper cutoff");
    EXPECT_NO_THROW(check({}));
}

TEST(HeatRule, IsSaidInWordsWithItsCutoffAndUnit) {
    HeatRule rule = with_cutoff(HeatMethod::double_triangle, Cutoff::vertical);
    rule.start = {std::chrono::March, std::chrono::day{1}};
    EXPECT_EQ(words(rule), "double triangle, base 50 F, from 1 March, vertical cutoff at 86 F");
    rule.unit = DegreeUnit::celsius;
    EXPECT_EQ(words(rule), "double triangle, base 10 C, from 1 March, vertical cutoff at 30 C");
    EXPECT_EQ(unit_words(rule.unit), "degree days C");
}

TEST(HeatRule, WantsAnUpperThresholdAndACutoffTogetherAndInOrder) {
    HeatRule rule;
    rule.upper = fahrenheit(86);
    EXPECT_THROW(check(rule), InputError);
    rule.cutoff = Cutoff::horizontal;
    EXPECT_NO_THROW(check(rule));
    rule.upper = rule.base;
    EXPECT_THROW(check(rule), InputError);
    rule.upper.reset();
    EXPECT_THROW(check(rule), InputError);
}

TEST(HeatRule, RefusesCutoffsThatAnAverageCannotKnowOf) {
    for (const HeatMethod method :
         {HeatMethod::simple_average, HeatMethod::clamp_both, HeatMethod::clamp_minimum}) {
        EXPECT_NO_THROW(check(with_cutoff(method, Cutoff::horizontal)));
        for (const Cutoff cutoff : {Cutoff::intermediate, Cutoff::vertical}) {
            try {
                check(with_cutoff(method, cutoff));
                ADD_FAILURE() << name(method) << " took a " << name(cutoff) << " cutoff";
            } catch (const InputError& error) {
                EXPECT_THAT(error.what(), HasSubstr("knows no course of the day"));
            }
        }
    }
    EXPECT_NO_THROW(check(with_cutoff(HeatMethod::single_triangle, Cutoff::vertical)));
    EXPECT_NO_THROW(check(with_cutoff(HeatMethod::double_sine, Cutoff::intermediate)));
}

TEST(HeatRule, RefusesAStartThatNotEveryYearHas) {
    HeatRule rule;
    rule.start = {std::chrono::February, std::chrono::day{29}};
    EXPECT_THROW(check(rule), InputError);
    rule.start = {std::chrono::February, std::chrono::day{28}};
    EXPECT_NO_THROW(check(rule));
}

TEST(HeatMethods, AreReadByTheNamesTheyAreGiven) {
    for (const HeatMethod method : all_heat_methods()) {
        EXPECT_EQ(parse_heat_method(name(method)), method);
    }
    EXPECT_EQ(parse_heat_method("Single Sine"), HeatMethod::single_sine);
    EXPECT_EQ(parse_cutoff("horizontal"), Cutoff::horizontal);
    try {
        parse_heat_method("singel-sine");
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.hint(), HasSubstr("single-sine"));
    }
}

TEST(Season, BeginsAtTheLatestStartThatIsNotLater) {
    using std::chrono::day;
    using std::chrono::month_day;
    const month_day new_year{std::chrono::January, day{1}};
    EXPECT_EQ(season_start(new_year, date("2024-01-01")), date("2024-01-01"));
    EXPECT_EQ(season_start(new_year, date("2024-12-31")), date("2024-01-01"));
    const month_day july{std::chrono::July, day{1}};
    EXPECT_EQ(season_start(july, date("2024-06-30")), date("2023-07-01"));
    EXPECT_EQ(season_start(july, date("2024-07-01")), date("2024-07-01"));
}

TEST(Season, LastsAYear) {
    EXPECT_EQ(season_end(date("2024-01-01")), date("2024-12-31"));
    EXPECT_EQ(season_end(date("2023-07-01")), date("2024-06-30"));
    EXPECT_EQ(season_end(date("2023-03-01")), date("2024-02-29"));
}

}  // namespace
}  // namespace ashtriage::weather
