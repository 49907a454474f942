// The branches that a fact opens in a diagram: its elementary cells, and one more for "does not
// apply". A value is looked up among them once and after that is a small number.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "reason/fact.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

using Branch = std::uint32_t;

class Branches {
 public:
    // `cells` as elementary_cells() gives them for the fact.
    Branches(const Fact& fact, std::vector<Value> cells);

    // Cells and "does not apply", which comes last.
    Branch count() const { return static_cast<Branch>(cells_.size()) + 1; }
    Branch does_not_apply() const { return static_cast<Branch>(cells_.size()); }
    const std::vector<Value>& cells() const { return cells_; }
    // The value that stands for all of the branch.
    Value value(Branch branch) const;

    Branch of_number(double number) const;
    Branch of_level(LevelIndex level) const { return branch_of_level_[level]; }
    // The one branch in which the whole of the value lies; nothing when it lies in several.
    std::optional<Branch> only(const Value& value) const;

    // Calls `action` with each branch in which part of the value lies, rising.
    template <typename Action>
    void for_each(const Value& value, Action&& action) const {
        if (value.is_not_applicable()) {
            action(does_not_apply());
        } else if (const Interval* stretch = value.interval()) {
            const Branch last = of_upper_end(*stretch);
            for (Branch branch = of_lower_end(*stretch); branch <= last; ++branch) action(branch);
        } else if (const LevelSet* levels = value.level_set()) {
            const std::uint64_t possible = of_levels(*levels);
            for (Branch branch = 0; branch < does_not_apply(); ++branch) {
                if (has_level(possible, branch)) action(branch);
            }
        } else {
            for (Branch branch = 0; branch < does_not_apply(); ++branch) action(branch);
        }
    }

 private:
    Branch of_lower_end(const Interval& stretch) const;
    Branch of_upper_end(const Interval& stretch) const;
    std::uint64_t of_levels(LevelSet levels) const;

    std::vector<Value> cells_;
    std::vector<double> tops_;  // number facts: the largest number of each cell but the last
    std::array<std::uint8_t, most_levels> branch_of_level_{};
};

// The branches of every fact of the model.
std::vector<Branches> branches_of(const Model& model);

}  // namespace ashtriage::reason
