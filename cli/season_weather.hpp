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
    std::string station;
    bool unit_checked = false;
    int fill = 0;
};

struct WeatherAndPast {
    CLI::Option* weather;
    CLI::Option* past;
};

WeatherAndPast add_weather_options(CLI::App& command, WeatherOptions& asked);

// What is said about the files, and the weather up to the date to answer for.
class WeatherFiles {
 public:
    WeatherFiles(const Options& options, const WeatherOptions& asked)
        : options_(options), asked_(asked) {}

    weather::WeatherSeries read(const std::string& name);

    // The complete seasons before `first`, of the series and of the files of past years, each once.
    std::vector<weather::HeatTotals> past_seasons(const weather::WeatherSeries& series,
                                                  const weather::HeatRule& rule,
                                                  const measure::Date& first);

    const std::vector<std::string>& notes() const { return notes_; }

 private:
    void note(const std::string& name, const std::vector<weather::WeatherFinding>& findings);

    const Options& options_;
    const WeatherOptions& asked_;
    std::vector<std::string> notes_;
};

}  // namespace ashtriage::cli
