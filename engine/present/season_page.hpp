// The season as a page that needs nothing but itself: the chart, the calendar and the windows.
#pragma once

#include <string>

#include "present/season_report.hpp"

namespace ashtriage::present {

std::string season_page(const SeasonReport& report);

}  // namespace ashtriage::present
