// Looking for gaps and overlaps where a table is too large for a diagram but its rules are plain:
// each rule a box, one stretch of each number and some levels of each scale. The table is swept one
// fact after another, keeping the rules that still cover the place (Calvanese et al. 2016).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "prove/check.hpp"
#include "reason/branches.hpp"
#include "reason/model.hpp"

namespace ashtriage::prove {

class BoxTable {
 public:
    // Nothing when some rule is more than tests of facts that all must be met, or tests another
    // table, or a fact that does not always apply. `model` and `branches` must outlive the object.
    static std::optional<BoxTable> of(const reason::Model& model,
                                      const std::vector<reason::Branches>& branches,
                                      reason::TableIndex table);

    // Fills in the overlaps of the check, all of them counted.
    void find_overlaps(TableCheck& check, std::size_t most_examples) const;

    // Fills in the gaps of the check. Of places that the same rules reach only the first is looked
    // into. Not analysed when the steps end before everything has been looked into; the gaps found
    // until then are gaps all the same.
    void find_gaps(TableCheck& check, std::size_t steps, std::size_t most_examples) const;

 private:
    // The part of a fact's branches that a rule accepts.
    struct Side {
        reason::Branch first = 0;  // number facts: from this branch to `last`
        reason::Branch last = 0;
        std::uint64_t levels = 0;  // other facts: bit i for branch i
    };
    using Box = std::vector<Side>;  // by column
    class GapSearch;

    BoxTable(const reason::Model& model, const std::vector<reason::Branches>& branches,
             reason::TableIndex table);

    bool is_number(std::size_t column) const;
    Side anything(std::size_t column) const;
    static bool empty(const Side& side, bool number);
    Side shared(const Side& a, const Side& b, std::size_t column) const;
    bool narrow(Box& box, const reason::Condition& condition) const;
    Region region_of(const Box& box, std::size_t columns) const;

    const reason::Model& model_;
    const std::vector<reason::Branches>& branches_;
    const reason::Table& table_;
    std::vector<reason::FactIndex> columns_;
    std::vector<Box> boxes_;  // by rule
};

}  // namespace ashtriage::prove
