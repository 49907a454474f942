#include "measure/date.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <string_view>

#include "refusal.hpp"

namespace ashtriage::measure {
namespace {

using ::testing::HasSubstr;

Date day(int year, unsigned month, unsigned day_of_month) {
    return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day_of_month};
}

TEST(ParseDate, ReadsYearMonthDay) {
    EXPECT_EQ(parse_date("2026-05-18"), day(2026, 5, 18));
    EXPECT_EQ(parse_date("2026-01-01"), day(2026, 1, 1));
    EXPECT_EQ(parse_date("9999-12-31"), day(9999, 12, 31));
}

// Gregorian calendar: every fourth year, but not the centuries that 400 does not divide.
TEST(ParseDate, KnowsLeapYears) {
    EXPECT_EQ(parse_date("2024-02-29"), day(2024, 2, 29));
    EXPECT_EQ(parse_date("2000-02-29"), day(2000, 2, 29));
    EXPECT_THROW(parse_date("2023-02-29"), InputError);
    EXPECT_THROW(parse_date("1900-02-29"), InputError);
    EXPECT_THROW(parse_date("2100-02-29"), InputError);
}

TEST(ParseDate, SaysHowManyDaysTheMonthHas) {
    const auto february = refusal_of([] { parse_date("2026-02-30"); });
    ASSERT_TRUE(february);
    EXPECT_THAT(february->what, HasSubstr("'2026-02-30'"));
    EXPECT_THAT(february->what, HasSubstr("February 2026 has 28 days"));
    EXPECT_THAT(february->hint, HasSubstr("2026-05-18"));
    const auto leap = refusal_of([] { parse_date("2024-02-30"); });
    ASSERT_TRUE(leap);
    EXPECT_THAT(leap->what, HasSubstr("February 2024 has 29 days"));
    const auto april = refusal_of([] { parse_date("2026-04-31"); });
    ASSERT_TRUE(april);
    EXPECT_THAT(april->what, HasSubstr("April 2026 has 30 days"));
}

TEST(ParseDate, RefusesImpossibleMonthsAndDays) {
    EXPECT_THROW(parse_date("2026-00-10"), InputError);
    EXPECT_THROW(parse_date("2026-13-10"), InputError);
    EXPECT_THROW(parse_date("2026-05-00"), InputError);
    EXPECT_THROW(parse_date("2026-05-32"), InputError);
    EXPECT_THROW(parse_date("0226-05-18"), InputError);
    EXPECT_THROW(parse_date("1582-12-31"), InputError);
    EXPECT_EQ(parse_date("1583-01-01"), day(1583, 1, 1));
}

class NotADate : public testing::TestWithParam<std::string_view> {};

TEST_P(NotADate, IsRefused) {
    EXPECT_THROW(parse_date(GetParam()), InputError);
}

constexpr std::array not_dates = std::to_array<std::string_view>(
    {"", "2026", "2026-05", "2026-5-18", "26-05-18", "18-05-2026", "05/18/2026", "2026/05/18",
     "20260518", "2026-05-18T10:00", " 2026-05-18", "2026-05-18 ", "2026-W20-1", "2026-138",
     "18 May 2026", "-026-05-18", "2026-+5-18", "2026-05-1x", "today"});
INSTANTIATE_TEST_SUITE_P(Spellings, NotADate, testing::ValuesIn(not_dates));

TEST(DateText, IsReadBackAsTheSameDayForEveryDayOfACentury) {
    for (Date date = day(1999, 1, 1); date < day(2101, 1, 1); date = add_days(date, 1)) {
        ASSERT_EQ(parse_date(text(date)), date) << text(date);
    }
}

TEST(DateText, IsWrittenOutForPeople) {
    EXPECT_EQ(text(day(2026, 5, 8)), "2026-05-08");
    EXPECT_EQ(long_text(day(2026, 5, 18)), "18 May 2026");
    EXPECT_EQ(long_text(day(2026, 12, 1)), "1 December 2026");
}

TEST(AddDays, CrossesMonthsAndYears) {
    EXPECT_EQ(add_days(day(2024, 2, 28), 1), day(2024, 2, 29));
    EXPECT_EQ(add_days(day(2023, 2, 28), 1), day(2023, 3, 1));
    EXPECT_EQ(add_days(day(2025, 12, 31), 1), day(2026, 1, 1));
    EXPECT_EQ(add_days(day(2026, 1, 1), -1), day(2025, 12, 31));
    EXPECT_EQ(add_days(day(2026, 5, 18), 0), day(2026, 5, 18));
}

TEST(AddDays, RefusesToLeaveTheCalendar) {
    EXPECT_THROW(add_days(day(9999, 12, 31), 1), InputError);
    EXPECT_THROW(add_days(day(1583, 1, 1), -1), InputError);
    EXPECT_THROW(add_days(day(2026, 1, 1), 2'147'483'647), InputError);
    EXPECT_THROW(add_days(day(2026, 1, 1), -2'147'483'647 - 1), InputError);
}

TEST(AddYears, NeedsToBeToldWhatBecomesOfTheLeapDay) {
    EXPECT_EQ(add_years(day(2026, 5, 18), 2, LeapDay::march_1), day(2028, 5, 18));
    EXPECT_EQ(add_years(day(2024, 2, 29), 3, LeapDay::february_28), day(2027, 2, 28));
    EXPECT_EQ(add_years(day(2024, 2, 29), 3, LeapDay::march_1), day(2027, 3, 1));
    EXPECT_EQ(add_years(day(2024, 2, 29), 4, LeapDay::march_1), day(2028, 2, 29));
    EXPECT_EQ(add_years(day(2024, 2, 29), -1, LeapDay::february_28), day(2023, 2, 28));
    EXPECT_THROW(add_years(day(9999, 1, 1), 1, LeapDay::march_1), InputError);
    EXPECT_THROW(add_years(day(2026, 1, 1), 2'147'483'647, LeapDay::march_1), InputError);
}

TEST(DaysBetween, CountsFromTheFirstToTheSecond) {
    EXPECT_EQ(days_between(day(2026, 5, 18), day(2026, 5, 18)), 0);
    EXPECT_EQ(days_between(day(2026, 5, 18), day(2026, 5, 19)), 1);
    EXPECT_EQ(days_between(day(2026, 5, 19), day(2026, 5, 18)), -1);
    EXPECT_EQ(days_between(day(2024, 1, 1), day(2025, 1, 1)), 366);
    EXPECT_EQ(days_between(day(1900, 1, 1), day(1901, 1, 1)), 365);
    // 400 Gregorian years are 146,097 days.
    EXPECT_EQ(days_between(day(1600, 3, 1), day(2000, 3, 1)), 146'097);
}

TEST(DayOfYear, StartsAtOne) {
    EXPECT_EQ(day_of_year(day(2026, 1, 1)), 1);
    EXPECT_EQ(day_of_year(day(2026, 3, 1)), 60);
    EXPECT_EQ(day_of_year(day(2024, 3, 1)), 61);
    EXPECT_EQ(day_of_year(day(2026, 12, 31)), 365);
    EXPECT_EQ(day_of_year(day(2024, 12, 31)), 366);
}

}  // namespace
}  // namespace ashtriage::measure
