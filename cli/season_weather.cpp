#include "season_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "files.hpp"
#include "weather/past_check.hpp"
#include "weather/projection.hpp"
#include "weather/weather_check.hpp"

namespace ashtriage::cli {

namespace {

using measure::Date;
using measure::InputError;

void refuse_another_station(const std::string& name, const std::string& station,
                            const std::string& of_past) {
    if (station.empty() || of_past.empty() || station == of_past) return;
    throw InputError(fmt::format("past years of '{}' say nothing of '{}'", of_past, station),
                     "--past " + name, "give files of the same station");
}

void add_once(std::vector<weather::HeatTotals>& past, std::vector<weather::HeatTotals> seasons) {
    for (weather::HeatTotals& season : seasons) {
        const bool known = std::any_of(past.begin(), past.end(), [&](const auto& other) {
            return other.first == season.first;
        });
        if (!known) past.push_back(std::move(season));
    }
}

}  // namespace

std::string southern_words(const weather::WeatherSeries& series) {
    if (!weather::is_southern(series)) return {};
    return series.place ? fmt::format("latitude {:g}", series.place->latitude)
                        : std::string("November to March are warmer than May to September");
}

weather::WeatherSeries WeatherFiles::read() {
    return read(asked_.weather, asked_.columns, asked_.temperature_unit);
}

weather::WeatherSeries WeatherFiles::read(const std::string& name, const std::string& columns,
                                          const std::string& temperature_unit) {
    const std::string text = read_file(name, most_weather_bytes);
    weather::WeatherFile file = weather::read_weather(
        text, name, {today(), columns, temperature_unit, asked_.station, asked_.unit_checked});
    note(name, file.findings);
    if (!options_.as_of.empty()) {
        std::erase_if(file.series.days,
                      [&](const weather::WeatherDay& day) { return day.date > options_.date(); });
    }
    return asked_.fill > 0 ? weather::fill_short_gaps(file.series, asked_.fill)
                           : std::move(file.series);
}

std::vector<weather::HeatTotals> WeatherFiles::past_seasons(const weather::WeatherSeries& series,
                                                            const weather::HeatRule& rule,
                                                            const Date& first) {
    std::vector<weather::HeatTotals> past = weather::complete_seasons(series, rule, first);
    for (const std::string& name : asked_.past) {
        const weather::WeatherSeries more =
            read(name, asked_.past_columns.empty() ? asked_.columns : asked_.past_columns,
                 asked_.past_temperature_unit.empty() ? asked_.temperature_unit
                                                      : asked_.past_temperature_unit);
        refuse_another_station(name, series.station, more.station);
        note_place_of_past(name, more, series);
        add_once(past, weather::complete_seasons(more, rule, first));
    }
    return past;
}

void WeatherFiles::hold_against_past(const weather::HeatTotals& so_far,
                                     const std::vector<weather::HeatTotals>& past) const {
    if (asked_.unit_checked) return;
    const std::string doubt = weather::past_speaks_against(so_far, past);
    if (doubt.empty()) return;
    throw InputError(doubt, asked_.weather,
                     "another unit, another place? If the weather is right, say so with "
                     "--unit-checked");
}

void WeatherFiles::note_place_of_past(const std::string& name, const weather::WeatherSeries& past,
                                      const weather::WeatherSeries& series) {
    if (past.station.empty() != series.station.empty()) {
        notes_.push_back(fmt::format(
            "{} names {}: it is taken to be of the same place.", name,
            past.station.empty()
                ? fmt::format("no station, and {} '{}'", asked_.weather, series.station)
                : fmt::format("the station '{}', and {} none", past.station, asked_.weather)));
    }
}

void WeatherFiles::note(const std::string& name,
                        const std::vector<weather::WeatherFinding>& findings) {
    constexpr std::size_t most_told = 5;
    for (std::size_t i = 0; i < std::min(most_told, findings.size()); ++i) {
        const weather::WeatherFinding& finding = findings[i];
        notes_.push_back(finding.line == 0
                             ? fmt::format("{}: {}", name, finding.text)
                             : fmt::format("{}:{}: {}.", name, finding.line, finding.text));
    }
    if (findings.size() > most_told) {
        notes_.push_back(
            fmt::format("{}: {} more of the like.", name, findings.size() - most_told));
    }
}

WeatherAndPast add_weather_options(CLI::App& command, WeatherOptions& asked) {
    CLI::Option* weather = command.add_option(
        "--weather", asked.weather,
        "A file of daily minima and maxima: CSV with columns such as date,tmin_f,tmax_f, or a "
        "public station file");
    // One file each time, lest it take the method that stands after it for another.
    CLI::Option* past =
        command.add_option("--past", asked.past, "A file of past years; may be said again")
            ->allow_extra_args(false);
    command.add_option("--fill", asked.fill, "Interpolate gaps of up to so many days")
        ->check(CLI::Range(1, 30));
    command.add_option("--station", asked.station,
                       "Of several stations the one to use; or a name for a file without one");
    command.add_option("--columns", asked.columns,
                       "What foreign columns hold: \"date=DAY, tmin=LOW:F, tmax=HIGH:F\"");
    command.add_option("--temperature-unit", asked.temperature_unit,
                       "Of a public station file with TMIN and TMAX: \"tenths C\", C or F");
    command.add_option("--past-columns", asked.past_columns,
                       "The same of the files of past years, where theirs are others");
    command.add_option("--past-temperature-unit", asked.past_temperature_unit,
                       "The same of the files of past years, where theirs is another");
    command.add_flag("--unit-checked", asked.unit_checked,
                     "The temperatures are in their unit, odd as they look");
    return {weather, past};
}

}  // namespace ashtriage::cli
