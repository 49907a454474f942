// Ten rules and random trees, judged by the program, for comparison with other rule libraries:
//
//     peers export COUNT    the rules, the trees and the program's answers, as JSON
//     peers speed COUNT     how many of these trees are judged in a second, as JSON
#include <algorithm>
#include <chrono>
#include <exception>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "exported.hpp"
#include "measure/number.hpp"
#include "packs/read_rule_set.hpp"
#include "random_trees.hpp"
#include "reason/engine.hpp"

namespace ashtriage::peers {

namespace {

using nlohmann::json;

constexpr std::uint64_t seed = 1;
constexpr std::size_t rounds = 9;
constexpr std::chrono::milliseconds least_round{100};

std::vector<packs::RuleFile> rule_files() {
    std::vector<packs::RuleFile> files;
    for (const std::string name : {"peers.yaml", "sources.yaml"}) {
        std::ifstream stream(ASHTRIAGE_PEERS_RULES "/" + name, std::ios::binary);
        files.push_back({name, {std::istreambuf_iterator<char>(stream), {}}, {}});
    }
    return files;
}

struct Comparison {
    reason::Engine engine;
    reason::TableIndex table = 0;
    std::vector<reason::Observation> trees;

    explicit Comparison(std::size_t count)
        : engine(packs::read_rule_set(rule_files()).model),
          trees(random_trees(engine.model(), count, seed)) {}
};

json exported(const Comparison& comparison) {
    const reason::Model& model = comparison.engine.model();
    const reason::Table& table = model.tables[comparison.table];
    json trees = json::array();
    json answers = json::array();
    for (const reason::Observation& tree : comparison.trees) {
        trees.push_back(tree_json(model, tree));
        const auto outcome = comparison.engine.decide(comparison.table, tree).outcome();
        if (!outcome) throw std::logic_error("a tree that is wholly known is not decided");
        answers.push_back(table.gives[*outcome]);
    }
    return {{"rules", rules_engine_rules(model, table)},
            {"logic", logic(model, table)},
            {"trees", std::move(trees)},
            {"answers", std::move(answers)}};
}

// The median of several rounds, each long enough to be timed. `judge` returns something that
// depends on every answer, so that none is left out.
template <class Judge>
double trees_per_second(std::size_t trees, Judge&& judge) {
    using Clock = std::chrono::steady_clock;
    std::vector<double> speeds;
    std::size_t sum = 0;
    for (std::size_t round = 0; round < rounds; ++round) {
        std::size_t judged = 0;
        const auto start = Clock::now();
        while (Clock::now() - start < least_round) {
            sum += judge();
            judged += trees;
        }
        const std::chrono::duration<double> taken = Clock::now() - start;
        speeds.push_back(static_cast<double>(judged) / taken.count());
    }
    if (sum == 0) throw std::logic_error("nothing was decided");
    std::nth_element(speeds.begin(), speeds.begin() + rounds / 2, speeds.end());
    return speeds[rounds / 2];
}

json speeds(const Comparison& comparison) {
    const reason::Engine& engine = comparison.engine;
    const auto decide = [&] {
        std::size_t sum = 0;
        for (const reason::Observation& tree : comparison.trees) {
            sum += engine.decide(comparison.table, tree).possible;
        }
        return sum;
    };
    std::vector<reason::CutObservation> cuts;
    for (const reason::Observation& tree : comparison.trees) cuts.push_back(engine.cut(tree));
    const auto decide_cut = [&] {
        std::size_t sum = 0;
        for (const reason::CutObservation& cut : cuts) {
            sum += 1 + engine.decide(comparison.table, cut).value();
        }
        return sum;
    };
    return {{"decide", trees_per_second(comparison.trees.size(), decide)},
            {"decide_cut", trees_per_second(comparison.trees.size(), decide_cut)}};
}

int run(const std::vector<std::string>& words) {
    if (words.size() != 2 || (words[0] != "export" && words[0] != "speed")) {
        std::cerr << "usage: peers export|speed COUNT\n";
        return 2;
    }
    const Comparison comparison(static_cast<std::size_t>(measure::require_number(words[1])));
    std::cout << (words[0] == "export" ? exported(comparison) : speeds(comparison)) << '\n';
    return 0;
}

}  // namespace

}  // namespace ashtriage::peers

int main(int count, char** words) {
    try {
        return ashtriage::peers::run(std::vector<std::string>(words + 1, words + count));
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
