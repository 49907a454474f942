#include "measure/date.hpp"

#include <algorithm>
#include <array>

#include "measure/input_error.hpp"

namespace ashtriage::measure {
namespace {

constexpr std::array<std::string_view, 12> month_names = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

// ISO 8601 leaves years before the Gregorian calendar to agreement between the parties.
constexpr int first_year = 1583;
constexpr int last_year = 9999;

bool digits_at(std::string_view text, std::size_t from, std::size_t count) {
    const std::string_view part = text.substr(from, count);
    return std::all_of(part.begin(), part.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int number_at(std::string_view text, std::size_t from, std::size_t count) {
    int value = 0;
    for (const char c : text.substr(from, count)) value = value * 10 + (c - '0');
    return value;
}

[[noreturn]] void refuse(std::string_view text, const std::string& why) {
    throw InputError("'" + std::string(text) + "' is not a date: " + why, {},
                     "Write year-month-day, such as 2026-05-18.");
}

std::string padded(int value, std::size_t width) {
    std::string digits = std::to_string(value);
    if (digits.size() < width) digits.insert(0, width - digits.size(), '0');
    return digits;
}

int year_number(const Date& date) {
    return static_cast<int>(date.year());
}
unsigned month_number(const Date& date) {
    return static_cast<unsigned>(date.month());
}
unsigned day_number(const Date& date) {
    return static_cast<unsigned>(date.day());
}

Date within_range(const Date& date) {
    if (year_number(date) < first_year || year_number(date) > last_year) {
        throw InputError("A date falls outside the years 1583 to 9999", {},
                         "Check the number of days or years that was added.");
    }
    return date;
}

}  // namespace

Date parse_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-' || !digits_at(text, 0, 4) ||
        !digits_at(text, 5, 2) || !digits_at(text, 8, 2)) {
        refuse(text, "expected four digits for the year, two for the month, two for the day");
    }
    const int year = number_at(text, 0, 4);
    const int month = number_at(text, 5, 2);
    const int day = number_at(text, 8, 2);
    if (year < first_year) refuse(text, "years start at 1583");
    if (month < 1 || month > 12) refuse(text, "months run from 01 to 12");
    const std::chrono::year_month in_month =
        std::chrono::year{year} / std::chrono::month{static_cast<unsigned>(month)};
    const Date last = in_month / std::chrono::last;
    if (day < 1 || static_cast<unsigned>(day) > day_number(last)) {
        refuse(text, std::string(month_names[static_cast<std::size_t>(month - 1)]) + " " +
                         std::to_string(year) + " has " + std::to_string(day_number(last)) +
                         " days");
    }
    return in_month / std::chrono::day{static_cast<unsigned>(day)};
}

std::string text(const Date& date) {
    return padded(year_number(date), 4) + "-" + padded(static_cast<int>(month_number(date)), 2) +
           "-" + padded(static_cast<int>(day_number(date)), 2);
}

std::string long_text(const Date& date) {
    return std::to_string(day_number(date)) + " " +
           std::string(month_names[month_number(date) - 1]) + " " +
           std::to_string(year_number(date));
}

Date add_days(const Date& date, int days) {
    // A count this large leaves the calendar whatever the date, and would overflow on the way.
    constexpr int calendar_days = 366 * (last_year - first_year + 1);
    if (days > calendar_days || days < -calendar_days) {
        throw InputError("'" + std::to_string(days) + "' days is more than the calendar holds");
    }
    return within_range(Date{std::chrono::sys_days{date} + std::chrono::days{days}});
}

Date add_years(const Date& date, int years, LeapDay leap_day) {
    if (years > last_year || years < -last_year) {
        throw InputError("'" + std::to_string(years) + "' years is more than the calendar holds");
    }
    const Date same_day = within_range(date + std::chrono::years{years});
    if (same_day.ok()) return same_day;
    return leap_day == LeapDay::february_28
               ? same_day.year() / std::chrono::February / std::chrono::day{28}
               : same_day.year() / std::chrono::March / std::chrono::day{1};
}

int days_between(const Date& from, const Date& to) {
    return static_cast<int>((std::chrono::sys_days{to} - std::chrono::sys_days{from}).count());
}

int day_of_year(const Date& date) {
    const Date new_year = date.year() / std::chrono::January / std::chrono::day{1};
    return days_between(new_year, date) + 1;
}

}  // namespace ashtriage::measure
