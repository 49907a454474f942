// Building decision diagrams: reduced, ordered, multi-valued, every equal part held once, so that
// two diagrams are equal exactly when they are the same node (Bryant 1986; Srinivasan, Ham, Malik
// and Brayton 1990).
//
// A store knows levels and branches, not facts: level 0 is looked at first, and each level has its
// own number of branches. Leaves carry a small number whose meaning is the caller's.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <stdexcept>
#include <vector>

namespace ashtriage::reason {

using Node = std::uint32_t;
using Level = std::uint32_t;

// The highest bit tells leaves from nodes.
inline constexpr Node leaf_bit = 0x80000000U;

constexpr Node leaf(std::uint32_t value) {
    return leaf_bit | value;
}
constexpr bool is_leaf(Node node) {
    return (node & leaf_bit) != 0;
}
constexpr std::uint32_t leaf_value(Node node) {
    return node & ~leaf_bit;
}

// Leaves of diagrams that answer yes or no.
inline constexpr Node no_leaf = leaf(0);
inline constexpr Node yes_leaf = leaf(1);

// Working a diagram out has gone past what was allowed. Whoever compiles catches it and says so.
class DiagramTooLarge : public std::runtime_error {
 public:
    DiagramTooLarge() : std::runtime_error("the diagram has grown past its budget") {}
};

class DiagramStore {
 public:
    // The number of branches of each level, top to bottom.
    explicit DiagramStore(std::vector<std::uint32_t> branch_counts);

    // How many branches one store may work out in all, whatever its users allow themselves: some
    // seconds and a few hundred MiB, however many tables a rule set has.
    static constexpr std::size_t most_in_all = std::size_t{1} << 25U;

    // Allows `more` branches to be worked out from here on, as far as `most_in_all` goes; what goes
    // past them throws DiagramTooLarge. Without a call nothing is limited.
    void allow(std::size_t more);

    // The node with these branches, one for each of the level; the branch itself when all are one.
    Node node(Level level, std::span<const Node> branches);
    // yes on the branches for which `accepted` is true, no on the others.
    Node test(Level level, const std::vector<bool>& accepted);

    Level level(Node node) const {
        return is_leaf(node) ? static_cast<Level>(branch_counts_.size()) : nodes_[node].level;
    }
    std::span<const Node> branches(Node node) const {
        return {branches_.data() + nodes_[node].first, branch_counts_[nodes_[node].level]};
    }
    // The branch taken at `level`: the node itself when it does not look there.
    Node branch(Node node, Level at, std::uint32_t taken) const {
        return level(node) == at ? branches(node)[taken] : node;
    }
    std::uint32_t branch_count(Level level) const { return branch_counts_[level]; }
    std::size_t level_count() const { return branch_counts_.size(); }
    std::size_t size() const { return nodes_.size(); }

    // What `known` says of a pair of nodes, carried through both diagrams together: `known` must
    // have an answer for two leaves, and may have one earlier.
    using Known = std::function<std::optional<Node>(Node, Node)>;
    Node combine(Node a, Node b, const Known& known);
    // The diagram with every leaf replaced.
    Node with_leaves(Node node, const std::function<Node(std::uint32_t)>& replaced);

    // For diagrams that answer yes or no.
    Node both(Node a, Node b);
    Node either(Node a, Node b);
    Node negated(Node a);
    Node without(Node a, Node b) { return both(a, negated(b)); }
    // `then` where `condition` says yes, `otherwise` elsewhere; any leaves.
    Node choose(Node condition, Node then, Node otherwise);

 private:
    struct Stored {
        Level level;
        std::size_t first;
    };
    class PairMemo;

    Node combine_nodes(Node a, Node b, const Known& known, PairMemo& memo);
    void work_out(std::size_t branches);
    std::uint64_t hash_of(Level level, std::span<const Node> branches) const;
    void grow_index();

    std::vector<std::uint32_t> branch_counts_;
    std::vector<Stored> nodes_;
    std::vector<Node> branches_;
    std::vector<Node> index_;  // open addressing; `empty_slot` where free
    std::size_t worked_out_ = 0;
    std::size_t most_worked_out_;
};

}  // namespace ashtriage::reason
