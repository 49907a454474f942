// The window of each method as text, CSV or JSON.
#pragma once

#include <string>

#include "present/season_report.hpp"

namespace ashtriage::present {

// With a chart of the degree days when there is weather.
std::string season_text(const SeasonReport& report);
std::string season_csv(const SeasonReport& report);
std::string season_json(const SeasonReport& report);

}  // namespace ashtriage::present
