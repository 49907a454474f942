// Degree days of a year against the figures of the calendar, beside past years: for the terminal
// and, as SVG, for a page.
#pragma once

#include <string>

#include "present/season_report.hpp"

namespace ashtriage::present {

// At most 80 columns wide. Nothing without weather.
std::string season_chart_text(const SeasonReport& report);
// An svg element with everything in it. Nothing without weather.
std::string season_chart_svg(const SeasonReport& report);

}  // namespace ashtriage::present
