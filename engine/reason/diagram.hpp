// One finished diagram as plain data: which fact to look at, and where each of its branches leads.
// It can be copied, written out and walked anywhere, by a program that knows nothing of rules.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "reason/branches.hpp"
#include "reason/diagram_store.hpp"

namespace ashtriage::reason {

// Bit i: leaf i can be reached. Leaves of finished diagrams are below 64.
using LeafSet = std::uint64_t;

struct Diagram {
    struct Look {
        FactIndex fact = 0;
        std::uint32_t first = 0;  // where the branches begin in `leads_to`
    };
    std::vector<Look> looks;     // a look comes after every look that leads to it
    std::vector<Node> leads_to;  // an index into `looks`, or a leaf
    Node root = no_leaf;

    Node next(Node at, Branch taken) const { return leads_to[looks[at].first + taken]; }
};

// The part of the store below `root`; `order` gives the fact of each level.
Diagram finished(const DiagramStore& store, Node root, const std::vector<FactIndex>& order);

// The leaf that a wholly known case comes to. `cut` holds the branch of each fact of the model.
inline std::uint32_t leaf_of(const Diagram& diagram, std::span<const Branch> cut) {
    Node at = diagram.root;
    while (!is_leaf(at)) at = diagram.next(at, cut[diagram.looks[at].fact]);
    return leaf_value(at);
}

// Every leaf that some completion of the observation comes to, and no other.
LeafSet leaves_of(const Diagram& diagram, const std::vector<Branches>& branches,
                  const Observation& observation);

// Whether a case comes to that leaf and no other, of which only the branches in `cut` are known, by
// fact, and not those of facts marked in `left_out`.
bool comes_only_to(std::uint32_t leaf, const Diagram& diagram,
                   const std::vector<Branches>& branches,
                   std::span<const std::optional<Branch>> cut, const std::vector<bool>& left_out);

// Marks, in a list by fact, those that leaves_of() looks at on its way: whatever the others are,
// the leaves are the same.
void mark_facts_looked_at(const Diagram& diagram, const std::vector<Branches>& branches,
                          const Observation& observation, std::vector<bool>& marks);

}  // namespace ashtriage::reason
