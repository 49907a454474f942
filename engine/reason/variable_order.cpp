#include "reason/variable_order.hpp"

#include <algorithm>
#include <functional>
#include <numeric>

#include "reason/visit.hpp"

namespace ashtriage::reason {

namespace {

using Group = std::vector<FactIndex>;

// The facts that a condition names itself, and those that decide whether they apply; what it takes
// from other tables belongs to their own rules.
Group facts_of(const Condition& condition, const Model& model) {
    Group facts;
    const std::function<void(const Condition&)> collect = [&](const Condition& looked_at) {
        for_each_test(looked_at, [&](const auto& test) {
            using Test = std::decay_t<decltype(test)>;
            if constexpr (!std::is_same_v<Test, OutcomeTest>) {
                if (std::ranges::find(facts, test.fact) != facts.end()) return;
                facts.push_back(test.fact);
                if (const auto* applies = model.condition_to_apply(test.fact)) collect(*applies);
            }
        });
    };
    collect(condition);
    return facts;
}

std::vector<Group> groups_of(const Model& model) {
    std::vector<Group> groups;
    const auto tables = evaluation_order(model);
    for (const TableIndex table : tables.value()) {
        for (const Rule& rule : model.tables[table].rules) {
            Group group = facts_of(rule.when, model);
            if (!group.empty()) groups.push_back(std::move(group));
        }
        for (const WorseClaim& claim : model.tables[table].worse) {
            Group group = claim.unless ? facts_of(*claim.unless, model) : Group{};
            if (std::ranges::find(group, claim.fact) == group.end()) group.push_back(claim.fact);
            groups.push_back(std::move(group));
        }
    }
    return groups;
}

std::vector<FactIndex> as_they_appear(const std::vector<Group>& groups) {
    std::vector<FactIndex> order;
    for (const Group& group : groups) {
        for (const FactIndex fact : group) {
            if (std::ranges::find(order, fact) == order.end()) order.push_back(fact);
        }
    }
    return order;
}

std::vector<std::size_t> places_in(const std::vector<FactIndex>& order, std::size_t fact_count) {
    std::vector<std::size_t> places(fact_count, 0);
    for (std::size_t place = 0; place < order.size(); ++place) places[order[place]] = place;
    return places;
}

std::size_t total_span(const std::vector<Group>& groups, const std::vector<std::size_t>& places) {
    std::size_t total = 0;
    for (const Group& group : groups) {
        const auto [first, last] =
            std::ranges::minmax_element(group, {}, [&](FactIndex fact) { return places[fact]; });
        total += places[*last] - places[*first];
    }
    return total;
}

// Each fact moves to the middle of the middles of the groups it belongs to.
std::vector<FactIndex> drawn_together(const std::vector<Group>& groups,
                                      const std::vector<FactIndex>& order,
                                      const std::vector<std::size_t>& places) {
    std::vector<double> pull(places.size(), 0.0);
    std::vector<double> count(places.size(), 0.0);
    for (const Group& group : groups) {
        double middle = 0.0;
        for (const FactIndex fact : group) middle += static_cast<double>(places[fact]);
        middle /= static_cast<double>(group.size());
        for (const FactIndex fact : group) {
            pull[fact] += middle;
            count[fact] += 1.0;
        }
    }
    std::vector<FactIndex> moved = order;
    std::ranges::stable_sort(moved, {}, [&](FactIndex fact) { return pull[fact] / count[fact]; });
    return moved;
}

}  // namespace

std::vector<FactIndex> variable_order(const Model& model) {
    const std::vector<Group> groups = groups_of(model);
    std::vector<FactIndex> order = as_they_appear(groups);
    std::vector<std::size_t> places = places_in(order, model.facts.size());
    std::vector<FactIndex> best = order;
    std::size_t shortest = total_span(groups, places);

    constexpr int patience = 8;  // rounds without a shorter total before giving up
    for (int fruitless = 0; fruitless < patience; ++fruitless) {
        order = drawn_together(groups, order, places);
        places = places_in(order, model.facts.size());
        const std::size_t span = total_span(groups, places);
        if (span >= shortest) continue;
        shortest = span;
        best = order;
        fruitless = 0;
    }
    return best;
}

}  // namespace ashtriage::reason
