// What is known of a year at a place beside the calendar: its heat so far, that of past years, and
// what was seen.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "season/calendar.hpp"
#include "weather/degree_days.hpp"

namespace ashtriage::season {

struct CueSeen {
    std::string cue;  // the name of an event of the calendar
    measure::Date date{};
};

// All of it may be missing. What was seen holds for the year of its date and for no other.
struct KnownYear {
    std::optional<weather::HeatTotals> heat;  // of one year, as far as it is known
    std::vector<weather::HeatTotals> past;    // complete earlier seasons of the same place
    std::optional<measure::Date> leaf_out;    // the day on which ash leaves were fully out
    std::vector<CueSeen> cues;
    // Whether a large lake or the ocean holds spring back at the places asked about; nothing where
    // it was not said. A place that says it of itself goes by that.
    std::optional<bool> by_shore = std::nullopt;

    std::optional<measure::Date> leaf_out_in(int year) const;
    std::optional<measure::Date> seen_in(std::string_view cue, int year) const;
};

// Throws InputError for totals with another base, start or unit than the figures of the calendar,
// and for a cue that the calendar does not have or nobody can see.
void check(const Calendar& calendar, const KnownYear& known);

enum class HeatKnowledge {
    unknown,    // no weather, too few past seasons, or a gap
    measured,   // reached in the weather that is known
    projected,  // by the mean of what past seasons added
    never       // the year ended without it, or by the mean of past seasons it will
};

// The day on which a total of degree days is reached in a year.
struct HeatDate {
    HeatKnowledge knowledge = HeatKnowledge::unknown;
    std::optional<measure::Date> date;      // when measured or projected
    std::optional<measure::Date> earliest;  // of a projection: by the warmest past season
    std::optional<measure::Date> latest;  // by the coldest; nothing when that one never gets there
    std::size_t seasons = 0;              // past seasons of a projection
    std::string why;                      // when unknown or never; empty when there is no weather
};

// For a year after that of the weather, all of it is projected from the past seasons.
HeatDate date_of_heat(const KnownYear& known, int year, double degree_days);

}  // namespace ashtriage::season
