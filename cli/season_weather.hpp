// Files of daily weather named on the command line, for the commands below season.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "command.hpp"
#include "weather/degree_days.hpp"
#include "weather/read_weather.hpp"

namespace ashtriage::cli {

// Daily files of one station, a century of them included, are far smaller.
inline constexpr std::size_t most_weather_bytes = std::size_t{64} << 20U;

struct WeatherOptions {
    std::string weather;
    std::vector<std::string> past;
    std::string columns;
    std::string temperature_unit;
    std::string past_columns;           // empty: as those of the weather
    std::string past_temperature_unit;  // likewise
    std::string station;
    bool unit_checked = false;
    int fill = 0;
};

struct WeatherAndPast {
    CLI::Option* weather;
    CLI::Option* past;
};

WeatherAndPast add_weather_options(CLI::App& command, WeatherOptions& asked);

// "latitude -37.8" or how the months tell it, when the weather is that of the southern half of the
// earth; empty when it is not.
std::string southern_words(const weather::WeatherSeries& series);

// What is said about the files, and the weather up to the date to answer for.
class WeatherFiles {
 public:
    WeatherFiles(const Options& options, const WeatherOptions& asked)
        : options_(options), asked_(asked) {}

    // This year's.
    weather::WeatherSeries read();

    // The complete seasons before `first`, of the series and of the files of past years, each once.
    // Throws measure::InputError for files of another station.
    std::vector<weather::HeatTotals> past_seasons(const weather::WeatherSeries& series,
                                                  const weather::HeatRule& rule,
                                                  const measure::Date& first);

    // Throws measure::InputError when the season so far is far outside the past ones, unless its
    // unit was checked.
    void hold_against_past(const weather::HeatTotals& so_far,
                           const std::vector<weather::HeatTotals>& past) const;

    const std::vector<std::string>& notes() const { return notes_; }

 private:
    weather::WeatherSeries read(const std::string& name, const std::string& columns,
                                const std::string& temperature_unit);
    void note_place_of_past(const std::string& name, const weather::WeatherSeries& past,
                            const weather::WeatherSeries& series);
    void note(const std::string& name, const std::vector<weather::WeatherFinding>& findings);

    const Options& options_;
    const WeatherOptions& asked_;
    std::vector<std::string> notes_;
};

}  // namespace ashtriage::cli
