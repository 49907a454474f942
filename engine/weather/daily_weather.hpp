// The weather of single days at one station, as it was measured or filled in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::weather {

// What was measured on a day; what is not there was not measured.
struct WeatherDay {
    measure::Date date{};
    std::optional<measure::Temperature> minimum;
    std::optional<measure::Temperature> maximum;
    std::optional<measure::Length> rain;  // with the water of melted snow
    std::optional<measure::Speed> wind;   // mean of the day
    bool filled = false;                  // the temperatures were interpolated, not measured

    bool has_temperatures() const { return minimum && maximum; }
};

// Decimal degrees, north and east positive.
struct StationPlace {
    double latitude = 0.0;
    double longitude = 0.0;
    std::optional<measure::Length> elevation;
};

struct WeatherSeries {
    std::string station;  // as the file or the user names it; may be empty
    std::optional<StationPlace> place;
    std::vector<WeatherDay> days;  // by date, no date twice; dates may be missing

    // The day of that date, or null.
    const WeatherDay* find(const measure::Date& date) const;
};

// Days that follow each other and lack a temperature.
struct Gap {
    measure::Date first{};
    measure::Date last{};

    int days() const { return measure::days_between(first, last) + 1; }
};

// The gaps between the first and the last day of the series, in order. What is missing before the
// first or after the last day is not a gap: the series did not begin yet, or goes no further.
std::vector<Gap> gaps(const WeatherSeries& series);

// The series with both temperatures of every gap of at most `most_days` days interpolated along a
// straight line between the days before and after it, and those days marked. Longer gaps stay.
// Throws InputError when `most_days` is not 1 or more.
WeatherSeries fill_short_gaps(const WeatherSeries& series, int most_days);

// A month in which so many days or more were not measured is not to be used, filled or not (the
// habit of climate centres).
inline constexpr int too_many_missing_in_month = 5;

// How many days from `first` to `last`, both included, have no measured temperatures.
int days_not_measured(const WeatherSeries& series, const measure::Date& first,
                      const measure::Date& last);

}  // namespace ashtriage::weather
