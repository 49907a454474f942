#include "reason/cells.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "reason/visit.hpp"

namespace ashtriage::reason {

namespace {

struct TestsOfFact {
    std::vector<Interval> stretches;  // number facts
    std::vector<LevelSet> sets;       // facts with levels
};

std::vector<TestsOfFact> tests_by_fact(const Model& model) {
    std::vector<TestsOfFact> tests(model.facts.size());
    const auto note = [&](const auto& test) {
        using Test = std::decay_t<decltype(test)>;
        if constexpr (std::is_same_v<Test, NumberTest>) {
            tests[test.fact].stretches.push_back(test.accepted);
        } else if constexpr (std::is_same_v<Test, LevelTest>) {
            tests[test.fact].sets.push_back(test.accepted);
        }
    };
    for_each_condition(model, [&](const Condition& condition) { for_each_test(condition, note); });
    return tests;
}

// A place between two neighbouring numbers: just before or just after `at`.
struct Edge {
    double at = 0.0;
    bool after = false;

    friend bool operator==(const Edge&, const Edge&) = default;
    friend bool operator<(const Edge& a, const Edge& b) {
        return a.at < b.at || (a.at == b.at && !a.after && b.after);
    }
};

Edge lower_edge(const Interval& stretch) {
    return {stretch.low, stretch.low_open};
}
Edge upper_edge(const Interval& stretch) {
    return {stretch.high, !stretch.high_open};
}

// Cuts the range wherever a test begins or ends, and nowhere else.
std::vector<Value> number_cells(const Fact& fact, const std::vector<Interval>& tests) {
    // Of a count, all edges between two neighbouring whole numbers are one.
    const auto edge = [&](Edge each) {
        if (!fact.whole) return each;
        const bool at_next = each.after && each.at == std::floor(each.at);
        return Edge{at_next ? each.at + 1.0 : std::ceil(each.at), false};
    };
    const Edge first = edge(lower_edge(fact.range));
    const Edge last = edge(upper_edge(fact.range));
    std::vector<Edge> edges{last};
    for (const Interval& test : tests) {
        if (test.empty()) continue;
        for (const Edge end : {edge(lower_edge(test)), edge(upper_edge(test))}) {
            if (first < end && end < last) edges.push_back(end);
        }
    }
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());

    std::vector<Value> cells;
    Edge start = first;
    for (const Edge end : edges) {
        cells.push_back(Value::range(fact.whole
                                         ? Interval::closed(start.at, end.at - 1.0)
                                         : Interval{start.at, end.at, start.after, !end.after}));
        start = end;
    }
    return cells;
}

std::vector<Value> level_cells(std::size_t count, const std::vector<LevelSet>& tests) {
    std::vector<LevelSet> groups{all_levels(count)};
    for (const LevelSet test : tests) {
        std::vector<LevelSet> finer;
        for (const LevelSet group : groups) {
            if ((group & test) != 0) finer.push_back(group & test);
            if ((group & ~test) != 0) finer.push_back(group & ~test);
        }
        groups = std::move(finer);
    }
    // By lowest level, so that the cells of an ordered fact rise.
    std::ranges::sort(groups, {}, [](LevelSet group) { return group & (~group + 1); });

    std::vector<Value> cells;
    for (const LevelSet group : groups) cells.push_back(Value::levels(group));
    return cells;
}

std::optional<Value> common_part(const Value& value, const Value& cell) {
    if (const Interval* stretch = value.interval()) {
        if (const auto shared = intersection(*stretch, *cell.interval())) {
            return Value::range(*shared);
        }
        return std::nullopt;
    }
    const LevelSet shared = *value.level_set() & *cell.level_set();
    if (shared == 0) return std::nullopt;
    return Value::levels(shared);
}

}  // namespace

std::vector<std::vector<Value>> elementary_cells(const Model& model) {
    const std::vector<TestsOfFact> tests = tests_by_fact(model);
    std::vector<std::vector<Value>> cells;
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        const Fact& described = model.facts[fact];
        cells.push_back(described.kind == FactKind::number
                            ? number_cells(described, tests[fact].stretches)
                            : level_cells(described.levels.size(), tests[fact].sets));
    }
    return cells;
}

std::vector<Value> split(const Value& value, const std::vector<Value>& cells) {
    if (value.is_not_applicable()) return {value};
    if (value.is_unknown()) return cells;
    std::vector<Value> parts;
    for (const Value& cell : cells) {
        if (const auto part = common_part(value, cell)) parts.push_back(*part);
    }
    return parts;
}

}  // namespace ashtriage::reason
