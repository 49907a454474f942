// The branches that a fact opens in a diagram: its elementary cells, and one more for "does not
// apply", should that be told apart. A value is looked up among them once and after that is a small
// number.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
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
    Branches(const Fact& fact, std::vector<Value> cells, bool with_does_not_apply);

    // Cells and perhaps "does not apply", which comes last.
    Branch count() const { return does_not_apply() + (with_does_not_apply_ ? 1U : 0U); }
    Branch does_not_apply() const { return static_cast<Branch>(cells_.size()); }
    bool with_does_not_apply() const { return with_does_not_apply_; }
    const std::vector<Value>& cells() const { return cells_; }
    // The value that stands for all of the branch.
    Value value(Branch branch) const;

    Branch of_number(double number) const {
        Branch branch = 0;
        for (const double top : first_tops_) branch += number > top ? 1U : 0U;
        if (branch < few) return branch;
        return static_cast<Branch>(std::lower_bound(tops_.begin() + few, tops_.end(), number) -
                                   tops_.begin());
    }
    Branch of_level(LevelIndex level) const { return branch_of_level_[level]; }
    // The branch of one number or one level; nothing for any other value.
    std::optional<Branch> of_exact(const Value& value) const {
        if (const Interval* stretch = value.interval()) {
            return stretch->low == stretch->high ? std::optional(of_number(stretch->low))
                                                 : std::nullopt;
        }
        if (const LevelSet* levels = value.level_set()) {
            const bool one_level = *levels != 0 && (*levels & (*levels - 1)) == 0;
            if (one_level) return of_level(static_cast<LevelIndex>(std::countr_zero(*levels)));
        }
        return std::nullopt;
    }
    // The one branch in which the whole of the value lies; nothing when it lies in several.
    std::optional<Branch> only(const Value& value) const {
        if (const auto exact = of_exact(value)) return exact;
        if (const Interval* stretch = value.interval()) {
            const Branch low = of_lower_end(*stretch);
            return of_upper_end(*stretch) == low ? std::optional(low) : std::nullopt;
        }
        if (const LevelSet* levels = value.level_set()) {
            const std::uint64_t branches = of_levels(*levels);
            if (!std::has_single_bit(branches)) return std::nullopt;
            return static_cast<Branch>(std::countr_zero(branches));
        }
        if (value.is_not_applicable()) return does_not_apply();
        return cells_.size() == 1 ? std::optional(Branch{0}) : std::nullopt;
    }

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
    std::uint64_t of_levels(LevelSet levels) const {
        std::uint64_t branches = 0;
        for (; levels != 0; levels &= levels - 1) {
            const auto level = static_cast<LevelIndex>(std::countr_zero(levels));
            branches |= std::uint64_t{1} << branch_of_level_[level];
        }
        return branches;
    }

    // Most numbers are told apart by a handful of comparisons, which is faster without halving.
    static constexpr std::size_t few = 4;

    bool with_does_not_apply_;
    std::vector<Value> cells_;
    std::vector<double> tops_;  // number facts: the largest number of each cell but the last
    std::array<double, few> first_tops_;  // the same, filled up with infinity
    std::array<std::uint8_t, most_levels> branch_of_level_{};
};

// Which facts get a branch for "does not apply": all, since anybody may record anything, or only
// those of which the model says that they may not apply, which is what can be true of a case.
enum class DoesNotApply { of_any_fact, where_it_can_be };

// The branches of every fact of the model.
std::vector<Branches> branches_of(const Model& model,
                                  DoesNotApply does_not_apply = DoesNotApply::of_any_fact);

}  // namespace ashtriage::reason
