#include "reason/diagram.hpp"

#include <algorithm>
#include <unordered_map>

namespace ashtriage::reason {

namespace {

std::vector<Node> nodes_below(const DiagramStore& store, Node root) {
    std::vector<bool> seen(store.size(), false);
    std::vector<Node> found;
    const auto visit = [&](Node node) {
        if (is_leaf(node) || seen[node]) return;
        seen[node] = true;
        found.push_back(node);
    };
    visit(root);
    for (std::size_t next = 0; next < found.size(); ++next) {
        for (const Node branch : store.branches(found[next])) visit(branch);
    }
    std::ranges::stable_sort(found, {}, [&](Node node) { return store.level(node); });
    return found;
}

}  // namespace

Diagram finished(const DiagramStore& store, Node root, const std::vector<FactIndex>& order) {
    const std::vector<Node> nodes = nodes_below(store, root);
    std::unordered_map<Node, Node> renumbered;
    for (const Node node : nodes) renumbered.emplace(node, static_cast<Node>(renumbered.size()));
    const auto in_diagram = [&](Node node) { return is_leaf(node) ? node : renumbered.at(node); };

    Diagram diagram;
    diagram.root = in_diagram(root);
    for (const Node node : nodes) {
        diagram.looks.push_back(
            {order[store.level(node)], static_cast<std::uint32_t>(diagram.leads_to.size())});
        for (const Node branch : store.branches(node)) {
            diagram.leads_to.push_back(in_diagram(branch));
        }
    }
    return diagram;
}

LeafSet leaves_of(const Diagram& diagram, const std::vector<Branches>& branches,
                  const Observation& observation) {
    // As long as each look has one answer there is one way to go.
    Node at = diagram.root;
    while (!is_leaf(at)) {
        const FactIndex fact = diagram.looks[at].fact;
        const auto only = branches[fact].only(observation[fact]);
        if (!only) break;
        at = diagram.next(at, *only);
    }
    if (is_leaf(at)) return LeafSet{1} << leaf_value(at);

    LeafSet leaves = 0;
    std::vector<bool> seen(diagram.looks.size(), false);
    std::vector<Node> to_do{at};
    while (!to_do.empty()) {
        const Node looked_at = to_do.back();
        to_do.pop_back();
        const FactIndex fact = diagram.looks[looked_at].fact;
        branches[fact].for_each(observation[fact], [&](Branch branch) {
            const Node next = diagram.next(looked_at, branch);
            if (is_leaf(next)) {
                leaves |= LeafSet{1} << leaf_value(next);
            } else if (!seen[next]) {
                seen[next] = true;
                to_do.push_back(next);
            }
        });
    }
    return leaves;
}

}  // namespace ashtriage::reason
