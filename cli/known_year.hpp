// What the command line says of the year where the trees stand: its weather, and what was seen. For
// every command that gives dates.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "knowledge.hpp"
#include "season/hopkins.hpp"
#include "season_weather.hpp"

namespace ashtriage::cli {

struct KnownYearOptions {
    WeatherOptions weather;
    std::string leaf_out;
    std::string locust_bloom;
    bool seen_checked = false;
    std::string shore;  // yes, no, or empty where it was not said
};

void add_known_year_options(CLI::App& command, KnownYearOptions& asked);

// `places` are those where what was seen may have been; none: not known. `notes` takes what is to
// be said of the files. Throws measure::InputError for weather or dates that cannot be.
season::KnownYear known_year(const Options& options, const KnownYearOptions& asked,
                             const season::Seasons& seasons,
                             const std::vector<season::Location>& places,
                             std::vector<std::string>& notes);

// The place, or where none is known that of the station with the weather; says so in `notes`, or
// how far the station is from the place.
std::optional<season::Location> place_beside_station(const std::optional<season::Location>& place,
                                                     const season::KnownYear& known,
                                                     std::vector<std::string>& notes);

// The knowledge with what is known of the year in it. Says on standard error what there is to note
// of the files, and that one year is taken for all places.
present::Knowledge load_knowledge_of_year(const Options& options, const KnownYearOptions& asked);

}  // namespace ashtriage::cli
