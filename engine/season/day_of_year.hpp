// Days that every year has, as rule files write them: "15 May".
#pragma once

#include <chrono>
#include <string_view>

#include "measure/date.hpp"

namespace ashtriage::season {

// Reads "15 May". Throws InputError for anything else, 29 February too, which not every year has.
std::chrono::month_day parse_day_of_year(std::string_view text);

// The day in a year that is not a leap year.
measure::Date in_common_year(std::chrono::month_day day);

}  // namespace ashtriage::season
