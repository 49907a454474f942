// Small models that several tests share.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "reason/model.hpp"

namespace ashtriage::reason::test {

inline Fact number_fact(std::string name, double low, double high, double eye_error = 0.0) {
    Fact fact;
    fact.name = std::move(name);
    fact.kind = FactKind::number;
    fact.range = Interval::closed(low, high);
    fact.eye_error = eye_error;
    return fact;
}

inline Fact level_fact(std::string name, FactKind kind, std::vector<std::string> levels) {
    Fact fact;
    fact.name = std::move(name);
    fact.kind = kind;
    fact.levels = std::move(levels);
    return fact;
}

inline Fact yes_no_fact(std::string name) {
    return level_fact(std::move(name), FactKind::yes_no, yes_no_levels());
}

inline Interval above(double threshold, double high) {
    return {threshold, high, true, false};
}
inline Interval below(double low, double threshold) {
    return {low, threshold, false, true};
}

inline Rule rule(std::string id, Condition when, OutcomeIndex gives) {
    return {std::move(id), std::move(when), gives};
}

}  // namespace ashtriage::reason::test
