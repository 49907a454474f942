// How fast the compiled rules answer: trees of which everything is known, from ordinary values and
// from branches looked up beforehand, with and without full reasons.
//
// Full reasons are the outcome, a least set of observations that forces it, and the verdict on
// every rule and each of its conditions; putting them into words is not included.
#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "reason/engine.hpp"
#include "triage/tables.hpp"

namespace ashtriage {
namespace {

constexpr std::size_t tree_count = 4096;

const packs::RuleSet& rules() {
    static const packs::RuleSet read = packs::read_rule_set(packs::built_in_rule_files());
    return read;
}

const reason::Engine& engine() {
    static const reason::Engine compiled(rules().model);
    return compiled;
}

reason::TableIndex table(std::string_view name) {
    return *rules().model.find_table(name);
}

// Every value drawn at random; three in four are alive and in leaf, so that not all end early.
std::vector<reason::Observation> random_trees() {
    std::mt19937 random(20260518);
    const reason::Model& model = rules().model;
    std::vector<reason::Observation> trees;
    for (std::size_t i = 0; i < tree_count; ++i) {
        reason::Observation tree;
        for (const reason::Fact& fact : model.facts) {
            if (fact.kind == reason::FactKind::number) {
                const double share = static_cast<double>(random() % 1001) / 1000.0;
                const double span = fact.range.high - fact.range.low;
                tree.push_back(reason::Value::number(fact.range.low + std::round(share * span)));
            } else {
                tree.push_back(reason::Value::level(random() % fact.levels.size()));
            }
        }
        if (random() % 4 != 0) {
            tree[*model.find_fact("standing_dead")] = reason::Value::no();
            tree[*model.find_fact("leaves")] = reason::Value::level(0);
        }
        trees.push_back(std::move(tree));
    }
    return trees;
}

const std::vector<reason::Observation>& trees() {
    static const std::vector<reason::Observation> made = random_trees();
    return made;
}

template <typename Answer>
void for_each_tree(benchmark::State& state, Answer&& answer) {
    std::size_t next = 0;
    while (state.KeepRunning()) {
        benchmark::DoNotOptimize(answer(next));
        next = (next + 1) % tree_count;
    }
    state.SetItemsProcessed(state.iterations());
}

void decide_from_values(benchmark::State& state) {
    const auto recommendation = table(triage::table::recommendation);
    for_each_tree(state,
                  [&](std::size_t i) { return engine().decide(recommendation, trees()[i]); });
}

void decide_from_branches(benchmark::State& state) {
    const auto recommendation = table(triage::table::recommendation);
    std::vector<reason::CutObservation> cut;
    for (const reason::Observation& tree : trees()) cut.push_back(engine().cut(tree));
    for_each_tree(state, [&](std::size_t i) { return engine().decide(recommendation, cut[i]); });
}

void decide_with_full_reasons(benchmark::State& state) {
    const auto recommendation = table(triage::table::recommendation);
    for_each_tree(state, [&](std::size_t i) {
        const auto outcomes = engine().decide(recommendation, trees()[i]);
        auto forced_by = engine().sufficient_facts(recommendation, trees()[i]);
        auto traces = engine().explain(recommendation, trees()[i]);
        benchmark::DoNotOptimize(forced_by);
        benchmark::DoNotOptimize(traces);
        return outcomes;
    });
}

void decide_by_the_slow_path(benchmark::State& state) {
    static const reason::Engine slow(rules().model, 0);
    const auto recommendation = table(triage::table::recommendation);
    for_each_tree(state, [&](std::size_t i) { return slow.decide(recommendation, trees()[i]); });
}

void collect_hazard_flags(benchmark::State& state) {
    const auto hazard = table(triage::table::hazard);
    for_each_tree(state, [&](std::size_t i) { return engine().collect(hazard, trees()[i]); });
}

void find_what_would_change_it(benchmark::State& state) {
    const auto recommendation = table(triage::table::recommendation);
    for_each_tree(
        state, [&](std::size_t i) { return engine().nearest_changes(recommendation, trees()[i]); });
}

void compile(benchmark::State& state) {
    while (state.KeepRunning()) {
        const reason::Engine compiled(rules().model);
        benchmark::DoNotOptimize(compiled.facts_in_order().size());
    }
}

BENCHMARK(decide_from_values);
BENCHMARK(decide_from_branches);
BENCHMARK(decide_with_full_reasons);
BENCHMARK(decide_by_the_slow_path);
BENCHMARK(collect_hazard_flags);
BENCHMARK(find_what_would_change_it);
BENCHMARK(compile)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ashtriage

BENCHMARK_MAIN();
