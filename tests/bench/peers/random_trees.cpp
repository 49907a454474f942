#include "random_trees.hpp"

#include <random>

namespace ashtriage::peers {

namespace {

reason::Value random_value(const reason::Fact& fact, std::mt19937_64& random) {
    if (fact.kind != reason::FactKind::number) {
        return reason::Value::level(random() % fact.levels.size());
    }
    const auto steps = static_cast<std::uint64_t>(fact.range.high - fact.range.low) + 1;
    return reason::Value::number(fact.range.low + static_cast<double>(random() % steps));
}

}  // namespace

std::vector<reason::Observation> random_trees(const reason::Model& model, std::size_t count,
                                              std::uint64_t seed) {
    // What std::mt19937_64 gives is laid down by the C++ standard; its distributions are not.
    std::mt19937_64 random(seed);
    std::vector<reason::Observation> trees(count);
    for (reason::Observation& tree : trees) {
        for (const reason::Fact& fact : model.facts) tree.push_back(random_value(fact, random));
    }
    return trees;
}

}  // namespace ashtriage::peers
