// What a person recorded: whose trees, where, what was measured and seen, by whom and when.
//
// Plain values as entered. What was seen is never overwritten: a correction is a new walk-around
// that supersedes an old one.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::observe {

// Identities in a book. 0: not stored yet.
using ClientId = std::int64_t;
using SiteId = std::int64_t;
using TreeId = std::int64_t;
using WalkAroundId = std::int64_t;

struct Client {
    ClientId id = 0;
    std::string name;
    std::string address;
    std::string telephone;
    std::string email;

    friend bool operator==(const Client&, const Client&) = default;
};

// Latitude and longitude in decimal degrees, WGS 84, west negative; elevation above sea level.
struct Position {
    double latitude = 0.0;
    double longitude = 0.0;
    std::optional<measure::Length> elevation;

    friend bool operator==(const Position&, const Position&) = default;
};

struct Site {
    SiteId id = 0;
    ClientId client = 0;
    std::string name;  // unique in a book
    std::string address;
    std::optional<measure::Area> area;
    std::string soil;  // a level of the fact `soil`, or empty
    std::optional<measure::Length> distance_to_water;
    std::optional<measure::Length> infestation_distance;  // to the nearest confirmed infestation
    std::optional<bool> in_quarantined_county;
    std::optional<Position> position;

    friend bool operator==(const Site&, const Site&) = default;
};

struct Tree {
    TreeId id = 0;
    SiteId site = 0;
    std::string label;  // unique on its site: what is written on the tag or map
    std::string place;  // where on the site, in words
    std::optional<Position> position;

    friend bool operator==(const Tree&, const Tree&) = default;
};

// A stem as it was measured: a girth is kept as a girth and never taken for a diameter.
enum class StemMeasure { diameter, girth };

struct Stem {
    StemMeasure measured = StemMeasure::diameter;
    measure::Length length;

    friend bool operator==(const Stem&, const Stem&) = default;
};

// One fact as entered: its name in the rule set and the value as text, e.g. "20-30 %", "light",
// "could not see".
struct Finding {
    std::string fact;
    std::string value;

    friend bool operator==(const Finding&, const Finding&) = default;
};

struct WalkAround {
    WalkAroundId id = 0;
    TreeId tree = 0;
    measure::Date date{};
    std::string observer;
    std::vector<Stem> stems;
    std::vector<Finding> findings;
    std::string notes;
    std::optional<WalkAroundId> supersedes;  // the walk-around that this one corrects

    friend bool operator==(const WalkAround&, const WalkAround&) = default;
};

}  // namespace ashtriage::observe
