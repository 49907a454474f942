#include "reason/branches.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "reason/cells.hpp"

namespace ashtriage::reason {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

}  // namespace

Branches::Branches(const Fact& fact, std::vector<Value> cells, bool with_does_not_apply)
    : with_does_not_apply_(with_does_not_apply), cells_(std::move(cells)) {
    first_tops_.fill(infinity);
    if (fact.kind == FactKind::number) {
        for (std::size_t cell = 0; cell + 1 < cells_.size(); ++cell) {
            const Interval& stretch = *cells_[cell].interval();
            tops_.push_back(stretch.high_open ? std::nextafter(stretch.high, -infinity)
                                              : stretch.high);
        }
        std::copy_n(tops_.begin(), std::min(few, tops_.size()), first_tops_.begin());
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

Branch Branches::of_lower_end(const Interval& stretch) const {
    return of_number(stretch.low_open ? std::nextafter(stretch.low, infinity) : stretch.low);
}

Branch Branches::of_upper_end(const Interval& stretch) const {
    return of_number(stretch.high_open ? std::nextafter(stretch.high, -infinity) : stretch.high);
}

std::vector<Branches> branches_of(const Model& model, DoesNotApply does_not_apply) {
    std::vector<std::vector<Value>> cells = elementary_cells(model);
    std::vector<Branches> branches;
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        // Where a condition says when a fact applies, no branch need say it again.
        const bool can_be = model.facts[fact].may_not_apply &&  //
                            model.condition_to_apply(fact) == nullptr;
        branches.emplace_back(model.facts[fact], std::move(cells[fact]),
                              does_not_apply == DoesNotApply::of_any_fact || can_be);
    }
    return branches;
}

}  // namespace ashtriage::reason
