// How long it takes to check rules: those shipped, and random ones of 1,000 rules over 8 facts,
// both scattered boxes and the leaves of a tree of decisions of which some were widened or
// narrowed.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "prove/box_check.hpp"
#include "prove/check.hpp"

namespace ashtriage {
namespace {

using reason::Condition;
using reason::Interval;

constexpr int rule_count = 1000;
constexpr int fact_count = 8;
constexpr double top = 1000.0;

using Sides = std::vector<Interval>;

reason::Model model_of(const std::vector<Sides>& boxes) {
    reason::Model model;
    for (int fact = 0; fact < fact_count; ++fact) {
        reason::Fact made;
        made.name = "f" + std::to_string(fact);
        made.kind = reason::FactKind::number;
        made.range = Interval::closed(0, top);
        model.facts.push_back(made);
    }
    reason::Table table;
    table.name = "boxes";
    table.gives = {"a", "b"};
    table.hit_policy = reason::HitPolicy::unique;
    for (const Sides& sides : boxes) {
        std::vector<Condition> tests;
        for (std::size_t fact = 0; fact < sides.size(); ++fact) {
            tests.push_back(Condition::number(fact, sides[fact]));
        }
        table.rules.push_back({"r" + std::to_string(table.rules.size()),
                               Condition::all(std::move(tests)), table.rules.size() % 2});
    }
    model.tables = {table};
    return model;
}

reason::Model scattered_boxes() {
    std::mt19937 random(1);
    std::vector<Sides> boxes(rule_count, Sides(fact_count));
    for (Sides& sides : boxes) {
        for (Interval& side : sides) {
            const double low = static_cast<double>(random() % 700);
            side = Interval::closed(low, low + static_cast<double>(random() % 300));
        }
    }
    return model_of(boxes);
}

reason::Model changed_leaves(bool widened) {
    std::mt19937 random(2);
    std::vector<Sides> leaves{Sides(fact_count, Interval::closed(0, top))};
    while (leaves.size() < rule_count) {
        Sides& leaf = leaves[random() % leaves.size()];
        Interval& side = leaf[random() % fact_count];
        if (side.high - side.low < 2) continue;
        const double cut = std::floor((side.low + side.high) / 2);
        const Interval upper{cut, side.high, true, side.high_open};
        side = {side.low, cut, side.low_open, false};
        Sides other = leaf;
        other[static_cast<std::size_t>(&side - leaf.data())] = upper;
        leaves.push_back(std::move(other));
    }
    for (std::size_t i = 0; i < leaves.size(); i += 10) {
        Interval& side = leaves[i][random() % fact_count];
        const double tenth = (side.high - side.low) / 10;
        side = widened ? Interval::closed(std::max(0.0, side.low - tenth),
                                          std::min(top, side.high + tenth))
                       : Interval{side.low + tenth, side.high - tenth, true, false};
    }
    return model_of(leaves);
}

void check_shipped_rules(benchmark::State& state, const char* preset) {
    const auto rules = packs::read_rule_set(packs::built_in_rule_files(), preset);
    while (state.KeepRunning()) benchmark::DoNotOptimize(prove::check(rules.model));
}

struct Boxes {
    reason::Model model;
    std::vector<reason::Branches> branches;
    prove::BoxTable table;

    explicit Boxes(reason::Model made)
        : model(std::move(made)),
          branches(reason::branches_of(model, reason::DoesNotApply::where_it_can_be)),
          table(prove::BoxTable::of(model, branches, 0).value()) {}
};

void find_overlaps(benchmark::State& state, reason::Model (*model)()) {
    const Boxes boxes(model());
    double found = 0;
    while (state.KeepRunning()) {
        prove::TableCheck check;
        boxes.table.find_overlaps(check, prove::CheckLimits{}.most_examples);
        found = static_cast<double>(check.overlap_count);
    }
    state.counters["overlaps"] = found;
}

void find_gaps(benchmark::State& state, reason::Model (*model)()) {
    const Boxes boxes(model());
    const prove::CheckLimits limits;
    double found = 0;
    double finished = 0;
    while (state.KeepRunning()) {
        prove::TableCheck check;
        boxes.table.find_gaps(check, limits.search_steps, limits.most_examples);
        found = static_cast<double>(check.gaps.size());
        finished = check.gaps_analysed ? 1 : 0;
    }
    state.counters["gaps"] = found;
    state.counters["all_looked_into"] = finished;
}

void check_whole(benchmark::State& state, reason::Model (*model)()) {
    const reason::Model made = model();
    while (state.KeepRunning()) benchmark::DoNotOptimize(prove::check(made));
}

reason::Model widened_leaves() {
    return changed_leaves(true);
}
reason::Model narrowed_leaves() {
    return changed_leaves(false);
}

BENCHMARK_CAPTURE(check_shipped_rules, own_settings, "")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check_shipped_rules, strict, "strict")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check_shipped_rules, public_trees, "public_trees")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_overlaps, scattered, scattered_boxes)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_overlaps, widened_leaves, widened_leaves)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_gaps, scattered, scattered_boxes)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_gaps, widened_leaves, widened_leaves)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_gaps, narrowed_leaves, narrowed_leaves)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check_whole, scattered, scattered_boxes)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check_whole, narrowed_leaves, narrowed_leaves)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ashtriage

BENCHMARK_MAIN();
