// When each method may be applied: dates of a usual year at one place, the anchor. They are moved
// to other places in window.hpp.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "season/calendar.hpp"

namespace ashtriage::season {

// The quarters of the northern year as weather services count them: spring is March to May.
enum class TimeOfYear { spring, summer, autumn, winter };

TimeOfYear time_of_year(const measure::Date& date);
std::string_view words(TimeOfYear time);

struct Anchor {
    std::string name;
    double latitude = 0.0;   // degrees, north positive
    double longitude = 0.0;  // degrees, west negative
    measure::Length elevation;
    SourceKeys sources;
};

// So many days after something that is observed; before it when negative. `included`: that day
// still belongs to the window; otherwise the window begins the day after, or ends the day before.
struct Mark {
    int days = 0;
    bool included = true;
    SourceKeys sources;
};

// After the day on which a total of degree days is reached, reckoned as the calendar says.
struct HeatMark : Mark {
    double degree_days = 0.0;
};

// After the day on which an event of the calendar was seen.
struct CueMark : Mark {
    std::string cue;
};

// One end of a window: a day of the year at the anchor, which always belongs to the window, and
// what takes its place when more is known of the year. `moves`: the day follows the spring of a
// place; otherwise it is tied to the end of summer and stays.
struct AnchoredDay {
    std::chrono::month_day day{};
    bool moves = true;
    SourceKeys sources;
    std::optional<HeatMark> heat;
    std::optional<Mark> leaf_out;  // after the day on which the leaves were fully out
    std::optional<CueMark> cue;    // what was seen is believed before what was reckoned
};

// Stems above this diameter have their better part end earlier.
struct LargerStems {
    measure::Length over;
    HeatMark best_until;
};

// What is done a second time, so many days after the first.
struct Repeat {
    int days = 0;
    SourceKeys sources;
};

// What has to be so on the day, whatever the date.
struct Need {
    std::string text;
    SourceKeys sources;
};

struct MethodSeason {
    std::string method;  // as the rule set's table of methods names it
    std::string title;
    AnchoredDay opens;       // the first day of the window
    AnchoredDay best_until;  // the last day of its better part
    AnchoredDay closes;      // the last day; all three belong to the window
    std::vector<TimeOfYear> never_in;
    std::string why_never;
    SourceKeys sources;  // of why_never
    std::vector<Need> needs;
    std::optional<LargerStems> larger_stems;
    std::optional<Repeat> again;
};

// A window that some sources give and others do not, which is left out unless it is asked for.
struct NotOffered {
    std::string title;
    std::string why;
    SourceKeys sources;
    std::optional<MethodSeason> on_request;
};

struct Seasons {
    std::string edition;
    Anchor anchor;
    Calendar calendar;
    int give_or_take_days = 0;  // either way, for every date that is moved
    SourceKeys give_or_take_sources;
    std::vector<MethodSeason> methods;
    std::vector<NotOffered> not_offered;

    // Throws InputError with the nearest name when there is no season for the method.
    const MethodSeason& method(std::string_view name) const;
};

}  // namespace ashtriage::season
