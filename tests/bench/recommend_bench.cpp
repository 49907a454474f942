// How long an answer takes: the whole recommendation for a tree that was fully looked at and for
// one of which next to nothing is known, a bare decision, the next question, and reading the rules.
//
// Run the program itself for figures; as a test it only shows that it still runs.
#include <benchmark/benchmark.h>

#include "observe/stem_text.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "triage/interview.hpp"
#include "triage/recommend.hpp"
#include "triage/tables.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage {
namespace {

const triage::Judge& judge() {
    static const triage::Judge built_in(packs::read_rule_set(packs::built_in_rule_files()));
    return built_in;
}

// An invented tree, fully looked at: some dieback, close to what may still be treated.
triage::TreeFacts full_tree() {
    observe::WalkAround seen;
    seen.stems = observe::parse_stems("14 in");
    seen.findings = {{"species", "green_ash"},
                     {"leaves", "in_leaf"},
                     {"standing_dead", "no"},
                     {"canopy_dieback", "25 %"},
                     {"canopy_thinning", "10-20 %"},
                     {"epicormic_shoots", "few"},
                     {"branch_breaks_at_union", "no"},
                     {"hanging_limbs", "no"},
                     {"woodpecker_damage", "light"},
                     {"bark_splits", "few"},
                     {"exit_holes", "2"},
                     {"exit_hole_shape", "d_shaped"},
                     {"exit_hole_place", "upper_crown"},
                     {"galleries_seen", "no"},
                     {"larvae_seen", "no"},
                     {"bark_falling", "no"},
                     {"structure", "sound"},
                     {"stem_crack", "none"},
                     {"cavity", "none"},
                     {"defect_around_stem", "0 %"},
                     {"root_damage", "0 %"},
                     {"base_decay", "no"},
                     {"conks", "no"},
                     {"lean", "2"},
                     {"soil_mounding", "no"},
                     {"tree_height", "42 ft"},
                     {"line_distance", "does not apply"},
                     {"target_use", "occasional"},
                     {"target_distance", "70 ft"},
                     {"owner_value", "high"},
                     {"site_quality", "good"},
                     {"utility_conflict", "no"},
                     {"public_tree", "no"},
                     {"treatment_history", "never"},
                     {"owner_applies", "no"},
                     {"wounds_unwanted", "no"},
                     {"botanical_only", "no"},
                     {"distance_to_water", "200 ft"},
                     {"soil", "loam"},
                     {"flowers_in_root_zone", "no"},
                     {"infestation_distance", "4 miles"},
                     {"in_quarantined_county", "yes"}};
    return triage::tree_facts(judge().rules(), nullptr, seen);
}

// Only the stem was measured.
triage::TreeFacts nearly_unknown_tree() {
    observe::WalkAround seen;
    seen.stems = observe::parse_stems("14 in");
    return triage::tree_facts(judge().rules(), nullptr, seen);
}

void recommend(benchmark::State& state, triage::TreeFacts (*tree)()) {
    const triage::TreeFacts facts = tree();
    while (state.KeepRunning()) benchmark::DoNotOptimize(judge().recommend(facts));
    state.SetItemsProcessed(state.iterations());
}

void decide(benchmark::State& state, triage::TreeFacts (*tree)()) {
    const triage::TreeFacts facts = tree();
    const auto table = *judge().rules().model.find_table(triage::table::recommendation);
    while (state.KeepRunning())
        benchmark::DoNotOptimize(judge().engine().decide(table, facts.values));
    state.SetItemsProcessed(state.iterations());
}

void next_question(benchmark::State& state) {
    const triage::TreeFacts facts = nearly_unknown_tree();
    const triage::Interview interview(judge().rules(), judge().engine(), facts.values, false);
    while (state.KeepRunning()) benchmark::DoNotOptimize(interview.next());
}

void read_rules(benchmark::State& state) {
    const auto files = packs::built_in_rule_files();
    while (state.KeepRunning()) benchmark::DoNotOptimize(packs::read_rule_set(files));
}

BENCHMARK_CAPTURE(recommend, full_tree, full_tree)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(recommend, nearly_unknown_tree, nearly_unknown_tree)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(decide, full_tree, full_tree)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(decide, nearly_unknown_tree, nearly_unknown_tree)->Unit(benchmark::kMicrosecond);
BENCHMARK(next_question)->Unit(benchmark::kMicrosecond);
BENCHMARK(read_rules)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ashtriage

BENCHMARK_MAIN();
