// When each method may be applied: dates of a usual year at one place, the anchor. They are moved
// to other places in window.hpp.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::season {

// Keys into the sources of the rule set.
using SourceKeys = std::vector<std::string>;

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

// A day of the year at the anchor. `moves`: it follows the spring of a place; otherwise it is tied
// to the end of summer and stays.
struct AnchoredDay {
    std::chrono::month_day day{};
    bool moves = true;
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
};

// A window that some sources give and this program leaves out.
struct NotOffered {
    std::string title;
    std::string why;
    SourceKeys sources;
};

struct Seasons {
    std::string edition;
    Anchor anchor;
    int give_or_take_days = 0;  // either way, for every date
    SourceKeys give_or_take_sources;
    std::vector<MethodSeason> methods;
    std::vector<NotOffered> not_offered;

    // Throws InputError with the nearest name when there is no season for the method.
    const MethodSeason& method(std::string_view name) const;
};

}  // namespace ashtriage::season
