#include "treat/acre_limit.hpp"

#include <algorithm>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "treat/exact_ratio.hpp"

namespace ashtriage::treat {

using measure::Mass;
using measure::Rounding;

namespace {

// What the limit still allows on the site; never less than nothing.
Mass left_over(Mass per_acre, measure::Area site, Mass used) {
    const Mass allowed = per_acre.scaled(site.ticks(), measure::units::acre.ticks, Rounding::down);
    return std::max(allowed - used, Mass());
}

}  // namespace

std::int64_t whole_inches_allowed(Mass per_acre, measure::Area site, Mass used,
                                  Mass active_per_inch) {
    if (active_per_inch <= Mass()) {
        throw measure::InputError("The active ingredient per inch of DBH must be more than zero");
    }
    return left_over(per_acre, site, used).ticks() / active_per_inch.ticks();
}

std::optional<std::int64_t> whole_inches_allowed(const LabelCard& card,
                                                 const StatedAmount& product_rate,
                                                 measure::Area site, Mass used) {
    if (!card.limits.active_per_acre_per_year) return std::nullopt;
    const Basis& basis = card.rates.per;
    if (basis.per != Per::inch_dbh && basis.per != Per::cm_dbh) return std::nullopt;
    if (is_volume(product_rate) != is_volume(card.strength.per)) {
        throw measure::InputError("A rate of the card '" + card.key +
                                  "' is not measured as its strength is, by volume or by weight");
    }
    const Mass left = left_over(*card.limits.active_per_acre_per_year, site, used);
    return std::visit(
        [&](const auto& rate) {
            using Quantity = decltype(rate.quantity());
            const auto per = std::get<Quantity>(card.strength.per);
            return exact_ratio({left.ticks(), per.ticks(), basis.ticks, rate.denominator},
                               {card.strength.active.ticks(), measure::units::inch.ticks,
                                rate.numerator, rate.unit.ticks},
                               Rounding::down);
        },
        product_rate);
}

}  // namespace ashtriage::treat
