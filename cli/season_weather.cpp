#include "season_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "files.hpp"
#include "weather/projection.hpp"

namespace ashtriage::cli {

namespace {

using measure::Date;
using measure::InputError;

void add_past(std::vector<weather::HeatTotals>& past, const std::string& station,
              const weather::WeatherSeries& series, const weather::HeatRule& rule, Date first) {
    if (!station.empty() && !series.station.empty() && station != series.station) {
        throw InputError(
            fmt::format("past years of '{}' say nothing of '{}'", series.station, station),
            "--past", "give files of the same station");
    }
    for (weather::HeatTotals& season : weather::complete_seasons(series, rule, first)) {
        const bool known = std::any_of(past.begin(), past.end(), [&](const auto& other) {
            return other.first == season.first;
        });
        if (!known) past.push_back(std::move(season));
    }
}

}  // namespace

weather::WeatherSeries WeatherFiles::read(const std::string& name) {
    const std::string text = read_file(name, most_weather_bytes);
    weather::WeatherFile file = weather::read_weather(
        text, name,
        {today(), asked_.columns, asked_.temperature_unit, asked_.station, asked_.unit_checked});
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
        add_past(past, series.station, read(name), rule, first);
    }
    return past;
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
    CLI::Option* past =
        command.add_option("--past", asked.past, "A file of past years; may be said again");
    command.add_option("--fill", asked.fill, "Interpolate gaps of up to so many days")
        ->check(CLI::Range(1, 30));
    command.add_option("--station", asked.station,
                       "Of several stations the one to use; or a name for a file without one");
    command.add_option("--columns", asked.columns,
                       "What foreign columns hold: \"date=DAY, tmin=LOW:F, tmax=HIGH:F\"");
    command.add_option("--temperature-unit", asked.temperature_unit,
                       "Of a public station file with TMIN and TMAX: \"tenths C\", C or F");
    command.add_flag("--unit-checked", asked.unit_checked,
                     "The temperatures are in their unit, odd as they look");
    return {weather, past};
}

}  // namespace ashtriage::cli
