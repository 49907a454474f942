// Calendar dates of the work, without clock or time zone: the day it was where the tree stands.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace ashtriage::measure {

using Date = std::chrono::year_month_day;

// Reads "2026-05-18" and nothing else (ISO 8601 calendar date, years 1583 to 9999). Throws
// InputError that says why: another order, or a day the month does not have.
Date parse_date(std::string_view text);

std::string text(const Date& date);       // "2026-05-18"
std::string long_text(const Date& date);  // "18 May 2026"

// The date so many days later, or earlier when `days` is negative. Throws InputError when that
// leaves the years parse_date accepts.
Date add_days(const Date& date, int days);

// What becomes of 29 February in a year without one.
enum class LeapDay { february_28, march_1 };
Date add_years(const Date& date, int years, LeapDay leap_day);

// Days from `from` to `to`; negative when `to` is earlier, 0 on the same day.
int days_between(const Date& from, const Date& to);

// 1 January is day 1.
int day_of_year(const Date& date);

}  // namespace ashtriage::measure
