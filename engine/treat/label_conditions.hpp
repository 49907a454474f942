// When and where a label allows its use: season, weather, soil, distances, pollinators.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "measure/quantity.hpp"
#include "treat/rate.hpp"

namespace ashtriage::treat {

enum class SoilState { dry, moist, saturated, frozen };

struct MonthDay {
    int month = 1;
    int day = 1;

    friend bool operator==(const MonthDay&, const MonthDay&) = default;
    // Not after the other, in one calendar year.
    friend bool operator<=(const MonthDay& a, const MonthDay& b) {
        return a.month < b.month || (a.month == b.month && a.day <= b.day);
    }
};

// Both ends belong to it; it may run over the end of the year.
struct LabelSeason {
    MonthDay from;
    MonthDay to;

    bool contains(const MonthDay& day) const;
};

// A distance to keep from something: open water, a well.
struct Buffer {
    std::string from_what;
    measure::Length at_least;
    SourceKeys sources;
};

// Entries that the label does not have stay empty: nothing is assumed for them.
struct Conditions {
    std::optional<LabelSeason> season;
    std::optional<measure::Speed> wind_to;
    std::optional<measure::Temperature> temperature_from;
    std::optional<measure::Temperature> temperature_to;
    std::optional<int> rain_free_hours;  // after the application
    bool dry_bark = false;
    std::set<SoilState> soil;   // allowed states; empty: the label says nothing
    bool not_in_bloom = false;  // of the tree, or of what flowers in its root zone
    SourceKeys sources;
};

std::string_view words(SoilState state);

}  // namespace ashtriage::treat
