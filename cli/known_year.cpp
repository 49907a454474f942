#include "known_year.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <optional>
#include <utility>

#include "measure/parse.hpp"
#include "present/season_report.hpp"
#include "present/text_layout.hpp"
#include "season/seen_check.hpp"
#include "season/station_place.hpp"

namespace ashtriage::cli {

namespace {

using measure::Date;

constexpr const char* locust_cue = "black_locust_full_bloom";

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

// How old the weather may be before that is said: by more days than dates by degree days are off at
// the least.
constexpr int fresh_days = 7;

void note_age(const weather::WeatherSeries& series, const Date& as_of,
              std::vector<std::string>& notes) {
    const auto last = std::ranges::find_if(series.days.rbegin(), series.days.rend(),
                                           &weather::WeatherDay::has_temperatures);
    if (last == series.days.rend()) return;
    const int age = measure::days_between(last->date, as_of);
    if (age <= fresh_days) return;
    notes.push_back(
        fmt::format("The weather ends on {}, {} days before {}: what came since is not known, and "
                    "dates after it are projected or by the calendar, though they have passed.",
                    measure::long_text(last->date), age, measure::long_text(as_of)));
}

void refuse_what_cannot_be(const season::Seasons& seasons,
                           const std::vector<season::Location>& places,
                           const season::KnownYear& year) {
    const auto doubts = season::doubts_of_seen(seasons, places, year);
    if (doubts.empty()) return;
    const season::SeenDoubt& doubt = doubts.front();
    throw measure::InputError(doubt.why, doubt.of == locust_cue ? "--locust-bloom" : "--leaf-out",
                              "Look at the month again. If it was seen on that day, say so with "
                              "--seen-checked.");
}

// Where the sites of the book are, as far as there is a book and it knows. Those for which the
// dates do not hold are refused when dates are asked for them.
std::vector<std::pair<std::string, season::Location>> places_of_sites(const Options& options) {
    std::vector<std::pair<std::string, season::Location>> places;
    std::error_code error;
    if (!std::filesystem::exists(options.book_path(), error)) return places;
    for (const auto& site : book::Book::open(options.book_path(), book::Mode::read_only).sites()) {
        if (!site.position || site.position->latitude < 0.0 || site.position->longitude > 0.0) {
            continue;
        }
        places.emplace_back(site.name,
                            season::Location{site.position->latitude, site.position->longitude,
                                             site.position->elevation});
    }
    return places;
}

// One after the other would drown the rest, so the number of them and the first one stand for all.
void note_far_sites(const std::vector<std::pair<std::string, season::Location>>& sites,
                    const season::KnownYear& known, std::vector<std::string>& notes) {
    if (!known.heat) return;
    int far = 0;
    std::string first;
    for (const auto& [site, place] : sites) {
        const std::string caution = season::caution_about_station(*known.heat, place);
        if (caution.empty() || far++ > 0) continue;
        first = fmt::format("{}: {}", site, caution);
    }
    if (far == 0) return;
    notes.push_back(far == 1 ? first
                             : fmt::format("{} sites are far from the station. {}", far, first));
}

void add_weather(const Options& options, const WeatherOptions& asked,
                 const season::Calendar& calendar, season::KnownYear& year,
                 std::vector<std::string>& notes) {
    if (asked.weather.empty()) {
        if (asked.past.empty()) return;
        throw measure::InputError("--past needs the weather of this year beside it", "--past",
                                  "Give it with --weather; it may end before this year begins.");
    }
    WeatherFiles files(options, asked);
    const weather::WeatherSeries series = files.read();
    if (const std::string southern = southern_words(series); !southern.empty()) {
        throw measure::InputError(
            fmt::format("the weather is that of the southern half of the earth ({}), where these "
                        "windows do not hold",
                        southern),
            asked.weather,
            "They are for North America. \"season heat\" adds up degree days anywhere.");
    }
    weather::HeatRule rule;
    rule.base = calendar.base;
    rule.start = calendar.start;
    const Date first = weather::season_start(rule.start, options.date());
    year.heat = weather::add_up(series, rule, first);
    year.past = files.past_seasons(series, rule, first);
    note_age(series, options.date(), notes);
    files.hold_against_past(*year.heat, year.past);
    notes.insert(notes.end(), files.notes().begin(), files.notes().end());
}

}  // namespace

void add_known_year_options(CLI::App& command, KnownYearOptions& asked) {
    add_weather_options(command, asked.weather);
    command.add_option("--leaf-out", asked.leaf_out, "The day the ash leaves were fully out")
        ->type_name("YYYY-MM-DD");
    command.add_flag("--seen-checked", asked.seen_checked,
                     "It was seen on that day, odd as it looks");
    command
        .add_option("--shore", asked.shore,
                    "yes or no: a large lake or the ocean holds spring back at the places")
        ->check(CLI::IsMember({"yes", "no"}));
    command
        .add_option("--locust-bloom", asked.locust_bloom, "The day black locust was in full bloom")
        ->type_name("YYYY-MM-DD");
}

season::KnownYear known_year(const Options& options, const KnownYearOptions& asked,
                             const season::Seasons& seasons,
                             const std::vector<season::Location>& places,
                             std::vector<std::string>& notes) {
    season::KnownYear year;
    year.leaf_out = seen_on("--leaf-out", asked.leaf_out, options.date());
    if (const auto bloom = seen_on("--locust-bloom", asked.locust_bloom, options.date())) {
        year.cues.push_back({locust_cue, *bloom});
    }
    if (!asked.shore.empty()) year.by_shore = asked.shore == "yes";
    add_weather(options, asked.weather, seasons.calendar, year, notes);
    season::check(seasons.calendar, year);
    if (!asked.seen_checked) refuse_what_cannot_be(seasons, places, year);
    return year;
}

std::optional<season::Location> place_beside_station(const std::optional<season::Location>& place,
                                                     const season::KnownYear& known,
                                                     std::vector<std::string>& notes) {
    if (!known.heat) return place;
    if (place) {
        if (const auto caution = season::caution_about_station(*known.heat, *place);
            !caution.empty()) {
            notes.push_back(caution);
        }
        return place;
    }
    const auto station = season::location_of_station(*known.heat);
    if (station) {
        notes.push_back(
            fmt::format("No place was given, so that of the station was taken: latitude {:g}, "
                        "longitude {:g}. Give --latitude and --longitude, or a site, for another.",
                        station->latitude, station->longitude));
    }
    return station;
}

present::Knowledge load_knowledge_of_year(const Options& options, const KnownYearOptions& asked) {
    present::Knowledge knowledge = load_knowledge(options);
    std::vector<std::string> notes;
    std::vector<season::Location> places;
    const auto sites = places_of_sites(options);
    for (const auto& [site, place] : sites) places.push_back(place);
    knowledge.year = known_year(options, asked, knowledge.seasons, places, notes);
    note_far_sites(sites, knowledge.year, notes);
    if (knowledge.year.heat || knowledge.year.leaf_out || !knowledge.year.cues.empty()) {
        notes.emplace_back(
            "What is known of this year is taken for every place alike: far from where it was "
            "measured or seen, dates are off by more.");
    }
    for (const std::string& note : notes) std::cerr << present::paragraph(note);
    return knowledge;
}

}  // namespace ashtriage::cli
