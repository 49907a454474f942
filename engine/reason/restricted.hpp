// What is left of a table's diagrams once an observation has been taken into account: only the
// facts that can still matter, each with the branches it may still take.
#pragma once

#include <vector>

#include "reason/diagram.hpp"
#include "reason/diagram_store.hpp"
#include "reason/engine.hpp"

namespace ashtriage::reason {

class Restricted {
 public:
    // Only for a table that has a diagram. The engine must outlive the object.
    Restricted(const Engine& engine, TableIndex table, const Observation& observation);

    // The facts that can still matter, as the diagram looks at them.
    std::vector<FactIndex> facts() const;
    // The branches that the fact may still take.
    const std::vector<Branch>& branches_left(FactIndex fact) const { return left_[fact]; }

    // How many answers beyond one are still possible, over all diagrams of the table; 0 when it is
    // decided.
    std::size_t open_answers() const;
    std::size_t open_answers_if(FactIndex fact, Branch branch) const;
    // How many facts could still matter then.
    std::size_t open_facts_if(FactIndex fact, Branch branch) const;

 private:
    Node restrict(const Diagram& diagram, Node at, std::vector<Node>& done);
    LeafSet leaves_if(Node root, Level level, Branch branch) const;
    std::size_t count_open(Level level, Branch branch) const;

    const std::vector<FactIndex>& order_;
    std::vector<Level> level_of_;            // by fact
    std::vector<std::vector<Branch>> left_;  // by fact
    DiagramStore store_;
    std::vector<Node> roots_;
};

}  // namespace ashtriage::reason
