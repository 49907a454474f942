// What the command line says of a year: where it is, its weather, and what was seen.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "knowledge.hpp"
#include "known_year.hpp"
#include "present/season_report.hpp"

namespace ashtriage::cli {

struct YearOptions {
    std::string site;
    std::string latitude;
    std::string longitude;
    std::string elevation;
    KnownYearOptions year;
    std::string page;
};

void add_year_options(CLI::App& command, YearOptions& asked);

// The place given on the command line, else that of the named site or of the only one.
std::optional<season::Location> location_of(const Options& options, const YearOptions& asked);

// The place as known_year takes it.
std::vector<season::Location> places_of(const std::optional<season::Location>& location);

// The report with all but the windows in it. Throws measure::InputError for weather or dates that
// cannot be.
present::SeasonReport report_of_year(const Options& options, const YearOptions& asked,
                                     const present::Knowledge& knowledge);

// Writes the page, or with --dry-run says that it would.
void write_season_page(const Options& options, const YearOptions& asked,
                       const present::SeasonReport& report);

}  // namespace ashtriage::cli
