// What the day of an application has to be like where the label says nothing of it, kind of method
// by kind of method.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "plan/method_facts.hpp"
#include "treat/label_conditions.hpp"

namespace ashtriage::plan {

// The worse the later.
enum class DayAnswer { go, check, no_go };

// "go", "check", "no-go".
std::string_view words(DayAnswer answer);

// Something that has to be so; what the day is when it is known not to be.
struct DayNeed {
    DayAnswer otherwise = DayAnswer::no_go;
    Said because;
};

struct SoilNeed {
    treat::SoilState state = treat::SoilState::dry;  // in which the soil may not be
    DayNeed need;
};

// Both ends are still within the limits.
struct WindNeed {
    std::optional<measure::Speed> from;
    DayAnswer below = DayAnswer::check;
    measure::Speed to;
    DayAnswer above = DayAnswer::no_go;
    Said because;
};

struct TemperatureNeed {
    measure::Temperature from;  // both ends are still within the limits
    measure::Temperature to;
    DayNeed need;
    std::optional<measure::Temperature> best_to;  // from here on, look twice
    Said best_because;
};

struct RainNeed {
    int free_hours = 0;  // after the work
    DayNeed need;
};

struct DayRules {
    std::string kind;  // "soil", "injection"
    std::string title;
    std::vector<std::string> methods;
    std::optional<DayNeed> leaves_out;
    std::optional<DayNeed> dry_bark;
    std::vector<SoilNeed> soil;  // the states that are not named are as they should be
    std::optional<WindNeed> wind;
    std::optional<DayNeed> no_inversion;
    std::optional<TemperatureNeed> temperature;
    std::optional<RainNeed> rain;
    std::optional<DayNeed> no_bloom;
    std::optional<DayNeed> no_bees;
    std::vector<Said> advice;  // not held against the day
};

// Throws measure::InputError, with the nearest name, when no rules are for that method.
const DayRules& day_rules_for(const std::vector<DayRules>& rules, std::string_view method);

}  // namespace ashtriage::plan
