#include "triage/cell_key.hpp"

#include <algorithm>

#include "reason/interval.hpp"

namespace ashtriage::triage {

namespace {

constexpr unsigned bits = 64;

std::uint64_t cells_of(const reason::Branches& branches, const reason::Value& value) {
    if (const auto only = branches.only(value)) return std::uint64_t{1} << *only;
    std::uint64_t cells = 0;
    branches.for_each(value, [&](reason::Branch branch) { cells |= std::uint64_t{1} << branch; });
    return cells;
}

}  // namespace

CellKey::CellKey(const reason::Engine& engine, reason::TableIndex table, EyeError eye_error)
    : engine_(&engine) {
    // Without a diagram the engine looks at the values themselves.
    if (!engine.has_diagram(table)) return;
    unsigned next_bit = bits;
    const auto add = [&](reason::FactIndex fact, double margin) {
        const unsigned cells = engine.branches()[fact].count();
        if (next_bit + cells > bits) {
            ++size_;
            next_bit = 0;
        }
        parts_.push_back({fact, size_ - 1, next_bit, margin});
        next_bit += cells;
    };
    const std::vector<reason::FactIndex>& facts = engine.facts_behind(table);
    const bool fit = std::ranges::all_of(
        facts, [&](reason::FactIndex fact) { return engine.branches()[fact].count() <= bits; });
    if (!fit) return;
    for (const reason::FactIndex fact : facts) {
        add(fact, 0.0);
        const double error = engine.model().facts[fact].eye_error;
        if (eye_error == EyeError::minded && error > 0.0) add(fact, error);
    }
    size_ = std::max<std::size_t>(size_, 1);  // a table behind which there are no facts
}

void CellKey::write(const reason::Observation& values, std::span<std::uint64_t> key) const {
    std::ranges::fill(key, std::uint64_t{0});
    for (const Part& part : parts_) {
        const reason::Value& value = values[part.fact];
        if (value.is_unknown()) continue;
        const reason::Branches& branches = engine_->branches()[part.fact];
        const reason::Interval* stretch = value.interval();
        const std::uint64_t cells =
            part.margin > 0.0 && stretch != nullptr
                ? cells_of(branches,
                           reason::Value::range(reason::widened(
                               *stretch, part.margin, engine_->model().facts[part.fact].range)))
                : cells_of(branches, value);
        key[part.number] |= cells << part.shift;
    }
}

}  // namespace ashtriage::triage
