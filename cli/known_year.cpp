#include "known_year.hpp"

#include <fmt/format.h>

#include <iostream>
#include <optional>

#include "measure/parse.hpp"
#include "present/season_report.hpp"
#include "present/text_layout.hpp"

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

void add_weather(const Options& options, const WeatherOptions& asked,
                 const season::Calendar& calendar, season::KnownYear& year,
                 std::vector<std::string>& notes) {
    if (asked.weather.empty()) {
        if (asked.past.empty()) return;
        throw measure::InputError("--past needs the weather of this year beside it", "--past",
                                  "Give it with --weather; it may end before this year begins.");
    }
    WeatherFiles files(options, asked);
    const weather::WeatherSeries series = files.read(asked.weather);
    weather::HeatRule rule;
    rule.base = calendar.base;
    rule.start = calendar.start;
    const Date first = weather::season_start(rule.start, options.date());
    year.heat = weather::add_up(series, rule, first);
    year.past = files.past_seasons(series, rule, first);
    notes.insert(notes.end(), files.notes().begin(), files.notes().end());
}

}  // namespace

void add_known_year_options(CLI::App& command, KnownYearOptions& asked) {
    add_weather_options(command, asked.weather);
    command.add_option("--leaf-out", asked.leaf_out, "The day the ash leaves were fully out")
        ->type_name("YYYY-MM-DD");
    command
        .add_option("--locust-bloom", asked.locust_bloom, "The day black locust was in full bloom")
        ->type_name("YYYY-MM-DD");
}

season::KnownYear known_year(const Options& options, const KnownYearOptions& asked,
                             const season::Calendar& calendar, std::vector<std::string>& notes) {
    season::KnownYear year;
    year.leaf_out = seen_on("--leaf-out", asked.leaf_out, options.date());
    if (const auto bloom = seen_on("--locust-bloom", asked.locust_bloom, options.date())) {
        year.cues.push_back({locust_cue, *bloom});
    }
    add_weather(options, asked.weather, calendar, year, notes);
    season::check(calendar, year);
    return year;
}

present::Knowledge load_knowledge_of_year(const Options& options, const KnownYearOptions& asked) {
    present::Knowledge knowledge = load_knowledge(options);
    std::vector<std::string> notes;
    knowledge.year = known_year(options, asked, knowledge.seasons.calendar, notes);
    if (knowledge.year.heat || knowledge.year.leaf_out || !knowledge.year.cues.empty()) {
        notes.emplace_back(
            "What is known of this year is taken for every place alike: far from where it was "
            "measured or seen, dates are off by more.");
    }
    for (const std::string& note : notes) std::cerr << present::paragraph(note);
    return knowledge;
}

}  // namespace ashtriage::cli
