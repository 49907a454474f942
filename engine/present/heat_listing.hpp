// Degree days of a season as text, CSV or JSON. However it is shown, the station, the method, the
// base, the start and the unit stand beside the totals.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "weather/degree_days.hpp"
#include "weather/projection.hpp"

namespace ashtriage::present {

struct HeatReport {
    weather::HeatTotals totals;
    bool from_normals = false;        // expected, not measured: an estimate throughout
    std::vector<weather::Gap> gaps;   // of the season, those that were not filled
    std::vector<std::string> notes;   // about the files
    std::size_t past_seasons = 0;     // complete ones at hand
    std::optional<measure::Date> to;  // what was asked: the total on a day,
    std::optional<double> of;         // or the day of a total
    std::optional<weather::DateProjection> date_projection;
    std::optional<weather::TotalProjection> total_projection;
    std::optional<measure::Date> first_measured;  // the first day with temperatures, of any season
};

std::string heat_text(const HeatReport& report);
// A row a day. What was projected comes last, with "projected" for its basis.
std::string heat_csv(const HeatReport& report);
std::string heat_json(const HeatReport& report);

}  // namespace ashtriage::present
