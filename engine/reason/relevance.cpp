// Which facts can still make a difference, and which of those observed made it.
#include <algorithm>
#include <cstddef>

#include "reason/by_cases.hpp"
#include "reason/engine.hpp"
#include "reason/restricted.hpp"

namespace ashtriage::reason {

std::vector<FactIndex> Engine::can_matter(TableIndex table, const Observation& observation) const {
    if (!has_diagram(table)) return facts_left_open(model_, orders_[table], table, observation);
    std::vector<FactIndex> facts = Restricted(*this, table, observation).facts();
    std::ranges::sort(facts);
    return facts;
}

std::vector<FactIndex> Engine::sufficient_facts(TableIndex table,
                                                const Observation& observation) const {
    const bool collects = model_.tables[table].hit_policy == HitPolicy::collect;
    const Outcomes outcomes = collects ? Outcomes{} : decide(table, observation);
    const Collected collected = collects ? collect(table, observation) : Collected{};
    const auto as_before = [&](const Observation& fewer) {
        return collects ? collect(table, fewer) == collected : decide(table, fewer) == outcomes;
    };

    // Only what was looked at on the way to the answer can be needed.
    std::vector<bool> looked_at(model_.facts.size(), !has_diagram(table));
    for (const Diagram& answer : diagrams_[table].answers) {
        mark_facts_looked_at(answer, branches_, observation, looked_at);
    }
    Observation kept = nothing_known();
    std::vector<FactIndex> observed;
    for (const FactIndex fact : behind_[table]) {
        if (!looked_at[fact] || observation[fact].is_unknown()) continue;
        kept[fact] = observation[fact];
        observed.push_back(fact);
    }
    const auto can_be_left_out = [&](FactIndex fact) {
        kept[fact] = Value{};
        if (as_before(kept)) return true;
        kept[fact] = observation[fact];
        return false;
    };
    // One round would do, were it not for facts that do not apply: not to know them is not less
    // than to know that, so leaving one out can free another.
    for (std::size_t before = observed.size() + 1; observed.size() < before;) {
        before = observed.size();
        for (std::size_t i = observed.size(); i-- > 0;) {
            if (can_be_left_out(observed[i])) {
                observed.erase(observed.begin() + static_cast<std::ptrdiff_t>(i));
            }
        }
    }
    return observed;
}

}  // namespace ashtriage::reason
