// How many questions a walk-around takes, on random trees of which every answer is at hand: until
// the recommendation is decided, and until nothing asked could change anything any more.
//
// The environment variable TREES says how many trees, 100 if it is not set.
//
// Three orders are held against each other: every question that applies, as the rule set lists
// them; the same without those that can no longer matter; and the best question next.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <utility>

#include "packs/applicability.hpp"
#include "random_trees.hpp"
#include "reason/three_valued.hpp"
#include "triage/best_questions.hpp"
#include "triage/interview.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {
namespace {

const Judge& judge() {
    static const Judge made(packs::read_rule_set(packs::built_in_rule_files()));
    return made;
}

enum class Order { listed, listed_without_idle, best_first };

struct Tree {
    std::map<std::string, std::string> answers;
    reason::Observation known;  // what the stems tell
};

// A tree of any kind, dead or alive; or an ash that lives and is in leaf, of which there is more to
// find out.
enum class Kind { any, living_ash };

Tree random_tree(RandomTrees& random, Kind kind) {
    Tree tree;
    const Entries living_ash{
        {"species", "green_ash"}, {"standing_dead", "no"}, {"leaves", "in_leaf"}};
    for (const observe::Finding& finding :
         random.findings(kind == Kind::any ? Entries{} : living_ash)) {
        tree.answers[finding.fact] = finding.value;
    }
    tree.known = tree_facts(judge().rules(), nullptr, walked({}, random.stems())).values;
    return tree;
}

// The recommendation alone: how many questions until it is decided.
int questions_until_decided(const Tree& tree, Order order) {
    const packs::RuleSet& rules = judge().rules();
    const reason::Engine& engine = judge().engine();
    const auto table = *rules.model.find_table(table::recommendation);
    reason::Observation values = tree.known;
    std::vector<bool> asked(rules.facts.size(), false);
    int count = 0;
    while (!engine.decide(table, values).decided()) {
        std::vector<reason::FactIndex> candidates;
        const auto add = [&](reason::FactIndex fact) {
            const bool can_be_asked =
                rules.facts[fact].asked && !asked[fact] && values[fact].is_unknown() &&
                reason::applies(fact, rules.model, values) == reason::Truth::yes;
            if (can_be_asked) candidates.push_back(fact);
        };
        if (order == Order::listed) {
            for (reason::FactIndex fact = 0; fact < rules.facts.size(); ++fact) add(fact);
        } else {
            std::vector<reason::FactIndex> mattering =
                order == Order::best_first ? best_questions(rules, engine, table, values)
                                           : engine.can_matter(table, values);
            for (const reason::FactIndex fact : mattering) {
                for (const auto entered : rules.facts[fact].worked_out_from) add(entered);
                add(fact);
            }
        }
        if (candidates.empty()) break;
        const reason::FactIndex fact = candidates.front();
        asked[fact] = true;
        ++count;
        const auto answer = tree.answers.find(rules.model.facts[fact].name);
        if (answer != tree.answers.end()) {
            values[fact] =
                packs::parse_value(rules.model.facts[fact], rules.facts[fact], answer->second);
        }
        work_out(rules, values);
        values = packs::with_applicability(rules, std::move(values));
    }
    return count;
}

void until_decided(benchmark::State& state, Order order, Kind kind) {
    RandomTrees random(judge().rules(), 10);
    double questions = 0;
    while (state.KeepRunning())
        questions += questions_until_decided(random_tree(random, kind), order);
    state.counters["questions"] = benchmark::Counter(questions, benchmark::Counter::kAvgIterations);
}

// The whole walk-around: flags, recommendation, evidence and method.
void whole_interview(benchmark::State& state, Kind kind) {
    RandomTrees random(judge().rules(), 10);
    double questions = 0;
    double that_apply = 0;
    while (state.KeepRunning()) {
        const Tree tree = random_tree(random, kind);
        Interview interview(judge().rules(), judge().engine(), tree.known, false);
        while (const auto fact = interview.next()) {
            const auto answer = tree.answers.find(judge().rules().model.facts[*fact].name);
            interview.answer(*fact,
                             answer == tree.answers.end() ? "could not see" : answer->second);
        }
        questions += static_cast<double>(interview.answered());
        that_apply += static_cast<double>(tree.answers.size());
    }
    state.counters["questions"] = benchmark::Counter(questions, benchmark::Counter::kAvgIterations);
    state.counters["that_apply"] =
        benchmark::Counter(that_apply, benchmark::Counter::kAvgIterations);
}

benchmark::IterationCount trees() {
    const char* wanted = std::getenv("TREES");
    return wanted == nullptr ? 100 : std::max(1, std::atoi(wanted));
}

void register_all() {
    const std::pair<std::string, Order> orders[] = {
        {"as_listed", Order::listed},
        {"as_listed_without_idle_ones", Order::listed_without_idle},
        {"best_first", Order::best_first}};
    const std::pair<std::string, Kind> kinds[] = {{"any_tree", Kind::any},
                                                  {"living_ash", Kind::living_ash}};
    for (const auto& [whose, kind] : kinds) {
        for (const auto& [name, order] : orders) {
            const std::string title = "until_decided/" + whose + "/" + name;
            benchmark::RegisterBenchmark(title.c_str(), until_decided, order, kind)
                ->Iterations(trees());
        }
        const std::string title = "whole_interview/" + whose;
        benchmark::RegisterBenchmark(title.c_str(), whole_interview, kind)->Iterations(trees());
    }
}

}  // namespace
}  // namespace ashtriage::triage

int main(int argc, char** argv) {
    ashtriage::triage::register_all();
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
}
