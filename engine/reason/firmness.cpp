// Whether an answer would survive the error of judging by eye, and what would change it.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "reason/engine.hpp"

namespace ashtriage::reason {

namespace {

// The observation with the value of one fact widened by its eye error.
Value within_eye_error(const Fact& fact, const Value& value) {
    const Interval* stretch = value.interval();
    if (stretch == nullptr || fact.eye_error <= 0.0) return value;
    return Value::range(widened(*stretch, fact.eye_error, fact.range));
}

double steps_between(const Fact& fact, const Value& from, const Value& to) {
    if (const Interval* stretch = from.interval()) {
        const double away = std::min(distance(stretch->low, *to.interval()),
                                     distance(stretch->high, *to.interval()));
        return fact.eye_error > 0.0 ? away / fact.eye_error : away;
    }
    if (fact.kind != FactKind::ordered) return 1.0;
    double nearest = std::numeric_limits<double>::infinity();
    for (LevelIndex a = 0; a < fact.levels.size(); ++a) {
        for (LevelIndex b = 0; b < fact.levels.size(); ++b) {
            if (!has_level(*from.level_set(), a) || !has_level(*to.level_set(), b)) continue;
            nearest = std::min(nearest, std::abs(static_cast<double>(a) - static_cast<double>(b)));
        }
    }
    return nearest;
}

Value joined(const Value& lower, const Value& upper) {
    if (const Interval* low = lower.interval()) {
        const Interval* high = upper.interval();
        return Value::range({low->low, high->high, low->low_open, high->high_open});
    }
    return Value::levels(*lower.level_set() | *upper.level_set());
}

struct Stretch {
    Value values;
    OutcomeIndex outcome;
};

}  // namespace

Firmness Engine::firmness(TableIndex table, const Observation& observation) const {
    const Outcomes as_seen = decide(table, observation);

    Observation band = observation;
    std::vector<FactIndex> judged;
    for (const FactIndex fact : behind_[table]) {
        band[fact] = within_eye_error(model_.facts[fact], observation[fact]);
        if (band[fact] != observation[fact]) judged.push_back(fact);
    }

    Firmness result;
    result.within_error = decide(table, band);
    result.firm = as_seen.decided() && result.within_error == as_seen;
    if (result.within_error == as_seen) return result;

    Observation one_widened = observation;
    for (const FactIndex fact : judged) {
        one_widened[fact] = band[fact];
        if (decide(table, one_widened) != as_seen) result.measure_again.push_back(fact);
        one_widened[fact] = observation[fact];
    }
    // Only together do they open the answer: each of them is worth another look.
    if (result.measure_again.empty()) result.measure_again = judged;
    return result;
}

std::vector<Change> Engine::nearest_changes(TableIndex table,
                                            const Observation& observation) const {
    const auto current = decide(table, observation).outcome();
    if (!current) return {};

    std::map<OutcomeIndex, Change> nearest;
    Observation supposed = observation;
    for (const FactIndex fact : behind_[table]) {
        const Fact& described = model_.facts[fact];
        const Value& seen = observation[fact];
        if (!described.changeable || seen.is_unknown() || seen.is_not_applicable()) continue;

        // Neighbouring cells that lead to the same outcome make one stretch; so do all levels of a
        // choice that do, since they have no order.
        std::vector<Stretch> stretches;
        bool last_decided = false;
        for (const Value& cell : cells_[fact]) {
            supposed[fact] = cell;
            const auto outcome = decide(table, supposed).outcome();
            if (outcome) {
                const bool ordered = described.kind != FactKind::choice;
                const auto same = ordered
                                      ? (last_decided && stretches.back().outcome == *outcome
                                             ? stretches.end() - 1
                                             : stretches.end())
                                      : std::ranges::find(stretches, *outcome, &Stretch::outcome);
                if (same != stretches.end()) {
                    same->values = joined(same->values, cell);
                } else {
                    stretches.push_back({cell, *outcome});
                }
            }
            last_decided = outcome.has_value();
        }
        supposed[fact] = seen;

        for (const Stretch& stretch : stretches) {
            if (stretch.outcome == *current) continue;
            const Change change{stretch.outcome, fact, stretch.values,
                                steps_between(described, seen, stretch.values)};
            const auto [known, added] = nearest.try_emplace(stretch.outcome, change);
            if (!added && change.distance < known->second.distance) known->second = change;
        }
    }

    std::vector<Change> changes;
    for (const auto& [outcome, change] : nearest) changes.push_back(change);
    std::ranges::stable_sort(changes, {}, &Change::distance);
    return changes;
}

}  // namespace ashtriage::reason
