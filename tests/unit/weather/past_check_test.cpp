// Whether a season so far fits the past ones.
#include "weather/past_check.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weather/projection.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather {
namespace {

using test::alike;
using test::celsius;
using test::date;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// Past years of so many degree days a day, three of them in all.
std::vector<HeatTotals> past_of(double lowest, double middle, double highest,
                                const HeatRule& rule = {}) {
    std::vector<HeatTotals> past;
    for (const auto& [first, days, heat] :
         {std::tuple{"2021-01-01", 365, lowest}, std::tuple{"2022-01-01", 365, middle},
          std::tuple{"2023-01-01", 365, highest}}) {
        past.push_back(add_up(alike(first, days, 50 + heat, 50 + heat), rule, date(first)));
    }
    return past;
}

HeatTotals so_far(int days, double heat, const HeatRule& rule = {}) {
    return add_up(alike("2024-01-01", days, 50 + heat, 50 + heat), rule, date("2024-01-01"));
}

TEST(PastSpeaksAgainst, ATotalOfLessThanAThirdOfTheLowest) {
    const auto past = past_of(6, 8, 10);
    EXPECT_THAT(past_speaks_against(so_far(20, 1.9), past),
                HasSubstr("38.0 degree days F by 20 January 2024 fit no past season at hand: the "
                          "3 had 120.0 to 200.0 by then"));
    EXPECT_THAT(past_speaks_against(so_far(20, 2), past), IsEmpty());
}

TEST(PastSpeaksAgainst, ATotalOfMoreThanThreeTimesTheHighest) {
    const auto past = past_of(6, 8, 10);
    EXPECT_THAT(past_speaks_against(so_far(20, 30), past), IsEmpty());
    EXPECT_THAT(past_speaks_against(so_far(20, 30.1), past), Not(IsEmpty()));
}

TEST(PastSpeaksAgainst, NothingWhileLittleHasComeInAnyYear) {
    const auto past = past_of(6, 8, 10);
    EXPECT_THAT(past_speaks_against(so_far(9, 0), past), IsEmpty());  // the lowest had 54
    EXPECT_THAT(past_speaks_against(so_far(10, 0), past), Not(IsEmpty()));
    EXPECT_THAT(past_speaks_against(so_far(9, 35), past), IsEmpty());  // the highest had 90
    EXPECT_THAT(past_speaks_against(so_far(10, 35), past), Not(IsEmpty()));
}

TEST(PastSpeaksAgainst, TheSameAmountsInDegreeDaysC) {
    HeatRule rule;
    rule.base = celsius(10);
    rule.unit = DegreeUnit::celsius;
    const auto past = past_of(6, 8, 10, rule);
    EXPECT_THAT(past_speaks_against(so_far(9, 0, rule), past), IsEmpty());
    EXPECT_THAT(past_speaks_against(so_far(10, 0, rule), past), Not(IsEmpty()));
}

TEST(PastSpeaksAgainst, NothingWithoutEnoughPastSeasonsOrDays) {
    auto past = past_of(6, 8, 10);
    EXPECT_THAT(past_speaks_against(so_far(0, 0), past), IsEmpty());
    past.pop_back();
    EXPECT_THAT(past_speaks_against(so_far(20, 0), past), IsEmpty());
}

}  // namespace
}  // namespace ashtriage::weather
