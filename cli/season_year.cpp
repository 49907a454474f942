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

constexpr const char* locust_cue = "black_locust_full_bloom";

// Whether there is a book with one site only, which then need not be named.
bool one_site_at_hand(const Options& options) {
    std::error_code error;
    if (!std::filesystem::exists(options.book_path(), error)) return false;
    return book::Book::open(options.book_path(), book::Mode::read_only).sites().size() == 1;
}

// A day of this year that is not still to come.
std::optional<Date> seen_on(const std::string& option, const std::string& text, const Date& as_of) {
    if (text.empty()) return std::nullopt;
    const Date date = value_of(option, [&] { return measure::parse_date(text); });
    if (date > as_of) {
        throw measure::InputError(
            fmt::format("{} is later than {}, the day to answer for", text, measure::text(as_of)),
            option, "Give the day on which it was seen, or leave it out until it is.");
    }
    if (date.year() != as_of.year()) {
        throw measure::InputError(fmt::format("{} lies in another year than {}, the day to answer "
                                              "for",
                                              text, measure::text(as_of)),
                                  option, "What was seen holds for the year it was seen in.");
    }
    return date;
}

void add_weather(const Options& options, const YearOptions& asked, const season::Calendar& calendar,
                 present::SeasonReport& report) {
    if (asked.weather.weather.empty()) {
        if (asked.weather.past.empty()) return;
        throw measure::InputError("--past needs the weather of this year beside it", "--past",
                                  "Give it with --weather; it may end before this year begins.");
    }
    WeatherFiles files(options, asked.weather);
    const weather::WeatherSeries series = files.read(asked.weather.weather);
    weather::HeatRule rule;
    rule.base = calendar.base;
    rule.start = calendar.start;
    const Date first = weather::season_start(rule.start, options.date());
    report.known.heat = weather::add_up(series, rule, first);
    report.known.past = files.past_seasons(series, rule, first);
    report.notes = files.notes();
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
    if (!asked.shore.empty()) {
        if (!location) {
            throw measure::InputError("--shore says something of a place, and none is given",
                                      "--shore", "Give --latitude and --longitude, or a site.");
        }
        location->by_shore = asked.shore == "yes";
    }
    return location;
}

void add_year_options(CLI::App& command, YearOptions& asked) {
    command.add_option("--site", asked.site,
                       "Take the place from a site of the book (default: its only site)");
    command.add_option("--latitude", asked.latitude, "Decimal degrees, north positive");
    command.add_option("--longitude", asked.longitude, "Decimal degrees, west negative");
    command.add_option("--elevation", asked.elevation, "Above sea level, e.g. \"700 ft\"");
    command
        .add_option("--shore", asked.shore,
                    "yes or no: a large lake or the ocean holds spring back here")
        ->check(CLI::IsMember({"yes", "no"}));
    add_weather_options(command, asked.weather);
    command.add_option("--leaf-out", asked.leaf_out, "The day the ash leaves were fully out")
        ->type_name("YYYY-MM-DD");
    command
        .add_option("--locust-bloom", asked.locust_bloom, "The day black locust was in full bloom")
        ->type_name("YYYY-MM-DD");
    command.add_option("--page", asked.page, "Write a page with a chart as well: an HTML file");
}

present::SeasonReport report_of_year(const Options& options, const YearOptions& asked,
                                     const present::Knowledge& knowledge) {
    present::SeasonReport report{options.date(), knowledge.seasons,
                                 knowledge.judge.rules().sources};
    report.location = location_of(options, asked);
    report.known.leaf_out = seen_on("--leaf-out", asked.leaf_out, report.as_of);
    if (const auto bloom = seen_on("--locust-bloom", asked.locust_bloom, report.as_of)) {
        report.known.cues.push_back({locust_cue, *bloom});
    }
    add_weather(options, asked, knowledge.seasons.calendar, report);
    season::check(knowledge.seasons.calendar, report.known);
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
