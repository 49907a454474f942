// Whether a day, as far as it is known and forecast, lets a method be used: each condition held
// against the label card or, where the card says nothing, against a rule with its source.
//
// A go says only that nothing which was looked at stands against the day. The label in hand
// decides, and what the day is really like is seen on the spot.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "plan/day_rules.hpp"
#include "season/window.hpp"
#include "treat/label_card.hpp"
#include "weather/forecast.hpp"

namespace ashtriage::plan {

// What is known of the day. What is empty is not known.
struct DayFacts {
    weather::Stretch work;  // from its beginning to its end; the same moment twice for a short one
    // False: the end is not known and stands at the beginning, so that the hours after the work
    // that have to be dry begin nobody knows when.
    bool end_known = true;
    weather::Forecast forecast;
    std::optional<measure::Temperature> temperature;  // measured on the spot
    std::optional<measure::Speed> wind;
    std::optional<treat::SoilState> soil;
    std::optional<bool> bark_dry;
    std::optional<bool> leaves_out;  // fully
    std::optional<bool> in_bloom;    // the tree, or what flowers in its root zone
    std::optional<bool> bees;        // that forage near by
    std::optional<bool> inversion;
    std::optional<bool> certified;  // whether a certified applicator does it
    // A chance of rain of no more than this is taken for none. No source gives one.
    measure::Percent chance_taken;
};

// The dates of a method, and its window at the place in the year of the day.
struct SeasonOfDay {
    const season::MethodSeason* method = nullptr;
    std::optional<season::Window> window;
    bool place_known = true;  // false: the window is that of another place
};

enum class DayTopic {
    label,
    season,
    leaves,
    soil,
    bark,
    temperature,
    wind,
    inversion,
    rain,
    bloom,
    bees
};

// "rain", "bloom".
std::string_view words(DayTopic topic);

enum class LimitFrom { card, rule };

struct DayCheck {
    DayTopic topic = DayTopic::label;
    DayAnswer answer = DayAnswer::check;
    std::string known;  // a sentence: what the day is, or what of it is not known
    std::string limit;  // a sentence: what it has to be, and why
    LimitFrom from = LimitFrom::rule;
    std::vector<std::string> sources;
};

struct SprayDay {
    std::vector<DayCheck> checks;  // in the order of DayTopic
    // For which neither the card nor a rule has a limit. Others may be on the label.
    std::vector<DayTopic> no_limit;
    std::vector<Said> advice;

    // The worst of all checks: a no-go, else a check, else go.
    DayAnswer answer() const;
};

// `card` may be null; without one, and with an example, the day is never more than a check.
// `season` is nothing for a method without dates.
SprayDay screen_day(const DayRules& rules, const treat::LabelCard* card,
                    const std::optional<SeasonOfDay>& season, const DayFacts& day);

}  // namespace ashtriage::plan
