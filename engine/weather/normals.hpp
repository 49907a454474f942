// Degree days where there is no daily record: from the usual temperatures of each month.
//
// A formula put on smooth means counts too little heat in spring, since the days that swing above
// the base are averaged away; dates come out about a week late. So each smooth day is taken ten
// times, moved up and down by equally likely steps of the usual spread from day to day, and the
// formula is averaged over the ten. What comes out is an estimate all the same.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "measure/quantity.hpp"
#include "weather/degree_days.hpp"

namespace ashtriage::weather {

struct MonthNormal {
    measure::Temperature minimum;  // mean of the daily minima
    measure::Temperature maximum;
    double spread_celsius = 0.0;  // standard deviation of the daily mean, from day to day
};

struct Normals {
    std::string station;
    std::array<MonthNormal, 12> months;  // January first
};

// A CSV table of month (1 to 12), tmin_f, tmax_f and spread_f, or the same in C. Throws
// packs::BadFile for months that are missing, twice or impossible, measure::InputError for a table
// without its columns or their units; one without the spread is refused, and told why.
Normals read_normals(std::string_view text, const std::string& file, const std::string& station);

// How much heat a season that begins on `first` is expected to bring, day by day, from straight
// lines between the middles of the months. Throws InputError as add_up does, and for a spread that
// is not above zero.
HeatTotals expected_totals(const Normals& normals, const HeatRule& rule,
                           const measure::Date& first);

}  // namespace ashtriage::weather
