// What would change an answer, and by how little.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "reason/compiler.hpp"
#include "reason/engine.hpp"

namespace ashtriage::reason {

namespace {

double steps_between(const Fact& fact, const Value& from, const Value& to) {
    if (const Interval* stretch = from.interval()) {
        const bool touching = intersection(*stretch, *to.interval()).has_value();
        const double away = touching ? 0.0
                                     : std::min(distance(stretch->low, *to.interval()),
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

// How dear a change is: first by the number of facts, then by their distance.
struct Cost {
    std::size_t facts = 0;
    double distance = 0.0;

    friend bool operator<(const Cost& a, const Cost& b) {
        return std::tie(a.facts, a.distance) < std::tie(b.facts, b.distance);
    }
};

// A way from some place in the diagram to an outcome.
struct Way {
    Cost cost;
    std::optional<Branch> changed_to;  // of the fact looked at here; nothing: left as it is
    std::size_t goes_on_at = 0;        // the place where it goes on
};

// Looks for the cheapest way to each outcome through a diagram. An unknown fact leads to all its
// branches at once, so a place is a set of nodes, and an outcome is reached where all of them are
// the one leaf: then it comes about whatever the unknown facts are.
class CheapestWays {
 public:
    CheapestWays(const Engine& engine, const Diagram& diagram, const Observation& observation)
        : engine_(engine), diagram_(diagram), observation_(observation) {}

    // The changed facts and the branches they change to, by outcome.
    std::map<OutcomeIndex, std::vector<std::pair<FactIndex, Branch>>> find() {
        const std::size_t start = place({diagram_.root});
        std::map<OutcomeIndex, std::vector<std::pair<FactIndex, Branch>>> found;
        for (const auto& [outcome, unused] : ways_[start]) found[outcome] = changes(start, outcome);
        return found;
    }

 private:
    using Nodes = std::vector<Node>;  // rising, each once

    // A fact that was observed, or that does not apply as long as others are as they are.
    bool can_be_changed(FactIndex fact) const {
        const Value& seen = observation_[fact];
        if (!engine_.model().facts[fact].changeable || seen.is_unknown()) return false;
        return !seen.is_not_applicable() || engine_.model().condition_to_apply(fact) != nullptr;
    }

    // The nodes after looking at `fact`, where it takes one of `branches`.
    Nodes after(const Nodes& nodes, FactIndex fact, const std::vector<Branch>& branches) const {
        Nodes next;
        for (const Node node : nodes) {
            if (is_leaf(node) || diagram_.looks[node].fact != fact) {
                next.push_back(node);
                continue;
            }
            for (const Branch branch : branches) next.push_back(diagram_.next(node, branch));
        }
        std::ranges::sort(next);
        next.erase(std::unique(next.begin(), next.end()), next.end());
        return next;
    }

    // Where the ways from here are kept; worked out when the place is new.
    std::size_t place(const Nodes& nodes) {
        const auto known = places_.find(nodes);
        if (known != places_.end()) return known->second;

        std::map<OutcomeIndex, Way> ways;
        FactIndex fact = 0;
        const auto leaves = static_cast<std::size_t>(
            std::ranges::count_if(nodes, [](Node n) { return is_leaf(n); }));
        if (nodes.size() == 1 && leaves == 1) {
            const std::uint32_t outcome = leaf_value(nodes.front());
            if (outcome < most_outcomes) ways[outcome] = {};
        } else if (leaves <= 1) {  // two different leaves never become one again
            fact = diagram_.looks[nodes.front()].fact;  // leaves come last
            const Branches& branches = engine_.branches()[fact];
            std::vector<Branch> as_it_is;
            branches.for_each(observation_[fact], [&](Branch b) { as_it_is.push_back(b); });
            add_ways(ways, place(after(nodes, fact, as_it_is)), std::nullopt, {});
            if (can_be_changed(fact)) {
                for (Branch branch = 0; branch < branches.does_not_apply(); ++branch) {
                    const Cost cost{1, steps(fact, branches.value(branch))};
                    add_ways(ways, place(after(nodes, fact, {branch})), branch, cost);
                }
            }
        }
        const std::size_t made = ways_.size();
        places_.emplace(nodes, made);
        ways_.push_back(std::move(ways));
        fact_at_.push_back(fact);
        return made;
    }

    double steps(FactIndex fact, const Value& to) const {
        const Value& seen = observation_[fact];
        return seen.is_not_applicable() ? 1.0
                                        : steps_between(engine_.model().facts[fact], seen, to);
    }

    void add_ways(std::map<OutcomeIndex, Way>& ways, std::size_t next,
                  std::optional<Branch> changed_to, const Cost& cost) const {
        for (const auto& [outcome, way] : ways_[next]) {
            const Cost whole{cost.facts + way.cost.facts, cost.distance + way.cost.distance};
            const auto [kept, added] = ways.try_emplace(outcome, Way{whole, changed_to, next});
            if (!added && whole < kept->second.cost) kept->second = {whole, changed_to, next};
        }
    }

    std::vector<std::pair<FactIndex, Branch>> changes(std::size_t from,
                                                      OutcomeIndex outcome) const {
        std::vector<std::pair<FactIndex, Branch>> changes;
        for (std::size_t at = from; ways_[at].at(outcome).cost.facts > 0;) {
            const Way& way = ways_[at].at(outcome);
            if (way.changed_to) changes.emplace_back(fact_at_[at], *way.changed_to);
            at = way.goes_on_at;
        }
        return changes;
    }

    const Engine& engine_;
    const Diagram& diagram_;
    const Observation& observation_;
    std::map<Nodes, std::size_t> places_;
    std::vector<std::map<OutcomeIndex, Way>> ways_;  // by place
    std::vector<FactIndex> fact_at_;                 // by place: the fact looked at there
};

// Without a diagram: each fact by itself, in each of its cells.
std::map<OutcomeIndex, std::vector<std::pair<FactIndex, Branch>>> single_changes(
    const Engine& engine, TableIndex table, const Observation& observation) {
    std::map<OutcomeIndex, std::vector<std::pair<FactIndex, Branch>>> found;
    std::map<OutcomeIndex, double> nearest;
    Observation supposed = observation;
    for (const FactIndex fact : engine.facts_behind(table)) {
        const Fact& described = engine.model().facts[fact];
        const Value& seen = observation[fact];
        if (!described.changeable || seen.is_unknown() || seen.is_not_applicable()) continue;
        const Branches& branches = engine.branches()[fact];
        for (Branch branch = 0; branch < branches.does_not_apply(); ++branch) {
            supposed[fact] = branches.value(branch);
            const auto outcome = engine.decide(table, supposed).outcome();
            if (!outcome) continue;
            const double distance = steps_between(described, seen, supposed[fact]);
            const auto [best, added] = nearest.try_emplace(*outcome, distance);
            if (!added && distance >= best->second) continue;
            best->second = distance;
            found[*outcome] = {{fact, branch}};
        }
        supposed[fact] = seen;
    }
    return found;
}

// The whole stretch around the changed value, or all levels of a choice, that do just as well while
// the other changes stay.
Value all_that_do(const Engine& engine, TableIndex table, const Observation& changed,
                  FactIndex fact, Branch chosen, OutcomeIndex outcome) {
    const Branches& branches = engine.branches()[fact];
    Observation supposed = changed;
    const auto does = [&](Branch branch) {
        supposed[fact] = branches.value(branch);
        return engine.decide(table, supposed).outcome() == outcome;
    };
    Value all = branches.value(chosen);
    if (engine.model().facts[fact].kind == FactKind::choice) {
        for (Branch branch = 0; branch < branches.does_not_apply(); ++branch) {
            if (branch != chosen && does(branch)) all = joined(all, branches.value(branch));
        }
        return all;
    }
    for (Branch branch = chosen; branch-- > 0 && does(branch);) {
        all = joined(branches.value(branch), all);
    }
    for (Branch branch = chosen + 1; branch < branches.does_not_apply() && does(branch); ++branch) {
        all = joined(all, branches.value(branch));
    }
    return all;
}

}  // namespace

std::vector<Change> Engine::nearest_changes(TableIndex table,
                                            const Observation& observation) const {
    const auto current = decide(table, observation).outcome();
    if (!current) return {};

    const auto found =
        has_diagram(table)
            ? CheapestWays(*this, diagrams_[table].answers.front(), observation).find()
            : single_changes(*this, table, observation);
    std::vector<Change> changes;
    for (const auto& [outcome, facts] : found) {
        if (outcome == *current) continue;
        Observation changed = observation;
        for (const auto& [fact, branch] : facts) changed[fact] = branches_[fact].value(branch);
        Change change{outcome, {}};
        for (const auto& [fact, branch] : facts) {
            const Value to = all_that_do(*this, table, changed, fact, branch, outcome);
            const Value& seen = observation[fact];
            change.facts.push_back(
                {fact, to,
                 seen.is_not_applicable() ? 1.0 : steps_between(model_.facts[fact], seen, to)});
        }
        std::ranges::sort(change.facts, {}, &ChangedFact::fact);
        changes.push_back(std::move(change));
    }
    std::ranges::stable_sort(changes, [](const Change& a, const Change& b) {
        return std::pair{a.facts.size(), a.distance()} < std::pair{b.facts.size(), b.distance()};
    });
    return changes;
}

}  // namespace ashtriage::reason
