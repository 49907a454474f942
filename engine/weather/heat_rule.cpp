#include "weather/heat_rule.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"

namespace ashtriage::weather {

using measure::Date;
using measure::InputError;
using measure::Temperature;
namespace units = measure::units;

namespace {

constexpr std::array<HeatMethod, 7> methods{HeatMethod::simple_average, HeatMethod::clamp_both,
                                            HeatMethod::clamp_minimum,  HeatMethod::single_triangle,
                                            HeatMethod::single_sine,    HeatMethod::double_triangle,
                                            HeatMethod::double_sine};

constexpr std::array<Cutoff, 4> cutoffs{Cutoff::none, Cutoff::horizontal, Cutoff::intermediate,
                                        Cutoff::vertical};

// The value of `all` that is written so.
template <class Value, std::size_t count>
Value parse_named(std::string_view text, std::string_view what,
                  const std::array<Value, count>& all) {
    std::vector<std::string> known;
    for (const Value value : all) {
        if (packs::normalised(name(value)) == packs::normalised(text)) return value;
        known.emplace_back(name(value));
    }
    throw InputError(fmt::format("'{}' is not {}", text, what), {},
                     packs::nearest_hint(text, known));
}

bool is_average(HeatMethod method) {
    return method == HeatMethod::simple_average || method == HeatMethod::clamp_both ||
           method == HeatMethod::clamp_minimum;
}

std::string_view method_words(HeatMethod method) {
    switch (method) {
        case HeatMethod::simple_average:
            return "simple average";
        case HeatMethod::clamp_both:
            return "average of minimum and maximum, both raised to the base";
        case HeatMethod::clamp_minimum:
            return "average, the minimum raised to the base";
        case HeatMethod::single_triangle:
            return "single triangle";
        case HeatMethod::single_sine:
            return "single sine";
        case HeatMethod::double_triangle:
            return "double triangle";
        case HeatMethod::double_sine:
            break;
    }
    return "double sine";
}

constexpr std::chrono::year common_year{2023};

Date in_year(std::chrono::month_day day, std::chrono::year year) {
    return {year, day.month(), day.day()};
}

}  // namespace

Temperature HeatRule::fifty_fahrenheit() {
    return Temperature::of("50", units::fahrenheit);
}

void check(const HeatRule& rule) {
    if (!rule.start.ok() || !in_year(rule.start, common_year).ok()) {
        throw InputError("the season cannot start on a day that not every year has", {},
                         "start on another day, such as 1 January or 1 March");
    }
    if (rule.upper.has_value() != (rule.cutoff != Cutoff::none)) {
        throw InputError("an upper threshold and a cutoff go together", {},
                         "give both, such as 86 F with a horizontal cutoff, or neither");
    }
    if (!rule.upper) return;
    if (*rule.upper <= rule.base) {
        throw InputError(fmt::format("the upper threshold, {}, is not above the base, {}",
                                     temperature_words(*rule.upper, rule.unit),
                                     temperature_words(rule.base, rule.unit)),
                         {}, "give an upper threshold above the base");
    }
    if (is_average(rule.method) && rule.cutoff != Cutoff::horizontal) {
        throw InputError(
            fmt::format("a {} cutoff is not defined for the method '{}', which knows no course of "
                        "the day and so not how long it was above the threshold",
                        name(rule.cutoff), name(rule.method)),
            {}, "use a horizontal cutoff, or a triangle or sine method");
    }
}

void check_start(const HeatRule& rule, const Date& first) {
    check(rule);
    if (std::chrono::month_day(first.month(), first.day()) == rule.start) return;
    throw InputError(
        fmt::format("{} is not a day on which this season starts", measure::text(first)));
}

std::string_view name(HeatMethod method) {
    switch (method) {
        case HeatMethod::simple_average:
            return "simple-average";
        case HeatMethod::clamp_both:
            return "clamp-both";
        case HeatMethod::clamp_minimum:
            return "clamp-minimum";
        case HeatMethod::single_triangle:
            return "single-triangle";
        case HeatMethod::single_sine:
            return "single-sine";
        case HeatMethod::double_triangle:
            return "double-triangle";
        case HeatMethod::double_sine:
            break;
    }
    return "double-sine";
}

std::string_view name(Cutoff cutoff) {
    switch (cutoff) {
        case Cutoff::none:
            return "none";
        case Cutoff::horizontal:
            return "horizontal";
        case Cutoff::intermediate:
            return "intermediate";
        case Cutoff::vertical:
            break;
    }
    return "vertical";
}

HeatMethod parse_heat_method(std::string_view text) {
    return parse_named(text, "a method of reckoning degree days", methods);
}

Cutoff parse_cutoff(std::string_view text) {
    return parse_named(text, "a cutoff", cutoffs);
}

std::span<const HeatMethod> all_heat_methods() {
    return methods;
}

std::string_view unit_words(DegreeUnit unit) {
    return unit == DegreeUnit::fahrenheit ? "degree days F" : "degree days C";
}

std::string temperature_words(const Temperature& temperature, DegreeUnit unit) {
    const bool fahrenheit = unit == DegreeUnit::fahrenheit;
    std::string text = temperature.text(fahrenheit ? units::fahrenheit : units::celsius, 2);
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text + (fahrenheit ? " F" : " C");
}

double degrees(const Temperature& temperature, DegreeUnit unit) {
    return temperature.in(unit == DegreeUnit::fahrenheit ? units::fahrenheit : units::celsius);
}

std::string words(const HeatRule& rule) {
    // The day and the month of a date in words, without its year.
    std::string start = measure::long_text(in_year(rule.start, common_year));
    start.erase(start.rfind(' '));
    const std::string upper = rule.upper ? fmt::format("{} cutoff at {}", name(rule.cutoff),
                                                       temperature_words(*rule.upper, rule.unit))
                                         : std::string("no upper cutoff");
    return fmt::format("{}, base {}, from {}, {}", method_words(rule.method),
                       temperature_words(rule.base, rule.unit), start, upper);
}

Date season_start(std::chrono::month_day start, const Date& date) {
    const Date this_year = in_year(start, date.year());
    return this_year <= date ? this_year : in_year(start, date.year() - std::chrono::years{1});
}

Date season_end(const Date& first) {
    return measure::add_days(measure::add_years(first, 1, measure::LeapDay::march_1), -1);
}

}  // namespace ashtriage::weather
