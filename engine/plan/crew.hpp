// The crews that treat trees: where and when they work, and how long their work takes.
//
// How long it takes is the user's own figure, from a file that the user writes (crew_file.hpp).
#pragma once

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "season/hopkins.hpp"
#include "treat/local_time.hpp"

namespace ashtriage::plan {

struct Crew {
    std::string name;
    season::Location start;  // a day begins and ends here
    treat::LocalTime starts_at;
    int minutes_per_day = 0;            // travel included
    std::array<bool, 7> weekday_off{};  // by std::chrono::weekday::c_encoding: Sunday is 0
    std::vector<measure::Date> dates_off;
    bool certified = false;     // a certified applicator is with the crew
    measure::Date first_day{};  // both belong to the time the crew works
    measure::Date last_day{};

    bool works_on(const measure::Date& day) const;
};

// What a tree of one size takes, without the way there and without setting up.
struct MinutesByDbh {
    std::optional<measure::Length> up_to;  // DBH, this one included; none: any that is larger
    int minutes = 0;
};

// What is kept free for days on which it rains: a share of the hours of every day, or of the days.
enum class ReserveOf { hours, days };

struct RainReserve {
    int percent = 0;
    ReserveOf of = ReserveOf::days;
};

struct CrewSettings {
    bool example = true;  // the figures are examples and nobody's own
    std::map<std::string, std::vector<MinutesByDbh>, std::less<>> minutes_per_tree;  // by method
    int setup_minutes_per_site = 0;
    double travel_factor = 1.0;  // the way by road, as a multiple of the straight line
    measure::Speed travel_speed;
    RainReserve rain_reserve;

    // Of a tree whose DBH is not known: of the largest. Throws InputError for a method of which the
    // file does not say how long it takes.
    int minutes_for(std::string_view method, const std::optional<measure::Length>& dbh) const;
};

struct Crews {
    CrewSettings settings;
    std::vector<Crew> crews;  // no name twice
};

// The great circle between two places on a sphere of the Earth's mean radius, 6371.0088 km
// (Moritz 2000, Geodetic Reference System 1980).
double great_circle_km(const season::Location& from, const season::Location& to);

// Whole minutes from place to place, begun ones counted in full.
int travel_minutes(const season::Location& from, const season::Location& to,
                   const CrewSettings& settings);

}  // namespace ashtriage::plan
