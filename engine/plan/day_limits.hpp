// The limits that hold on a day: the label card's own, and a rule's where the card has none.
#pragma once

#include <optional>
#include <set>
#include <vector>

#include "plan/day_rules.hpp"
#include "plan/spray_day.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

// Why something has to be so, and where that comes from.
struct Ground {
    DayAnswer otherwise = DayAnswer::no_go;
    Said because;
    LimitFrom from = LimitFrom::rule;
};

// One end of a range; the value itself is still within it.
template <class Quantity>
struct LimitEnd {
    Quantity value;
    Ground ground;
};

template <class Quantity>
struct RangeLimit {
    std::optional<LimitEnd<Quantity>> low;
    std::optional<LimitEnd<Quantity>> high;
    std::optional<LimitEnd<Quantity>> best_high;

    bool any() const { return low || high || best_high; }
};

struct SoilLimit {
    std::set<treat::SoilState> allowed;
    // For each state that is not allowed; a card has one ground for all of them.
    std::vector<std::pair<treat::SoilState, Ground>> refused;
};

struct RainLimit {
    int free_hours = 0;
    Ground ground;
};

RangeLimit<measure::Speed> wind_limit(const DayRules& rules, const treat::LabelCard* card);
RangeLimit<measure::Temperature> temperature_limit(const DayRules& rules,
                                                   const treat::LabelCard* card);
std::optional<RainLimit> rain_limit(const DayRules& rules, const treat::LabelCard* card);
std::optional<SoilLimit> soil_limit(const DayRules& rules, const treat::LabelCard* card);
std::optional<Ground> bark_limit(const DayRules& rules, const treat::LabelCard* card);
std::optional<Ground> bloom_limit(const DayRules& rules, const treat::LabelCard* card);
// What only rules speak of.
std::optional<Ground> by_rule(const std::optional<DayNeed>& need);

}  // namespace ashtriage::plan
