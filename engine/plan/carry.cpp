#include "plan/carry.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::plan {

using measure::Rounding;
using treat::Amount;

namespace {

Amount sum(const Amount& a, const Amount& b) {
    if (treat::is_volume(a)) return treat::volume_of(a) + treat::volume_of(b);
    return treat::mass_of(a) + treat::mass_of(b);
}

Amount with_reserve(const Amount& planned, measure::Percent reserve) {
    const std::int64_t whole = 100 * measure::units::percent.ticks;
    return std::visit(
        [&](const auto& quantity) -> Amount {
            return quantity.scaled(whole + reserve.ticks(), whole, Rounding::up);
        },
        planned);
}

// Adds amounts to what is planned of their parts.
void add_up(std::vector<Carried>& all, const std::vector<treat::MeasuredAmount>& amounts) {
    for (const treat::MeasuredAmount& amount : amounts) {
        const auto same = std::ranges::find(all, amount.part, &Carried::part);
        if (same == all.end()) {
            all.push_back({amount.part, amount.what, amount.measured, amount.measured, {}, {}});
        } else {
            same->planned = sum(same->planned, amount.measured);
        }
    }
}

// Past this many smallest steps the exact search would take too long: whole days of work with tiny
// containers, for which the largest are simply taken first.
constexpr std::int64_t most_steps = 200'000;

std::vector<int> counts_by_search(std::int64_t needed, const std::vector<std::int64_t>& sizes) {
    constexpr int unreachable = std::numeric_limits<int>::max();
    const std::int64_t top = needed + std::ranges::max(sizes);
    std::vector<int> fewest(static_cast<std::size_t>(top) + 1, unreachable);
    std::vector<std::size_t> last(fewest.size(), 0);
    fewest[0] = 0;
    for (std::size_t total = 1; total < fewest.size(); ++total) {
        for (std::size_t i = 0; i < sizes.size(); ++i) {
            const auto size = static_cast<std::size_t>(sizes[i]);
            if (size > total || fewest[total - size] == unreachable) continue;
            if (fewest[total - size] + 1 < fewest[total]) {
                fewest[total] = fewest[total - size] + 1;
                last[total] = i;
            }
        }
    }
    auto total = static_cast<std::size_t>(needed);
    while (fewest[total] == unreachable) ++total;
    std::vector<int> counts(sizes.size(), 0);
    for (; total > 0; total -= static_cast<std::size_t>(sizes[last[total]])) ++counts[last[total]];
    return counts;
}

std::vector<int> counts_largest_first(std::int64_t needed, const std::vector<std::int64_t>& sizes) {
    std::vector<std::size_t> order(sizes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, std::ranges::greater{}, [&](std::size_t i) { return sizes[i]; });
    std::vector<int> counts(sizes.size(), 0);
    for (const std::size_t i : order) {
        counts[i] = static_cast<int>(needed / sizes[i]);
        needed %= sizes[i];
    }
    if (needed > 0) ++counts[order.back()];
    return counts;
}

}  // namespace

std::vector<Containers> containers_for(const Amount& needed,
                                       const std::vector<treat::StatedAmount>& sizes) {
    if (sizes.empty() || treat::ticks_of(needed) <= 0) return {};
    std::vector<std::int64_t> ticks;
    std::int64_t step = 0;
    for (const treat::StatedAmount& size : sizes) {
        if (treat::is_volume(size) != treat::is_volume(needed)) {
            throw measure::InputError("A container of the card holds another kind of product");
        }
        ticks.push_back(treat::ticks_of(treat::amount_of(size)));
        step = std::gcd(step, ticks.back());
    }
    const std::int64_t steps =
        measure::multiply_divide(treat::ticks_of(needed), 1, step, Rounding::up);
    for (std::int64_t& size : ticks) size /= step;
    const std::vector<int> counts = steps + std::ranges::max(ticks) <= most_steps
                                        ? counts_by_search(steps, ticks)
                                        : counts_largest_first(steps, ticks);
    std::vector<Containers> containers;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        if (counts[i] > 0) containers.push_back({sizes[i], counts[i]});
    }
    return containers;
}

std::vector<Carried> carried(const treat::LabelCard& card, const std::vector<DosedTree>& trees,
                             const std::vector<TankLoad>& loads, measure::Percent reserve) {
    std::vector<Carried> all;
    for (const DosedTree& tree : trees) add_up(all, tree.dose.amounts);
    std::vector<Carried> in_loads;
    for (const TankLoad& load : loads) add_up(in_loads, load.amounts);
    for (Carried& each : all) {
        const auto same = std::ranges::find(in_loads, each.part, &Carried::part);
        if (same != in_loads.end() &&
            treat::ticks_of(same->planned) > treat::ticks_of(each.planned)) {
            each.planned = same->planned;
        }
    }
    for (Carried& each : all) {
        each.with_reserve = with_reserve(each.planned, reserve);
        if (each.part != treat::Part::product) continue;
        each.containers = containers_for(each.with_reserve, card.containers);
        if (each.containers.empty()) continue;
        std::int64_t opened = 0;
        for (const Containers& container : each.containers) {
            opened += treat::ticks_of(treat::amount_of(container.size)) * container.count;
        }
        const std::int64_t left = opened - treat::ticks_of(each.planned);
        each.left_in_containers = treat::is_volume(each.planned)
                                      ? Amount(measure::Volume::from_ticks(left))
                                      : Amount(measure::Mass::from_ticks(left));
    }
    return all;
}

}  // namespace ashtriage::plan
