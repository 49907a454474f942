#include "reason/branches.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <utility>

#include "reason/cells.hpp"

namespace ashtriage::reason {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

}  // namespace

Branches::Branches(const Fact& fact, std::vector<Value> cells) : cells_(std::move(cells)) {
    if (fact.kind == FactKind::number) {
        for (std::size_t cell = 0; cell + 1 < cells_.size(); ++cell) {
            const Interval& stretch = *cells_[cell].interval();
            tops_.push_back(stretch.high_open ? std::nextafter(stretch.high, -infinity)
                                              : stretch.high);
        }
        return;
    }
    for (std::size_t cell = 0; cell < cells_.size(); ++cell) {
        for (LevelIndex level = 0; level < fact.levels.size(); ++level) {
            if (has_level(*cells_[cell].level_set(), level)) {
                branch_of_level_[level] = static_cast<std::uint8_t>(cell);
            }
        }
    }
}

Value Branches::value(Branch branch) const {
    return branch == does_not_apply() ? Value::not_applicable() : cells_[branch];
}

Branch Branches::of_number(double number) const {
    // Facts are cut into a handful of cells, where counting beats halving.
    constexpr std::size_t few = 16;
    if (tops_.size() <= few) {
        Branch branch = 0;
        for (const double top : tops_) branch += number > top ? 1U : 0U;
        return branch;
    }
    return static_cast<Branch>(std::ranges::lower_bound(tops_, number) - tops_.begin());
}

Branch Branches::of_lower_end(const Interval& stretch) const {
    return of_number(stretch.low_open ? std::nextafter(stretch.low, infinity) : stretch.low);
}

Branch Branches::of_upper_end(const Interval& stretch) const {
    return of_number(stretch.high_open ? std::nextafter(stretch.high, -infinity) : stretch.high);
}

std::uint64_t Branches::of_levels(LevelSet levels) const {
    std::uint64_t branches = 0;
    for (; levels != 0; levels &= levels - 1) {
        branches |= std::uint64_t{1}
                    << branch_of_level_[static_cast<LevelIndex>(std::countr_zero(levels))];
    }
    return branches;
}

std::optional<Branch> Branches::only(const Value& value) const {
    if (const Interval* stretch = value.interval()) {
        const Branch low = of_lower_end(*stretch);
        if (stretch->low == stretch->high || of_upper_end(*stretch) == low) return low;
        return std::nullopt;
    }
    if (const LevelSet* levels = value.level_set()) {
        const std::uint64_t branches = of_levels(*levels);
        if (!std::has_single_bit(branches)) return std::nullopt;
        return static_cast<Branch>(std::countr_zero(branches));
    }
    if (value.is_not_applicable()) return does_not_apply();
    if (cells_.size() == 1) return 0;
    return std::nullopt;
}

std::vector<Branches> branches_of(const Model& model) {
    std::vector<std::vector<Value>> cells = elementary_cells(model);
    std::vector<Branches> branches;
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        branches.emplace_back(model.facts[fact], std::move(cells[fact]));
    }
    return branches;
}

}  // namespace ashtriage::reason
