// How a season that is not over may go on: as past ones at the same place did from the same day of
// the year.
#pragma once

#include <optional>
#include <vector>

#include "weather/degree_days.hpp"

namespace ashtriage::weather {

inline constexpr std::size_t fewest_past_seasons = 3;

// Every season of the series that ends before `before` and is complete, the oldest first.
std::vector<HeatTotals> complete_seasons(const WeatherSeries& series, const HeatRule& rule,
                                         const measure::Date& before);

// When a total may be reached. The dates lie in the season that is projected.
struct DateProjection {
    std::size_t seasons = 0;     // past seasons it rests on
    std::size_t reached_in = 0;  // of these, how many would bring it about before the season ends
    std::optional<measure::Date> mean;  // by the mean of what remained to be added in past seasons
    std::optional<measure::Date> earliest;  // by the warmest of them
    std::optional<measure::Date> latest;  // by the coldest; nothing when that one never gets there
    std::optional<double> standard_deviation_days;  // of the dates; nothing unless all get there
};

// What the total may be on a later day of the season.
struct TotalProjection {
    std::size_t seasons = 0;
    double lowest = 0.0;
    double mean = 0.0;
    double highest = 0.0;
    double standard_deviation = 0.0;
};

// `so_far` ends where the weather that is known ends, and `past` are complete seasons by the same
// rule. The mean is added day by day: the first day on which what is known plus the mean of what
// remained in past years reaches the total. Both throw InputError for fewer than
// fewest_past_seasons past seasons, for a season that stopped before a gap, and for what needs no
// projection or lies beyond the season.
DateProjection project_date(const HeatTotals& so_far, double total,
                            const std::vector<HeatTotals>& past);
TotalProjection project_total(const HeatTotals& so_far, const measure::Date& date,
                              const std::vector<HeatTotals>& past);

}  // namespace ashtriage::weather
