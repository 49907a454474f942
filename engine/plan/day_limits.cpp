#include "plan/day_limits.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace ashtriage::plan {

namespace {

using treat::SoilState;

constexpr std::array all_soil_states{SoilState::dry, SoilState::moist, SoilState::saturated,
                                     SoilState::frozen};

Ground by_card(const treat::LabelCard& card, std::string says) {
    return {DayAnswer::no_go, {std::move(says), card.conditions.sources}, LimitFrom::card};
}

Ground by_rule(DayAnswer otherwise, const Said& because) {
    return {otherwise, because, LimitFrom::rule};
}

}  // namespace

std::optional<Ground> by_rule(const std::optional<DayNeed>& need) {
    if (!need) return std::nullopt;
    return by_rule(need->otherwise, need->because);
}

RangeLimit<measure::Speed> wind_limit(const DayRules& rules, const treat::LabelCard* card) {
    RangeLimit<measure::Speed> limit;
    if (rules.wind) {
        if (rules.wind->from) {
            limit.low = {*rules.wind->from, by_rule(rules.wind->below, rules.wind->because)};
        }
        limit.high = {rules.wind->to, by_rule(rules.wind->above, rules.wind->because)};
    }
    if (card != nullptr && card->conditions.wind_to) {
        limit.high = {*card->conditions.wind_to, by_card(*card, "The card sets this limit.")};
        // A rule that leaves no wind at all under the card's limit gives way to it.
        if (limit.low && limit.low->value > limit.high->value) limit.low.reset();
    }
    return limit;
}

RangeLimit<measure::Temperature> temperature_limit(const DayRules& rules,
                                                   const treat::LabelCard* card) {
    RangeLimit<measure::Temperature> limit;
    if (rules.temperature) {
        const TemperatureNeed& need = *rules.temperature;
        const Ground ground = by_rule(need.need.otherwise, need.need.because);
        limit.low = {need.from, ground};
        limit.high = {need.to, ground};
        if (need.best_to) {
            limit.best_high = {*need.best_to, by_rule(DayAnswer::check, need.best_because)};
        }
    }
    if (card == nullptr) return limit;
    const treat::Conditions& conditions = card->conditions;
    if (conditions.temperature_from) {
        limit.low = {*conditions.temperature_from, by_card(*card, "The card sets this limit.")};
        if (limit.high && limit.high->value < limit.low->value) limit.high.reset();
        if (limit.best_high && limit.best_high->value < limit.low->value) limit.best_high.reset();
    }
    if (conditions.temperature_to) {
        limit.high = {*conditions.temperature_to, by_card(*card, "The card sets this limit.")};
        limit.best_high.reset();
        if (limit.low && limit.low->value > limit.high->value) limit.low.reset();
    }
    return limit;
}

std::optional<RainLimit> rain_limit(const DayRules& rules, const treat::LabelCard* card) {
    if (card != nullptr && card->conditions.rain_free_hours) {
        return RainLimit{*card->conditions.rain_free_hours,
                         by_card(*card, "The card asks for these hours without rain.")};
    }
    if (!rules.rain) return std::nullopt;
    return RainLimit{rules.rain->free_hours,
                     by_rule(rules.rain->need.otherwise, rules.rain->need.because)};
}

std::optional<SoilLimit> soil_limit(const DayRules& rules, const treat::LabelCard* card) {
    SoilLimit limit;
    if (card != nullptr && !card->conditions.soil.empty()) {
        limit.allowed = card->conditions.soil;
        for (const SoilState state : all_soil_states) {
            if (limit.allowed.contains(state)) continue;
            limit.refused.emplace_back(
                state, by_card(*card, "The card does not allow soil in this state."));
        }
        return limit;
    }
    if (rules.soil.empty()) return std::nullopt;
    for (const SoilState state : all_soil_states) {
        const auto refused = std::ranges::find(rules.soil, state, &SoilNeed::state);
        if (refused == rules.soil.end()) {
            limit.allowed.insert(state);
        } else {
            limit.refused.emplace_back(state,
                                       by_rule(refused->need.otherwise, refused->need.because));
        }
    }
    return limit;
}

std::optional<Ground> bark_limit(const DayRules& rules, const treat::LabelCard* card) {
    if (card != nullptr && card->conditions.dry_bark) {
        return by_card(*card, "The card asks for dry bark.");
    }
    return by_rule(rules.dry_bark);
}

std::optional<Ground> bloom_limit(const DayRules& rules, const treat::LabelCard* card) {
    if (card != nullptr && card->conditions.not_in_bloom) {
        return by_card(*card,
                       "The card forbids it while the tree, or what flowers in its root zone, is "
                       "in bloom.");
    }
    return by_rule(rules.no_bloom);
}

}  // namespace ashtriage::plan
