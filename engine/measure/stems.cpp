#include "measure/stems.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "measure/exact.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::measure {
namespace {

// Pi as a ratio of whole numbers, good to 2 parts in 10^19: the error on a girth of 100 m is far
// below the nanometre that lengths are counted in.
constexpr std::int64_t pi_numerator = 3'141'592'653'589'793'238;
constexpr std::int64_t pi_denominator = 1'000'000'000'000'000'000;

void refuse_negative(Length length) {
    if (length < Length{}) {
        throw InputError("A stem cannot measure less than zero", {},
                         "Check the girth or diameter that was entered.");
    }
}

// The whole number nearest to the square root of the sum of squares.
std::int64_t root_of_squares(std::span<const Length> lengths) {
    __extension__ using UnsignedWide = unsigned __int128;
    UnsignedWide sum = 0;
    for (const Length& length : lengths) {
        const UnsignedWide square =
            static_cast<UnsignedWide>(length.ticks()) * static_cast<UnsignedWide>(length.ticks());
        // The root must fit 63 bits, so the sum must stay below 2^126.
        constexpr UnsignedWide limit = UnsignedWide{1} << 126;
        if (square >= limit - sum) {
            throw InputError("The stems are too large to be combined", {},
                             "Check the diameters and their unit.");
        }
        sum += square;
    }
    auto root = static_cast<UnsignedWide>(std::sqrt(static_cast<long double>(sum)));
    while (root * root > sum) --root;
    while ((root + 1) * (root + 1) <= sum) ++root;
    if (sum - root * root > root) ++root;  // past the half: (root + 1/2)^2 = root^2 + root + 1/4
    return static_cast<std::int64_t>(root);
}

}  // namespace

Length diameter_from_girth(Length girth) {
    refuse_negative(girth);
    return girth.scaled(pi_denominator, pi_numerator, Rounding::nearest);
}

Length girth_from_diameter(Length diameter) {
    refuse_negative(diameter);
    return diameter.scaled(pi_numerator, pi_denominator, Rounding::nearest);
}

Length combined_diameter(std::span<const Length> diameters, StemRule rule) {
    if (diameters.empty()) {
        throw InputError("No stem was measured", {}, "Give the diameter of at least one stem.");
    }
    for (const Length& diameter : diameters) {
        if (diameter <= Length{}) {
            throw InputError("A stem's diameter must be more than zero", {},
                             "Leave out stems that were not measured.");
        }
    }
    switch (rule) {
        case StemRule::root_of_sum_of_squares:
            return Length::from_ticks(root_of_squares(diameters));
        case StemRule::sum: {
            Length total;
            for (const Length& diameter : diameters) total += diameter;
            return total;
        }
        case StemRule::largest:
            return *std::max_element(diameters.begin(), diameters.end());
    }
    throw InputError("No such rule for combining stems");
}

Area basal_area(Length dbh) {
    refuse_negative(dbh);
    const auto nanometres = static_cast<long double>(dbh.ticks());
    constexpr long double square_nanometres_per_tick = 1e10L;  // an area's tick is 1e-8 m2
    const long double ticks = std::numbers::pi_v<long double> / 4.0L * nanometres * nanometres /
                              square_nanometres_per_tick;
    constexpr long double limit = 9.2e18L;
    if (ticks > limit) {
        throw InputError("A stem is too large for its basal area to be held", {},
                         "Check the DBH and its unit.");
    }
    return Area::from_ticks(std::llround(ticks));
}

}  // namespace ashtriage::measure
