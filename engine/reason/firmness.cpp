// Whether an answer would survive the error of judging by eye.
#include <algorithm>
#include <iterator>

#include "reason/cells.hpp"
#include "reason/engine.hpp"

namespace ashtriage::reason {

namespace {

// The value of one fact widened by its eye error.
Value within_eye_error(const Fact& fact, const Value& value) {
    const Interval* stretch = value.interval();
    if (stretch == nullptr || fact.eye_error <= 0.0) return value;
    return Value::range(widened(*stretch, fact.eye_error, fact.range));
}

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

    // A measurement settles the answer when, wherever in the band it falls, nothing else that was
    // judged by eye leaves more open than was open as seen.
    const auto settles = [&](FactIndex fact) {
        Observation measured = band;
        for (const Value& part : split(band[fact], branches_[fact].cells())) {
            measured[fact] = part;
            const Outcomes outcomes = decide(table, measured);
            if (as_seen.decided() ? !outcomes.decided() : !as_seen.contains(outcomes)) return false;
        }
        return true;
    };
    std::ranges::copy_if(judged, std::back_inserter(result.measure_again), settles);
    result.one_settles = !result.measure_again.empty();
    if (result.one_settles) return result;

    const std::vector<FactIndex> mattering = can_matter(table, band);
    std::ranges::copy_if(judged, std::back_inserter(result.measure_again), [&](FactIndex fact) {
        return std::ranges::find(mattering, fact) != mattering.end();
    });
    return result;
}

}  // namespace ashtriage::reason
