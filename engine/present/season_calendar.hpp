// When the borer and the plants around it are where in their year, as text, CSV or JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "present/season_report.hpp"

namespace ashtriage::present {

struct EventDates {
    const season::CalendarEvent* event = nullptr;
    season::HeatDate from;  // the lower figure
    season::HeatDate to;    // the upper one
    std::optional<measure::Date> seen;
};

// Every event of the calendar in the year of the report, in the order of the rules.
std::vector<EventDates> event_dates(const SeasonReport& report);

// "450 to 550".
std::string band_words(double from, double to);
// By degree days: "22 May 2026 to 27 May 2026", "about 25 May 2026", "from 12 June 2026", or
// nothing.
std::string dates_words(const EventDates& dates);
// What stands behind it: "measured", "projected; ...", or why there is no date.
std::string knowledge_words(const EventDates& dates);

std::string season_calendar_text(const SeasonReport& report);
std::string season_calendar_csv(const SeasonReport& report);
std::string season_calendar_json(const SeasonReport& report);

}  // namespace ashtriage::present
