#include "reason/decision.hpp"

#include <bit>

namespace ashtriage::reason {

bool Outcomes::decided() const {
    return std::popcount(possible) == 1 && !none_possible && !conflict_possible;
}

std::optional<OutcomeIndex> Outcomes::outcome() const {
    if (!decided()) return std::nullopt;
    return static_cast<OutcomeIndex>(std::countr_zero(possible));
}

bool Outcomes::contains(const Outcomes& other) const {
    return (other.possible & ~possible) == 0 && (none_possible || !other.none_possible) &&
           (conflict_possible || !other.conflict_possible);
}

void Outcomes::add(const Outcomes& other) {
    possible |= other.possible;
    none_possible = none_possible || other.none_possible;
    conflict_possible = conflict_possible || other.conflict_possible;
}

double Change::distance() const {
    double total = 0.0;
    for (const ChangedFact& changed : facts) total += changed.distance;
    return total;
}

}  // namespace ashtriage::reason
