#include "reason/restricted.hpp"

#include <algorithm>
#include <bit>
#include <limits>

namespace ashtriage::reason {

namespace {

constexpr Node not_done = std::numeric_limits<Node>::max();
constexpr Level no_level = std::numeric_limits<Level>::max();

std::vector<std::uint32_t> branch_counts(const Engine& engine) {
    std::vector<std::uint32_t> counts;
    for (const FactIndex fact : engine.facts_in_order()) {
        counts.push_back(engine.branches()[fact].count());
    }
    return counts;
}

}  // namespace

Restricted::Restricted(const Engine& engine, TableIndex table, const Observation& observation)
    : order_(engine.facts_in_order()),
      level_of_(observation.size(), 0),
      left_(observation.size()),
      store_(branch_counts(engine)) {
    for (Level level = 0; level < order_.size(); ++level) level_of_[order_[level]] = level;
    for (const FactIndex fact : engine.facts_behind(table)) {
        engine.branches()[fact].for_each(observation[fact],
                                         [&](Branch branch) { left_[fact].push_back(branch); });
    }
    for (const Diagram& diagram : engine.diagrams(table).answers) {
        std::vector<Node> done(diagram.looks.size(), not_done);
        roots_.push_back(restrict(diagram, diagram.root, done));
    }
}

Node Restricted::restrict(const Diagram& diagram, Node at, std::vector<Node>& done) {
    if (is_leaf(at)) return at;
    if (done[at] != not_done) return done[at];
    const FactIndex fact = diagram.looks[at].fact;
    const std::vector<Branch>& left = left_[fact];
    const Node first = restrict(diagram, diagram.next(at, left.front()), done);
    // Branches that cannot be taken lead where the first leads, so that they tell nothing apart.
    std::vector<Node> wanted(store_.branch_count(level_of_[fact]), first);
    for (std::size_t i = 1; i < left.size(); ++i) {
        wanted[left[i]] = restrict(diagram, diagram.next(at, left[i]), done);
    }
    done[at] = store_.node(level_of_[fact], wanted);
    return done[at];
}

std::vector<FactIndex> Restricted::facts() const {
    // Every node made is part of some root: a node is made only to be led to.
    std::vector<bool> seen(order_.size(), false);
    for (Node node = 0; node < store_.size(); ++node) seen[store_.level(node)] = true;
    std::vector<FactIndex> facts;
    for (Level level = 0; level < order_.size(); ++level) {
        if (seen[level]) facts.push_back(order_[level]);
    }
    return facts;
}

LeafSet Restricted::leaves_if(Node root, Level level, Branch branch) const {
    LeafSet leaves = 0;
    std::vector<bool> seen(store_.size(), false);
    std::vector<Node> to_do{root};
    while (!to_do.empty()) {
        const Node node = to_do.back();
        to_do.pop_back();
        if (is_leaf(node)) {
            leaves |= LeafSet{1} << leaf_value(node);
            continue;
        }
        if (seen[node]) continue;
        seen[node] = true;
        const auto branches = store_.branches(node);
        if (store_.level(node) == level) {
            to_do.push_back(branches[branch]);
        } else {
            to_do.insert(to_do.end(), branches.begin(), branches.end());
        }
    }
    return leaves;
}

std::size_t Restricted::count_open(Level level, Branch branch) const {
    std::size_t open = 0;
    for (const Node root : roots_) {
        open += static_cast<std::size_t>(std::popcount(leaves_if(root, level, branch))) - 1;
    }
    return open;
}

std::size_t Restricted::open_answers() const {
    return count_open(no_level, 0);
}

std::size_t Restricted::open_answers_if(FactIndex fact, Branch branch) const {
    return count_open(level_of_[fact], branch);
}

std::size_t Restricted::open_facts_if(FactIndex fact, Branch branch) const {
    const Level fixed = level_of_[fact];
    std::vector<bool> matters(order_.size(), false);
    // Below the fixed level nothing changes, and above it a node that only led to one thing through
    // the fixed branch falls away; so the rest is built anew.
    DiagramStore rest = store_;
    std::vector<Node> done(store_.size(), not_done);
    const auto rebuild = [&](auto&& self, Node node) -> Node {
        if (is_leaf(node)) return node;
        if (done[node] != not_done) return done[node];
        const Level level = store_.level(node);
        if (level > fixed) return done[node] = node;
        if (level == fixed) return done[node] = store_.branches(node)[branch];
        std::vector<Node> wanted;
        for (const Node next : store_.branches(node)) wanted.push_back(self(self, next));
        return done[node] = rest.node(level, wanted);
    };
    std::vector<bool> seen;
    std::vector<Node> to_do;
    for (const Node root : roots_) to_do.push_back(rebuild(rebuild, root));
    seen.resize(rest.size(), false);
    while (!to_do.empty()) {
        const Node node = to_do.back();
        to_do.pop_back();
        if (is_leaf(node) || seen[node]) continue;
        seen[node] = true;
        matters[rest.level(node)] = true;
        const auto branches = rest.branches(node);
        to_do.insert(to_do.end(), branches.begin(), branches.end());
    }
    return static_cast<std::size_t>(std::ranges::count(matters, true));
}

}  // namespace ashtriage::reason
