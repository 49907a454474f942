#include "season/station_place.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "measure/units.hpp"
#include "packs/words.hpp"

namespace ashtriage::season {

namespace units = measure::units;

namespace {

// "5.0 degrees of latitude south"; nothing for less than can be said with one place.
void add_degrees(std::vector<std::string>& parts, double difference, const char* what,
                 const char* more, const char* less) {
    constexpr double smallest = 0.05;
    if (std::abs(difference) < smallest) return;
    parts.push_back(fmt::format("{:.1f} degrees of {} {}", std::abs(difference), what,
                                difference > 0.0 ? more : less));
}

std::string days_words(double days) {
    const auto whole = std::lround(days);
    if (whole == 0) return "on about the same day at the trees as at the station";
    return fmt::format("about {} day{} {} at the trees than at the station", std::abs(whole),
                       std::abs(whole) == 1 ? "" : "s", whole > 0 ? "later" : "earlier");
}

}  // namespace

std::optional<Location> location_of_station(const weather::HeatTotals& heat) {
    if (!heat.place) return std::nullopt;
    return Location{heat.place->latitude, heat.place->longitude, heat.place->elevation};
}

std::string caution_about_station(const weather::HeatTotals& heat, const Location& place) {
    const auto station = location_of_station(heat);
    if (!station) return {};
    const double north = station->latitude - place.latitude;
    const double east = station->longitude - place.longitude;
    const double feet_up =
        station->elevation && place.elevation
            ? station->elevation->in(units::foot)-place.elevation->in(units::foot)
            : 0.0;
    if (std::abs(north) <= near_degrees && std::abs(east) <= near_degrees &&
        std::abs(feet_up) <= near_feet) {
        return {};
    }
    std::vector<std::string> parts;
    add_degrees(parts, north, "latitude", "north", "south");
    add_degrees(parts, east, "longitude", "east", "west");
    if (std::abs(feet_up) >= 1.0) {
        parts.push_back(
            fmt::format("{:.0f} feet {}", std::abs(feet_up), feet_up > 0.0 ? "higher" : "lower"));
    }
    const Anchor there{{},
                       station->latitude,
                       station->longitude,
                       station->elevation.value_or(place.elevation.value_or(measure::Length{})),
                       {}};
    Location here = place;
    if (!station->elevation) here.elevation.reset();
    return fmt::format(
        "The weather was measured far from the trees: {} lies {} of them. By Hopkins' law spring "
        "comes {}; the dates by degree days are the station's and were not moved. Take weather of "
        "the place itself.",
        heat.station.empty() ? std::string("the station") : "the station " + heat.station,
        packs::joined(parts, "and"), days_words(hopkins_days(there, here)));
}

}  // namespace ashtriage::season
