#include "season/day_of_year.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "measure/input_error.hpp"
#include "measure/number.hpp"

namespace ashtriage::season {

namespace {

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

// A year without 29 February: the days of a window exist in every year.
constexpr std::chrono::year common_year{2023};

}  // namespace

measure::Date in_common_year(std::chrono::month_day day) {
    return {common_year, day.month(), day.day()};
}

std::chrono::month_day parse_day_of_year(std::string_view text) {
    const auto refuse = [&](const char* why) {
        throw measure::InputError(fmt::format("'{}' {}", text, why), {},
                                  "write the day and the month's name, such as 15 May");
    };
    const std::size_t blank = text.find(' ');
    if (blank == std::string_view::npos) refuse("is not a day and a month");
    const auto month = std::find(months.begin(), months.end(), text.substr(blank + 1));
    if (month == months.end()) refuse("does not end in the name of a month");
    const auto day = measure::parse_number(text.substr(0, blank));
    if (!day || *day < 1.0 || *day > 31.0 || *day != static_cast<int>(*day)) {
        refuse("does not begin with a day of the month");
    }
    const std::chrono::month_day found{
        std::chrono::month(static_cast<unsigned>(month - months.begin()) + 1),
        std::chrono::day(static_cast<unsigned>(*day))};
    if (!in_common_year(found).ok()) refuse("is not a day that every year has");
    return found;
}

}  // namespace ashtriage::season
