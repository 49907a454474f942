// What the command line says of the year where the trees stand: its weather, and what was seen. For
// every command that gives dates.
#pragma once

#include <string>

#include "command.hpp"
#include "knowledge.hpp"
#include "season_weather.hpp"

namespace ashtriage::cli {

struct KnownYearOptions {
    WeatherOptions weather;
    std::string leaf_out;
    std::string locust_bloom;
};

void add_known_year_options(CLI::App& command, KnownYearOptions& asked);

// `notes` takes what is to be said of the files. Throws measure::InputError for weather or dates
// that cannot be.
season::KnownYear known_year(const Options& options, const KnownYearOptions& asked,
                             const season::Calendar& calendar, std::vector<std::string>& notes);

// The knowledge with what is known of the year in it. Says on standard error what there is to note
// of the files, and that one year is taken for all places.
present::Knowledge load_knowledge_of_year(const Options& options, const KnownYearOptions& asked);

}  // namespace ashtriage::cli
