#include "reason/diagram.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <optional>
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

namespace {

// Which looks of a diagram have been come to. Looks are gone through in their order, in which none
// comes before one that leads to it. Diagrams of ordinary size need no memory from the heap.
class Reached {
 public:
    explicit Reached(std::size_t looks) {
        if (looks <= here_.size() * bits_per_word) return;
        elsewhere_.resize(looks / bits_per_word + 1);
        words_ = elsewhere_;
    }

    void add(Node look) {
        words_[look / bits_per_word] |= std::uint64_t{1} << look % bits_per_word;
    }

    // Calls `action`, which may add later looks, with each look added.
    template <typename Action>
    void for_each(Node first, Action&& action) {
        for (std::size_t word = first / bits_per_word; word < words_.size(); ++word) {
            while (words_[word] != 0) {
                const auto bit = static_cast<Node>(std::countr_zero(words_[word]));
                words_[word] &= words_[word] - 1;
                action(static_cast<Node>(word * bits_per_word) + bit);
            }
        }
    }

 private:
    static constexpr std::size_t bits_per_word = 64;
    std::array<std::uint64_t, 16> here_{};
    std::vector<std::uint64_t> elsewhere_;
    std::span<std::uint64_t> words_ = here_;
};

// Where the one way on from `at` ends along which every look has one answer: at a leaf, or at a
// look that has several.
template <typename LookedAt>
Node end_of_the_one_way(Node at, const Diagram& diagram, const std::vector<Branches>& branches,
                        const Observation& observation, LookedAt&& looked_at) {
    while (!is_leaf(at)) {
        const FactIndex fact = diagram.looks[at].fact;
        const auto only = branches[fact].only(observation[fact]);
        if (!only) break;
        looked_at(fact);
        at = diagram.next(at, *only);
    }
    return at;
}

template <typename LookedAt>
LeafSet leaves_below(Node top, const Diagram& diagram, const std::vector<Branches>& branches,
                     const Observation& observation, LookedAt&& looked_at) {
    LeafSet leaves = 0;
    Reached reached(diagram.looks.size());
    reached.add(top);
    reached.for_each(top, [&](Node look) {
        const FactIndex fact = diagram.looks[look].fact;
        looked_at(fact);
        branches[fact].for_each(observation[fact], [&](Branch branch) {
            const Node next = diagram.next(look, branch);
            if (is_leaf(next)) {
                leaves |= LeafSet{1} << leaf_value(next);
            } else {
                reached.add(next);
            }
        });
    });
    return leaves;
}

template <typename LookedAt>
[[gnu::noinline]] LeafSet walk_on(Node at, const Diagram& diagram,
                                  const std::vector<Branches>& branches,
                                  const Observation& observation, LookedAt&& looked_at) {
    const Node end = end_of_the_one_way(at, diagram, branches, observation, looked_at);
    if (is_leaf(end)) return LeafSet{1} << leaf_value(end);
    return leaves_below(end, diagram, branches, observation, looked_at);
}

// As long as values are exact the walk is a short loop that needs nothing else; the rest is kept
// out of it, which makes it a fifth faster.
template <typename LookedAt>
LeafSet walk(const Diagram& diagram, const std::vector<Branches>& branches,
             const Observation& observation, LookedAt&& looked_at) {
    Node at = diagram.root;
    while (!is_leaf(at)) {
        const FactIndex fact = diagram.looks[at].fact;
        const auto exact = branches[fact].of_exact(observation[fact]);
        if (!exact) return walk_on(at, diagram, branches, observation, looked_at);
        looked_at(fact);
        at = diagram.next(at, *exact);
    }
    return LeafSet{1} << leaf_value(at);
}

}  // namespace

LeafSet leaves_of(const Diagram& diagram, const std::vector<Branches>& branches,
                  const Observation& observation) {
    return walk(diagram, branches, observation, [](FactIndex) {});
}

bool comes_only_to(std::uint32_t leaf, const Diagram& diagram,
                   const std::vector<Branches>& branches,
                   std::span<const std::optional<Branch>> cut, const std::vector<bool>& left_out) {
    // Where one branch is known there is one way to go; only elsewhere the ways part.
    const auto where_ways_part = [&](Node at) {
        while (!is_leaf(at)) {
            const FactIndex fact = diagram.looks[at].fact;
            if (left_out[fact] || !cut[fact]) break;
            at = diagram.next(at, *cut[fact]);
        }
        return at;
    };
    const Node top = where_ways_part(diagram.root);
    if (is_leaf(top)) return leaf_value(top) == leaf;
    bool only = true;
    Reached reached(diagram.looks.size());
    reached.add(top);
    reached.for_each(top, [&](Node look) {
        const FactIndex fact = diagram.looks[look].fact;
        const Branch cells = branches[fact].does_not_apply();
        Node neighbour = diagram.root;  // no look leads to the root
        for (Branch branch = 0; only && branch < cells; ++branch) {
            if (diagram.next(look, branch) == neighbour) continue;
            neighbour = diagram.next(look, branch);
            const Node next = where_ways_part(neighbour);
            if (!is_leaf(next)) {
                reached.add(next);
            } else if (leaf_value(next) != leaf) {
                only = false;
            }
        }
    });
    return only;
}

void mark_facts_looked_at(const Diagram& diagram, const std::vector<Branches>& branches,
                          const Observation& observation, std::vector<bool>& marks) {
    walk(diagram, branches, observation, [&](FactIndex fact) { marks[fact] = true; });
}

}  // namespace ashtriage::reason
