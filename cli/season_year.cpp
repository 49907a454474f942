#include "season_year.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>

#include "files.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "present/season_page.hpp"
#include "triage/sheet_entries.hpp"

namespace ashtriage::cli {

namespace {

using measure::Date;

// Whether there is a book with one site only, which then need not be named.
bool one_site_at_hand(const Options& options) {
    std::error_code error;
    if (!std::filesystem::exists(options.book_path(), error)) return false;
    return book::Book::open(options.book_path(), book::Mode::read_only).sites().size() == 1;
}

}  // namespace

std::optional<season::Location> location_of(const Options& options, const YearOptions& asked) {
    if (asked.latitude.empty() != asked.longitude.empty()) {
        throw measure::InputError("Latitude and longitude go together",
                                  asked.latitude.empty() ? "--latitude" : "--longitude",
                                  "Give both or neither.");
    }
    std::optional<season::Location> location;
    if (!asked.latitude.empty()) {
        location = season::Location{
            value_of("--latitude", [&] { return triage::parse_degrees(asked.latitude, 90); }),
            value_of("--longitude", [&] { return triage::parse_degrees(asked.longitude, 180); }),
            std::nullopt};
        if (!asked.elevation.empty()) {
            location->elevation =
                value_of("--elevation", [&] { return measure::parse_length(asked.elevation); });
        }
    } else if (!asked.site.empty() || one_site_at_hand(options)) {
        const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
        if (const auto position = find_site(book, asked.site).position) {
            location =
                season::Location{position->latitude, position->longitude, position->elevation};
        }
    }
    if (!asked.year.shore.empty() && !location) {
        throw measure::InputError("--shore says something of a place, and none is given", "--shore",
                                  "Give --latitude and --longitude, or a site.");
    }
    return location;
}

void add_year_options(CLI::App& command, YearOptions& asked) {
    command.add_option("--site", asked.site,
                       "Take the place from a site of the book (default: its only site)");
    command.add_option("--latitude", asked.latitude, "Decimal degrees, north positive");
    command.add_option("--longitude", asked.longitude, "Decimal degrees, west negative");
    command.add_option("--elevation", asked.elevation, "Above sea level, e.g. \"700 ft\"");
    add_known_year_options(command, asked.year);
    command.add_option("--page", asked.page, "Write a page with a chart as well: an HTML file");
}

std::vector<season::Location> places_of(const std::optional<season::Location>& location) {
    return location ? std::vector{*location} : std::vector<season::Location>{};
}

present::SeasonReport report_of_year(const Options& options, const YearOptions& asked,
                                     const present::Knowledge& knowledge) {
    present::SeasonReport report{options.date(), knowledge.seasons,
                                 knowledge.judge.rules().sources};
    report.location = location_of(options, asked);
    report.known = known_year(options, asked.year, knowledge.seasons, places_of(report.location),
                              report.notes);
    report.location = place_beside_station(report.location, report.known, report.notes);
    return report;
}

void write_season_page(const Options& options, const YearOptions& asked,
                       const present::SeasonReport& report) {
    if (asked.page.empty()) return;
    if (options.dry_run) {
        std::cerr << "Would write " << asked.page << "\n";
        return;
    }
    write_file(asked.page, present::season_page(report));
    std::cerr << "Wrote " << asked.page << "\n";
}

}  // namespace ashtriage::cli
