#include "reason/cells.hpp"

#include <algorithm>
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

bool told_apart(const Interval& a, const Interval& b, const std::vector<Interval>& tests) {
    return std::ranges::any_of(
        tests, [&](const Interval& test) { return test.contains(a) != test.contains(b); });
}

// Cuts the range at every threshold into points and the open stretches between them, then joins
// neighbours that no test tells apart.
std::vector<Value> number_cells(const Interval& range, const std::vector<Interval>& tests) {
    std::vector<double> cuts{range.low, range.high};
    for (const Interval& test : tests) {
        for (const double end : {test.low, test.high}) {
            if (range.contains(end)) cuts.push_back(end);
        }
    }
    std::ranges::sort(cuts);
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());

    std::vector<Interval> pieces;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        if (i > 0) pieces.push_back({cuts[i - 1], cuts[i], true, true});
        if (range.contains(cuts[i])) pieces.push_back(Interval::point(cuts[i]));
    }

    std::vector<Interval> joined;
    for (const Interval& piece : pieces) {
        if (!joined.empty() && !told_apart(joined.back(), piece, tests)) {
            joined.back().high = piece.high;
            joined.back().high_open = piece.high_open;
        } else {
            joined.push_back(piece);
        }
    }

    std::vector<Value> cells;
    for (const Interval& piece : joined) cells.push_back(Value::range(piece));
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
                            ? number_cells(described.range, tests[fact].stretches)
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
