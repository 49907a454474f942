#include "weather/normals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <vector>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/units.hpp"
#include "packs/csv_rows.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"
#include "weather/weather_columns.hpp"

namespace ashtriage::weather {

using measure::add_days;
using measure::Date;
using measure::InputError;
using measure::Temperature;
namespace units = measure::units;

namespace {

// The middles of ten equally likely parts of a normal distribution, in standard deviations: its
// quantiles at 5, 15, ... 95 percent (tables of the normal distribution).
constexpr std::array<double, 10> equally_likely{-1.644854, -1.036433, -0.674490, -0.385320,
                                                -0.125661, 0.125661,  0.385320,  0.674490,
                                                1.036433,  1.644854};

constexpr double highest_spread_celsius = 20.0;  // several times that of any month

struct SmoothDay {
    double minimum = 0.0;  // C
    double maximum = 0.0;
    double spread = 0.0;
};

SmoothDay middle_of(const MonthNormal& month) {
    return {month.minimum.in(units::celsius), month.maximum.in(units::celsius),
            month.spread_celsius};
}

double middle_day(const Date& month_begins) {
    const Date last = month_begins.year() / month_begins.month() / std::chrono::last;
    return static_cast<double>(static_cast<unsigned>(last.day()) + 1) / 2.0;
}

SmoothDay smooth_day(const Normals& normals, const Date& date) {
    const Date begins{date.year(), date.month(), std::chrono::day{1}};
    const bool later_half = static_cast<unsigned>(date.day()) > middle_day(begins);
    // The months between whose middles the day lies.
    const Date from = later_half ? begins
                                 : add_days(begins, -1).year() / add_days(begins, -1).month() /
                                       std::chrono::day{1};
    const Date to = add_days(from.year() / from.month() / std::chrono::last, 1);
    const double length = measure::days_between(from, to) - middle_day(from) + middle_day(to);
    const double share = (measure::days_between(from, date) + 1 - middle_day(from)) / length;
    const auto month = [&](const Date& day) {
        return middle_of(normals.months.at(static_cast<unsigned>(day.month()) - 1));
    };
    const SmoothDay a = month(from);
    const SmoothDay b = month(to);
    return {a.minimum + share * (b.minimum - a.minimum),
            a.maximum + share * (b.maximum - a.maximum), a.spread + share * (b.spread - a.spread)};
}

double expected_of_day(const HeatRule& rule, const SmoothDay& day, const SmoothDay& next) {
    double sum = 0.0;
    for (const double step : equally_likely) {
        const double moved = step * day.spread;
        sum += degree_days_of(rule, Temperature::of(day.minimum + moved, units::celsius),
                              Temperature::of(day.maximum + moved, units::celsius),
                              Temperature::of(next.minimum + moved, units::celsius));
    }
    return sum / static_cast<double>(equally_likely.size());
}

// The column whose name begins so and ends in F or C.
struct UnitColumn {
    std::size_t index = 0;
    bool fahrenheit = false;
};

std::optional<UnitColumn> find_column(const packs::CsvHeader& header, const std::string& name) {
    if (const auto found = header.find(name + "_f")) return UnitColumn{*found, true};
    if (const auto found = header.find(name + "_c")) return UnitColumn{*found, false};
    return std::nullopt;
}

UnitColumn require_column(const packs::CsvHeader& header, const std::string& name,
                          const std::string& file) {
    if (const auto found = find_column(header, name)) return *found;
    throw InputError(fmt::format("no column '{}_f' or '{}_c'", name, name), file,
                     "the columns are month, tmin_f, tmax_f and spread_f, or the same in C");
}

class NormalsReader {
 public:
    NormalsReader(std::string_view text, const std::string& file)
        : file_(file), stream_(std::string(text)), reader_(stream_, file) {
        problems_.add_file(file, text);
    }

    Normals read(const std::string& station) {
        const packs::CsvHeader& header = reader_.header();
        const std::size_t month = header.require("month");
        minimum_ = require_column(header, "tmin", file_);
        maximum_ = require_column(header, "tmax", file_);
        const auto spread = find_column(header, "spread");
        if (!spread) {
            throw InputError(
                "the normals have no spread from day to day", file_,
                "without it spring heat is counted too low and dates come out about a week late: "
                "add a column spread_f or spread_c, the standard deviation of the daily mean in "
                "each month");
        }
        spread_ = *spread;
        Normals normals{station, {}};
        std::array<bool, 12> given{};
        packs::CsvRow row;
        while (reader_.next(row)) read_row(row, month, normals, given);
        for (std::size_t i = 0; i < given.size(); ++i) {
            if (!given.at(i))
                problem(0, "month-missing", fmt::format("month {} is missing", i + 1));
        }
        problems_.throw_if_any();
        return normals;
    }

 private:
    void problem(std::size_t line, std::string id, std::string message) {
        problems_.add({std::move(id), file_, {line, 0}, std::move(message), {}, {}});
    }

    void read_row(const packs::CsvRow& row, std::size_t month_column, Normals& normals,
                  std::array<bool, 12>& given) {
        if (!row.fault.empty()) return problem(row.line, "row-width", row.fault);
        const auto month = measure::parse_number(row.fields[month_column]);
        if (!month || *month < 1.0 || *month > 12.0 || *month != static_cast<int>(*month)) {
            return problem(
                row.line, "bad-month",
                fmt::format("'{}' is not a month from 1 to 12", row.fields[month_column]));
        }
        const std::size_t index = static_cast<std::size_t>(*month) - 1;
        if (given.at(index)) {
            return problem(row.line, "duplicate-month",
                           fmt::format("month {} stands twice", index + 1));
        }
        given.at(index) = true;
        const auto minimum = number(row, minimum_);
        const auto maximum = number(row, maximum_);
        const auto spread = number(row, spread_);
        if (!minimum || !maximum || !spread) return;
        const double low = minimum_.fahrenheit ? (*minimum - 32.0) / 1.8 : *minimum;
        const double high = maximum_.fahrenheit ? (*maximum - 32.0) / 1.8 : *maximum;
        const double days_apart = spread_.fahrenheit ? *spread / 1.8 : *spread;
        constexpr double coldest = -70.0;  // colder and hotter than any month anywhere
        constexpr double hottest = 50.0;
        if (low > high || low < coldest || high > hottest) {
            return problem(row.line, "impossible-value",
                           fmt::format("a month from {} to {} {} is not one of this earth",
                                       *minimum, *maximum, minimum_.fahrenheit ? "F" : "C"));
        }
        if (days_apart <= 0.0 || days_apart > highest_spread_celsius) {
            return problem(
                row.line, "impossible-spread",
                fmt::format("a spread of {} from day to day is not one of a month", *spread));
        }
        normals.months.at(index) = {Temperature::of(low, units::celsius),
                                    Temperature::of(high, units::celsius), days_apart};
    }

    std::optional<double> number(const packs::CsvRow& row, const UnitColumn& column) {
        const std::string_view field = packs::trimmed(row.fields[column.index]);
        const auto value = measure::parse_number(field);
        if (!value) {
            problem(row.line, "not-a-number", fmt::format("'{}' is not a number", field));
        }
        return value;
    }

    const std::string& file_;
    std::istringstream stream_;
    packs::CsvReader reader_;
    packs::Problems problems_;
    UnitColumn minimum_;
    UnitColumn maximum_;
    UnitColumn spread_;
};

}  // namespace

Normals read_normals(std::string_view text, const std::string& file, const std::string& station) {
    return NormalsReader(text, file).read(station);
}

HeatTotals expected_totals(const Normals& normals, const HeatRule& rule, const Date& first) {
    check_start(rule, first);
    for (const MonthNormal& month : normals.months) {
        if (!(month.spread_celsius > 0.0)) {
            throw InputError("normals without a spread from day to day give no degree days");
        }
    }
    HeatTotals totals{rule, normals.station, first, {}, {}, 0};
    double total = 0.0;
    for (Date date = first; date <= season_end(first); date = add_days(date, 1)) {
        const double of_day = expected_of_day(rule, smooth_day(normals, date),
                                              smooth_day(normals, add_days(date, 1)));
        total += of_day;
        totals.days.push_back({date, of_day, total, false});
    }
    return totals;
}

}  // namespace ashtriage::weather
