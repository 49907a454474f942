// Which facts can still make a difference, and which of those observed made it.
#include <algorithm>
#include <cstddef>
#include <functional>
#include <optional>
#include <utility>

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

std::optional<std::vector<std::optional<Branch>>> Engine::cut_of_kept(
    TableIndex table, const Observation& observation, const std::vector<bool>& left_out) const {
    std::vector<std::optional<Branch>> cut(observation.size());
    for (const FactIndex fact : behind_[table]) {
        if (left_out[fact]) continue;
        cut[fact] = branches_[fact].only(observation[fact]);
        if (!cut[fact]) return std::nullopt;
    }
    return cut;
}

std::function<bool()> Engine::unchanged_without(TableIndex table, const Observation& observation,
                                                const std::vector<bool>& left_out) const {
    const bool collects = model_.tables[table].hit_policy == HitPolicy::collect;
    const auto outcome = collects ? std::nullopt : decide(table, observation).outcome();
    std::optional<std::vector<std::optional<Branch>>> all_cut;
    if (outcome && has_diagram(table)) all_cut = cut_of_kept(table, observation, left_out);
    if (all_cut) {
        return [this, table, &left_out, cut = *std::move(all_cut),
                leaf = static_cast<std::uint32_t>(*outcome)] {
            return comes_only_to(leaf, diagrams_[table].answers.front(), branches_, cut, left_out);
        };
    }
    const auto fewer = [this, &observation, &left_out] {
        Observation known = nothing_known();
        for (FactIndex fact = 0; fact < known.size(); ++fact) {
            if (!left_out[fact]) known[fact] = observation[fact];
        }
        return known;
    };
    if (collects) {
        return [this, table, fewer, before = collect(table, observation)] {
            return collect(table, fewer()) == before;
        };
    }
    return [this, table, fewer, before = decide(table, observation)] {
        return decide(table, fewer()) == before;
    };
}

std::vector<FactIndex> Engine::sufficient_facts(TableIndex table,
                                                const Observation& observation) const {
    // Only what was looked at on the way to the answer can be needed.
    std::vector<bool> looked_at(model_.facts.size(), !has_diagram(table));
    for (const Diagram& answer : diagrams_[table].answers) {
        mark_facts_looked_at(answer, branches_, observation, looked_at);
    }
    std::vector<FactIndex> observed;
    std::vector<bool> left_out(model_.facts.size(), true);
    for (const FactIndex fact : behind_[table]) {
        if (!looked_at[fact] || observation[fact].is_unknown()) continue;
        left_out[fact] = false;
        observed.push_back(fact);
    }
    const std::function<bool()> as_before = unchanged_without(table, observation, left_out);
    const auto can_be_left_out = [&](FactIndex fact) {
        left_out[fact] = true;
        if (as_before()) return true;
        left_out[fact] = false;
        return false;
    };
    // One round will do, but for facts that do not apply: not to know them is not less than to know
    // that, so leaving one out can free another.
    const bool some_do_not_apply = std::ranges::any_of(
        observed, [&](FactIndex fact) { return observation[fact].is_not_applicable(); });
    for (std::size_t before = observed.size() + 1; observed.size() < before;) {
        before = some_do_not_apply ? observed.size() : 0;
        for (std::size_t i = observed.size(); i-- > 0;) {
            if (can_be_left_out(observed[i])) {
                observed.erase(observed.begin() + static_cast<std::ptrdiff_t>(i));
            }
        }
    }
    return observed;
}

}  // namespace ashtriage::reason
