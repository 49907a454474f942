#include "weather/read_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"
#include "weather/weather_check.hpp"
#include "weather/weather_layouts.hpp"

namespace ashtriage::weather {

using measure::Date;

namespace {

// More values beyond the world's records are not listed one by one.
constexpr int most_impossible_shown = 10;

class Assembler {
 public:
    Assembler(RawWeather raw, const std::string& file, const WeatherReading& how,
              packs::Problems& problems)
        : raw_(std::move(raw)), file_(file), how_(how), problems_(problems) {}

    WeatherFile assemble() {
        choose_station();
        check_row_dates();
        for (const DayRow& row : raw_.rows) begin_day(row.date, row.line);
        for (const Reading& reading : raw_.readings) take(reading);
        for (auto& [date, day] : days_) result_.series.days.push_back(day.day);
        if (impossible_ > most_impossible_shown) {
            problem(0, "impossible-value",
                    fmt::format("{} values lie outside anything measured on earth", impossible_),
                    "so many are a wrong unit, or a mark for days without a measurement");
        }
        check_swings();
        if (!how_.unit_checked && impossible_ == 0) check_unit(result_.series, file_, problems_);
        add_findings();
        problems_.throw_if_any();
        return std::move(result_);
    }

 private:
    struct Day {
        WeatherDay day;
        std::size_t line = 0;
        std::set<Element> given;
    };

    void problem(std::size_t line, std::string id, std::string message, std::string hint = {}) {
        problems_.add({std::move(id), file_, {line, 0}, std::move(message), std::move(hint), {}});
    }

    void finding(std::size_t line, std::string text) {
        result_.findings.push_back({line, std::move(text)});
    }

    // The stations of the file, each with the line on which it is first named.
    std::map<std::string, std::size_t> stations() const {
        std::map<std::string, std::size_t> lines;
        const auto note = [&](const std::string& station, std::size_t line) {
            if (!station.empty()) lines.emplace(station, line);
        };
        for (const DayRow& row : raw_.rows) note(row.station, row.line);
        for (const Reading& reading : raw_.readings) note(reading.station, reading.line);
        return lines;
    }

    static bool same(std::string_view a, std::string_view b) {
        return packs::normalised(a) == packs::normalised(b);
    }

    // Leaves only the rows of one station.
    void choose_station() {
        const auto lines = stations();
        std::string& chosen = result_.series.station;
        chosen = how_.station;
        result_.series.place = raw_.place;
        if (lines.empty()) return;
        std::vector<std::string> names;
        for (const auto& [name, line] : lines) names.push_back(name);
        if (chosen.empty()) {
            const auto first =
                std::min_element(lines.begin(), lines.end(),
                                 [](const auto& a, const auto& b) { return a.second < b.second; });
            chosen = first->first;
            report_second_station(lines);
        } else {
            const auto found = std::find_if(names.begin(), names.end(),
                                            [&](const auto& name) { return same(name, chosen); });
            if (found == names.end()) {
                throw measure::InputError(fmt::format("no row is of the station '{}'", chosen),
                                          file_, packs::nearest_hint(chosen, names));
            }
            chosen = *found;
        }
        const auto other = [&](const auto& each) { return each.station != chosen; };
        raw_.rows.erase(std::remove_if(raw_.rows.begin(), raw_.rows.end(), other), raw_.rows.end());
        raw_.readings.erase(std::remove_if(raw_.readings.begin(), raw_.readings.end(), other),
                            raw_.readings.end());
    }

    void report_second_station(const std::map<std::string, std::size_t>& lines) {
        for (const auto& [name, line] : lines) {
            if (name == result_.series.station) continue;
            problem(line, "two-stations",
                    fmt::format("a row is of the station '{}', and others of '{}'", name,
                                result_.series.station),
                    "degree days are those of one station: say which with --station");
            return;
        }
    }

    void check_row_dates() {
        std::map<Date, std::size_t> seen;
        std::optional<Date> latest;
        for (const DayRow& row : raw_.rows) {
            const auto [place, is_new] = seen.emplace(row.date, row.line);
            if (!is_new) {
                problem(row.line, "duplicate-day",
                        fmt::format("{} stands twice, first on line {}", measure::text(row.date),
                                    place->second),
                        "leave one row for each day");
            } else if (latest && row.date < *latest) {
                problem(row.line, "out-of-order",
                        fmt::format("{} comes after {}", measure::text(row.date),
                                    measure::text(*latest)),
                        "put the rows in the order of their dates");
            }
            latest = latest ? std::max(*latest, row.date) : row.date;
        }
    }

    Day& begin_day(const Date& date, std::size_t line) {
        const auto [place, is_new] = days_.try_emplace(date);
        if (is_new) {
            place->second.day.date = date;
            place->second.line = line;
            if (date > how_.today) {
                problem(line, "future-day",
                        fmt::format("{} is still to come; today is {}", measure::text(date),
                                    measure::text(how_.today)),
                        "leave forecasts out, or check the year");
            }
        }
        return place->second;
    }

    void take(const Reading& reading) {
        Day& day = begin_day(reading.date, reading.line);
        if (reading.flagged) {
            finding(reading.line,
                    fmt::format("a value of {} failed the station's own quality checks and was "
                                "left out",
                                measure::text(reading.date)));
            return;
        }
        if (!day.given.insert(reading.element).second) {
            if (raw_.rows.empty()) {
                problem(reading.line, "duplicate-value",
                        fmt::format("a value of {} stands twice", measure::text(reading.date)),
                        "leave one for each day and element");
            }
            return;
        }
        if (auto impossible = beyond_records(reading, file_)) {
            if (++impossible_ <= most_impossible_shown) problems_.add(std::move(*impossible));
            return;
        }
        set(day.day, reading);
    }

    static void set(WeatherDay& day, const Reading& reading) {
        const double value = reading.value / reading.unit->parts;
        switch (reading.element) {
            case Element::minimum:
                day.minimum = measure::Temperature::of(value, *reading.unit->temperature);
                break;
            case Element::maximum:
                day.maximum = measure::Temperature::of(value, *reading.unit->temperature);
                break;
            case Element::rain:
                day.rain = measure::Length::of(value, *reading.unit->length);
                break;
            case Element::wind:
                day.wind = measure::Speed::of(value, *reading.unit->speed);
                break;
            case Element::date:
            case Element::station:
            case Element::latitude:
            case Element::longitude:
            case Element::elevation:
                break;
        }
    }

    void check_swings() {
        for (const auto& [date, day] : days_) {
            if (!day.day.has_temperatures() || *day.day.minimum <= *day.day.maximum) continue;
            problem(day.line, "minimum-above-maximum",
                    fmt::format("on {} the minimum is above the maximum", measure::text(date)),
                    "were the two columns taken for each other?");
        }
    }

    void add_findings() {
        if (!raw_.day_ends.empty()) {
            finding(0, fmt::format("The station's day ends at {} hours, not at midnight: a reading "
                                   "may belong to the day before.",
                                   raw_.day_ends));
        }
        const double swing = mean_swing_celsius(result_.series);
        if (swing > 0.0 && swing < small_swing_celsius) {
            finding(0, fmt::format("From night to day it warms by only {:.1f} C ({:.1f} F) on "
                                   "average. Beside the sea that may be; otherwise look at the "
                                   "unit again.",
                                   swing, swing * 1.8));
        }
    }

    RawWeather raw_;
    const std::string& file_;
    const WeatherReading& how_;
    packs::Problems& problems_;
    WeatherFile result_;
    std::map<Date, Day> days_;
    int impossible_ = 0;
};

}  // namespace

WeatherFile read_weather(std::string_view text, const std::string& file,
                         const WeatherReading& how) {
    packs::Problems problems;
    problems.add_file(file, text);
    RawWeather raw = read_layout(text, file, how, problems);
    if (raw.rows.empty() && raw.readings.empty()) {
        problems.throw_if_any();
        throw measure::InputError("there is no day of weather in it", file,
                                  "expected a row for each day with its minimum and maximum");
    }
    return Assembler(std::move(raw), file, how, problems).assemble();
}

}  // namespace ashtriage::weather
