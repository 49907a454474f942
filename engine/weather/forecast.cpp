#include "weather/forecast.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <sstream>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/units.hpp"
#include "packs/csv_rows.hpp"
#include "packs/problem.hpp"
#include "packs/utf8.hpp"
#include "packs/words.hpp"
#include "weather/forecast_columns.hpp"
#include "weather/weather_check.hpp"

namespace ashtriage::weather {

using measure::InputError;
using std::chrono::minutes;

namespace {

constexpr minutes day_long{24 * 60};
constexpr double longest_hours = 24.0;
// More rows that are wrong in the same way are not listed one by one.
constexpr int most_shown_of_a_kind = 10;

// "2026-05-18 09:00", with a T between and with seconds of 0 too, as forecasts commonly write it.
Moment parse_moment(std::string_view text) {
    const auto refuse = [&]() -> Moment {
        throw InputError(fmt::format("'{}' is not a time", text), {},
                         "write the date, year first, and the hour on the clock: 2026-05-18 09:00");
    };
    const bool with_seconds = text.size() == 19 && text.ends_with(":00");
    if (text.size() != 16 && !with_seconds) return refuse();
    const auto digits = [&](std::size_t at) {
        const auto value = measure::parse_number(text.substr(at, 1) == "0" ? text.substr(at + 1, 1)
                                                                           : text.substr(at, 2));
        return value && *value == static_cast<int>(*value) ? static_cast<int>(*value) : -1;
    };
    const int hour = digits(11);
    const int minute = digits(14);
    if ((text[10] != 'T' && text[10] != ' ') || text[13] != ':' || hour < 0 || hour > 23 ||
        minute < 0 || minute > 59) {
        return refuse();
    }
    return moment(measure::parse_date(text.substr(0, 10)), minutes(hour * 60 + minute));
}

class ForecastReader {
 public:
    ForecastReader(std::string_view text, const std::string& file, std::string_view declared,
                   packs::Problems& problems)
        : stream_(std::string(text)),
          file_(file),
          problems_(problems),
          reader_(stream_, file),
          columns_(forecast_columns(reader_.header().names(), declared, file)) {
        for (const ForecastColumn& column : columns_) {
            places_.push_back(reader_.header().require(column.name));
        }
        daily_ = std::ranges::any_of(columns_, [](const ForecastColumn& column) {
            return column.element == ForecastElement::date;
        });
    }

    Forecast read() {
        packs::CsvRow row;
        while (reader_.next(row)) {
            if (!row.fault.empty()) {
                problem(row.line, "bad-row", row.fault);
                continue;
            }
            take(row);
        }
        refuse_if_any();
        if (periods_.empty()) {
            throw InputError("there is no row of a forecast in it", file_,
                             "expected a row for each hour or each day");
        }
        check_order();
        refuse_if_any();
        end_periods();
        refuse_if_any();
        return {std::move(periods_)};
    }

 private:
    void problem(std::size_t line, std::string id, std::string message, std::string hint = {}) {
        add({std::move(id), file_, {line, 0}, std::move(message), std::move(hint), {}});
    }

    // What is wrong with the unit or the way of writing is wrong with every row.
    void add(packs::Problem problem) {
        if (++of_a_kind_[problem.id] <= most_shown_of_a_kind) problems_.add(std::move(problem));
    }

    void refuse_if_any() {
        for (const auto& [id, count] : of_a_kind_) {
            if (count <= most_shown_of_a_kind) continue;
            problems_.add({id,
                           file_,
                           {},
                           fmt::format("{} are like this in all", count),
                           "so many are written in another way, or in another unit",
                           {}});
        }
        problems_.throw_if_any();
    }

    void take(const packs::CsvRow& row) {
        ForecastPeriod period;
        period.daily = daily_;
        period.line = row.line;
        lasts_.emplace_back();
        bool timed = false;
        // The time first: what is wrong with a value names its day.
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (is_time(columns_[i].element)) {
                timed = take_time(packs::trimmed(row.fields[places_[i]]), period);
            }
        }
        for (std::size_t i = 0; i < columns_.size() && timed; ++i) {
            const std::string_view text = packs::trimmed(row.fields[places_[i]]);
            if (!is_time(columns_[i].element) && !text.empty()) {
                take_value(columns_[i], text, period);
            }
        }
        if (period.coolest && period.warmest && *period.coolest > *period.warmest) {
            problem(row.line, "minimum-above-maximum", "the minimum is above the maximum",
                    "were the two columns taken for each other?");
        }
        periods_.push_back(period);
    }

    static bool is_time(ForecastElement element) {
        return element == ForecastElement::time || element == ForecastElement::date;
    }

    bool take_time(std::string_view text, ForecastPeriod& period) {
        try {
            period.time.from =
                daily_ ? moment(measure::parse_date(text), minutes(0)) : parse_moment(text);
            return true;
        } catch (const InputError& error) {
            problem(period.line, "bad-time", error.what(), error.hint());
            return false;
        }
    }

    void take_value(const ForecastColumn& column, std::string_view text, ForecastPeriod& period) {
        const auto value = measure::parse_number(text);
        if (!value) {
            problem(period.line, "not-a-number",
                    fmt::format("'{}' in '{}' is not a number", text, column.name),
                    "leave the field empty where nothing is forecast");
            return;
        }
        if (column.element == ForecastElement::hours) return take_hours(*value, period);
        if (column.element == ForecastElement::rain_chance) return take_chance(*value, period);
        const Reading reading{
            period.line, {},   date_of(period.time.from), measured_as(column.element), *value,
            column.unit, false};
        if (auto impossible = beyond_records(reading, file_)) {
            add(std::move(*impossible));
            return;
        }
        const double in_units = *value / column.unit->parts;
        if (column.unit->speed != nullptr) {
            period.wind = measure::Speed::of(in_units, *column.unit->speed);
        } else if (column.unit->length != nullptr) {
            period.rain = measure::Length::of(in_units, *column.unit->length);
        } else {
            const auto temperature = measure::Temperature::of(in_units, *column.unit->temperature);
            if (column.element != ForecastElement::maximum) period.coolest = temperature;
            if (column.element != ForecastElement::minimum) period.warmest = temperature;
        }
    }

    void take_hours(double hours, const ForecastPeriod& period) {
        const double in_minutes = hours * 60.0;
        if (hours <= 0.0 || hours > longest_hours ||
            in_minutes != static_cast<double>(static_cast<int>(in_minutes))) {
            problem(period.line, "impossible-value",
                    fmt::format("a row that holds for {} hours cannot be used", hours),
                    "expected more than 0 and no more than 24 hours, in whole minutes");
            return;
        }
        lasts_.back() = minutes(static_cast<int>(in_minutes));
    }

    void take_chance(double percent, ForecastPeriod& period) {
        if (percent < 0.0 || percent > 100.0) {
            problem(period.line, "impossible-value",
                    fmt::format("a chance of {} percent is none", percent),
                    "chances go from 0 to 100 percent");
            return;
        }
        period.rain_chance = measure::Percent::of(percent, measure::units::percent);
    }

    void check_order() {
        for (std::size_t i = 1; i < periods_.size(); ++i) {
            const Moment before = periods_[i - 1].time.from;
            const Moment now = periods_[i].time.from;
            if (now == before) {
                problem(periods_[i].line, "duplicate-time",
                        fmt::format("{} stands twice, first on line {}", words(now),
                                    periods_[i - 1].line),
                        "leave one row for each time");
            } else if (now < before) {
                problem(periods_[i].line, "out-of-order",
                        fmt::format("{} comes after {}", words(now), words(before)),
                        "put the rows in the order of their times");
            }
        }
    }

    // How long a row holds that does not say so.
    std::optional<minutes> usual_length() const {
        if (daily_) return day_long;
        std::optional<minutes> shortest;
        for (std::size_t i = 1; i < periods_.size(); ++i) {
            const minutes step = periods_[i].time.from - periods_[i - 1].time.from;
            shortest = shortest ? std::min(*shortest, step) : step;
        }
        return shortest ? std::min(*shortest, day_long) : shortest;
    }

    void end_periods() {
        const auto usual = usual_length();
        for (std::size_t i = 0; i < periods_.size(); ++i) {
            Stretch& time = periods_[i].time;
            if (!lasts_[i] && !usual) {
                problem(periods_[i].line, "unknown-length",
                        "one row alone does not say for how long it holds",
                        "add a column hours, or the next row");
                return;
            }
            time.to = time.from + lasts_[i].value_or(usual.value_or(minutes(0)));
            if (i > 0 && periods_[i - 1].time.to > time.from) {
                problem(periods_[i].line, "overlapping",
                        fmt::format("{} still belongs to the row before", words(time.from)),
                        "make the hours of the row before no longer than up to here");
            }
        }
    }

    std::istringstream stream_;
    const std::string& file_;
    packs::Problems& problems_;
    packs::CsvReader reader_;
    std::vector<ForecastColumn> columns_;
    std::vector<std::size_t> places_;  // of the columns in a row
    bool daily_ = false;
    std::vector<ForecastPeriod> periods_;
    std::vector<std::optional<minutes>> lasts_;  // parallel to it: as its row says
    std::map<std::string, int> of_a_kind_;       // problems by their id
};

}  // namespace

Moment moment(const measure::Date& date, minutes after_midnight) {
    return Moment(std::chrono::local_days(date)) + after_midnight;
}

measure::Date date_of(Moment moment) {
    return measure::Date(std::chrono::floor<std::chrono::days>(moment));
}

std::string words(Moment moment) {
    const auto midnight = std::chrono::floor<std::chrono::days>(moment);
    const auto minute = std::chrono::duration_cast<minutes>(moment - midnight).count();
    return fmt::format("{}, {:02}:{:02}", measure::long_text(measure::Date(midnight)), minute / 60,
                       minute % 60);
}

std::vector<ForecastPeriod> periods_within(const Forecast& forecast, const Stretch& stretch) {
    std::vector<ForecastPeriod> found;
    std::ranges::copy_if(forecast.periods, std::back_inserter(found),
                         [&](const ForecastPeriod& period) {
                             return period.time.from < stretch.to && stretch.from < period.time.to;
                         });
    return found;
}

std::vector<Stretch> not_covered(const Forecast& forecast, const Stretch& stretch) {
    std::vector<ForecastPeriod> periods = periods_within(forecast, stretch);
    std::ranges::stable_sort(periods, {}, [](const auto& period) { return period.time.from; });
    std::vector<Stretch> missing;
    Moment reached = stretch.from;
    for (const ForecastPeriod& period : periods) {
        if (period.time.from > reached) missing.push_back({reached, period.time.from});
        reached = std::max(reached, period.time.to);
    }
    if (reached < stretch.to) missing.push_back({reached, stretch.to});
    return missing;
}

Forecast read_forecast(std::string_view text, const std::string& file, std::string_view columns) {
    if (text.starts_with(packs::byte_order_mark)) text.remove_prefix(packs::byte_order_mark.size());
    packs::Problems problems;
    problems.add_file(file, text);
    return ForecastReader(text, file, columns, problems).read();
}

}  // namespace ashtriage::weather
