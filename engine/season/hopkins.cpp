#include "season/hopkins.hpp"

#include <fmt/format.h>

#include <cmath>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::season {

namespace units = measure::units;

namespace {

constexpr double days_per_degree_north = 4.0;
constexpr double days_per_degree_east = 4.0 / 5.0;
constexpr double days_per_foot_up = 4.0 / 400.0;

// Native ash ends north of Winnipeg, and no land of North America but Greenland lies further east
// than Newfoundland. From memory.
constexpr double northernmost = 54.0;
constexpr double easternmost = -52.0;

// Written so that a value that is no number is refused too.
bool within(double value, double low, double high) {
    return value >= low && value <= high;
}

void require_place(const Location& location) {
    if (!within(location.latitude, -90.0, 90.0) || !within(location.longitude, -180.0, 180.0)) {
        throw measure::InputError(
            fmt::format("latitude {} and longitude {} are no place on earth", location.latitude,
                        location.longitude),
            {}, "latitude runs from -90 to 90 and longitude from -180 to 180 degrees");
    }
    if (location.latitude < 0.0) {
        throw measure::InputError(
            fmt::format(
                "latitude {} lies in the southern hemisphere, where these windows do not hold",
                location.latitude),
            {}, "north is positive: write 41.8, not -41.8, for a place in the north");
    }
    if (location.longitude > 0.0) {
        throw measure::InputError(
            fmt::format("longitude {} lies east of Greenwich; these windows are for North America",
                        location.longitude),
            {}, "west is negative: write -88.0, not 88.0, for a place in the west");
    }
    const auto highest = measure::Length::of(9000.0, units::metre);
    if (location.elevation && *location.elevation > highest) {
        throw measure::InputError(fmt::format("an elevation of {} is above every mountain",
                                              location.elevation->with_unit(units::foot, 0)),
                                  {},
                                  "give the height of the site above sea level, such as 700 ft");
    }
}

}  // namespace

double hopkins_days(const Anchor& anchor, const Location& location) {
    require_place(location);
    const double feet_up =
        location.elevation ? location.elevation->in(units::foot)-anchor.elevation.in(units::foot)
                           : 0.0;
    return days_per_degree_north * (location.latitude - anchor.latitude) +
           days_per_degree_east * (location.longitude - anchor.longitude) +
           days_per_foot_up * feet_up;
}

std::vector<std::string> cautions_about(const Anchor& anchor,
                                        const std::optional<Location>& location) {
    if (!location) {
        return {
            fmt::format("The position of the site is not known: these are the dates for {}. "
                        "Further north or higher up, spring is later.",
                        anchor.name)};
    }
    std::vector<std::string> cautions;
    if (!location->elevation) {
        cautions.push_back(fmt::format(
            "The elevation of the site is not known: it was taken as {} feet, that of {}. "
            "Each 400 feet more would make it 4 days later.",
            anchor.elevation.text(units::foot, 0), anchor.name));
    }
    if (std::abs(location->longitude - anchor.longitude) >= far_longitude) {
        cautions.push_back(
            fmt::format("This place is so far east or west of {} that the dates are "
                        "unreliable: ask locally when ash is in full leaf.",
                        anchor.name));
    }
    if (location->latitude > northernmost || location->longitude > easternmost) {
        cautions.emplace_back(
            "These dates are for ash and its borer in North America. So far north or east there is "
            "hardly any ash, and the dates say nothing.");
    }
    if (!location->by_shore || !*location->by_shore) {
        cautions.emplace_back(
            "Tried on one spring event, such dates were right within 3 days at five inland "
            "stations of the Midwest.");
    }
    if (!location->by_shore) {
        cautions.emplace_back(
            "Beside a large lake or the ocean, spring can be weeks later than these dates say: "
            "they "
            "were 24 days too early at the shore of Lake Superior, and 7 to 10 days too late at "
            "two "
            "cities by the sea. Say whether it is so here with --shore.");
    } else if (*location->by_shore) {
        cautions.emplace_back(
            "This place lies beside a large lake or the ocean: do not rely on these dates. Tried "
            "on one spring event, they were 24 days too early at the shore of Lake Superior and 7 "
            "to 10 days too late at two cities by the sea. Use weather of the place itself.");
    }
    return cautions;
}

}  // namespace ashtriage::season
