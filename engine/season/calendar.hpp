// When the borer and the plants around it are where in their year, in degree days: what has been
// published, with its spread.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"

namespace ashtriage::season {

// Keys into the sources of the rule set.
using SourceKeys = std::vector<std::string>;

// One figure as it was published, in degree days; from and to are the same for a single one.
struct PublishedFigure {
    double from = 0.0;
    double to = 0.0;
    std::string says;
    SourceKeys sources;
};

enum class EventOf { borer, plant };

struct CalendarEvent {
    std::string name;
    std::string title;
    EventOf of = EventOf::borer;
    double from = 0.0;  // degree days; a band, since the published figures differ
    double to = 0.0;
    bool cue = false;  // a person can see it, and its date may be given
    std::string note;  // may be empty
    SourceKeys sources;
    std::vector<PublishedFigure> figures;
};

// What is said of a region, in words; nothing is computed from it.
struct RegionDates {
    std::string region;
    std::string says;
    SourceKeys sources;
};

struct Calendar {
    // How the degree days of every figure are reckoned.
    measure::Temperature base;
    std::chrono::month_day start{};
    std::string how;  // what to know of the way they were reckoned
    SourceKeys sources;
    int give_or_take_days = 0;  // how far a date by degree days has been off, either way
    SourceKeys give_or_take_sources;
    std::string leaf_out;  // why it is asked and not reckoned
    SourceKeys leaf_out_sources;
    std::vector<CalendarEvent> events;
    std::vector<RegionDates> regions;

    // Throws InputError with the nearest name for one that is not there.
    const CalendarEvent& event(std::string_view name) const;
};

}  // namespace ashtriage::season
