// How degree days are reckoned: by which method, above which base, from which day, in which unit.
// A total means nothing without these, so they travel with it.
#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::weather {

enum class HeatMethod {
    simple_average,   // mean of minimum and maximum, less the base
    clamp_both,       // both raised to the base first (and lowered to the upper threshold)
    clamp_minimum,    // only the minimum raised to the base
    single_triangle,  // the day as one triangle from minimum to maximum and back
    single_sine,      // the day as one sine wave
    double_triangle,  // the second half falls to the minimum of the next day
    double_sine,
};

// What becomes of growth above the upper threshold.
enum class Cutoff {
    none,
    horizontal,    // it goes on as at the threshold
    intermediate,  // it slows as much as it quickened below
    vertical,      // it stops while it is warmer than the threshold
};

enum class DegreeUnit { fahrenheit, celsius };

// Single sine above 50 F from 1 January without an upper cutoff, unless said otherwise.
struct HeatRule {
    HeatMethod method = HeatMethod::single_sine;
    measure::Temperature base = fifty_fahrenheit();
    std::optional<measure::Temperature> upper;
    Cutoff cutoff = Cutoff::none;
    std::chrono::month_day start{std::chrono::January, std::chrono::day{1}};
    DegreeUnit unit = DegreeUnit::fahrenheit;

    static measure::Temperature fifty_fahrenheit();
};

// Throws InputError for an upper threshold without a cutoff or a cutoff without one, one at or
// below the base, a cutoff that the method does not define, or a start that not every year has.
void check(const HeatRule& rule);
// The same, and for a first day of a season that is not the start of the rule.
void check_start(const HeatRule& rule, const measure::Date& first);

// The names that are typed: "single-sine", "clamp-both", "horizontal". The parsing throws
// InputError with the nearest name.
std::string_view name(HeatMethod method);
std::string_view name(Cutoff cutoff);
HeatMethod parse_heat_method(std::string_view text);
Cutoff parse_cutoff(std::string_view text);
std::span<const HeatMethod> all_heat_methods();

// "degree days F" or "degree days C".
std::string_view unit_words(DegreeUnit unit);

// "single sine, base 50 F, from 1 January, no upper cutoff": method, base, start and cutoff, to be
// printed beside every total.
std::string words(const HeatRule& rule);

// "50 F", with as many places as it has, at most two.
std::string temperature_words(const measure::Temperature& temperature, DegreeUnit unit);

// The degrees of a temperature on the scale of the unit.
double degrees(const measure::Temperature& temperature, DegreeUnit unit);

// The first day of the season in which the date lies: the latest start that is not after it. A
// start of 1 July thus gives the year before for a date in February, as the southern half of the
// earth needs it.
measure::Date season_start(std::chrono::month_day start, const measure::Date& date);
// The last day of the season that begins then, one day short of a year later.
measure::Date season_end(const measure::Date& first);

}  // namespace ashtriage::weather
