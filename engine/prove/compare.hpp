// What a change of rules changes: exactly which cases get another answer under another edition.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "prove/regions.hpp"
#include "reason/model.hpp"

namespace ashtriage::prove {

// Cases that came to one answer before and come to another after. For a collect table one of the
// two is missing: the outcome was not collected before, or is no longer.
struct ChangedAnswer {
    std::string table;
    std::optional<std::string> before;  // nothing: no rule holds, or it was not collected
    std::optional<std::string> after;
    bool before_conflict = false;  // unique tables: two rules held
    bool after_conflict = false;
    std::vector<Region> where;  // over the facts of Comparison::facts
    bool more = false;          // there are more such cases than the regions cover
};

struct Comparison {
    // The facts of both models, those of the first in their order, then what only the second has.
    // Facts of the same name and kind are one; their levels are those of the first, then what only
    // the second has.
    reason::Model facts;
    std::vector<std::string> facts_added;    // names
    std::vector<std::string> facts_removed;  // names
    std::vector<std::string> facts_changed;  // other levels, another range or another kind
    std::vector<std::string> tables_added;
    std::vector<std::string> tables_removed;
    std::vector<ChangedAnswer> changes;
    std::vector<std::string> not_analysed;  // tables of both, too large to compare
};

// Compares every table that both models have, by the names of tables, facts, levels and outcomes.
// At most `most_regions` regions for each change of answer.
Comparison compare(const reason::Model& before, const reason::Model& after,
                   std::size_t most_regions = 20, std::size_t budget = std::size_t{1} << 22U);

}  // namespace ashtriage::prove
