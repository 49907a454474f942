// Quantities that cannot be mixed by accident. A quantity is a whole count of a very small unit of
// its dimension (its ticks), chosen so that every unit in units.hpp is a whole number of ticks:
// conversion is exact, comparison is exact, and there is no NaN.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "measure/exact.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::measure {

// What is measured. `called` is used in messages. `affine`: the scales start at different points,
// so that adding two such values means nothing.
struct LengthDimension {  // tick: 1 nanometre
    static constexpr std::string_view called = "a length";
    static constexpr bool affine = false;
};
struct AreaDimension {  // tick: 1e-8 square metre
    static constexpr std::string_view called = "an area";
    static constexpr bool affine = false;
};
struct VolumeDimension {  // tick: 0.1 picolitre
    static constexpr std::string_view called = "a volume";
    static constexpr bool affine = false;
};
struct MassDimension {  // tick: 1 nanogram
    static constexpr std::string_view called = "a weight";
    static constexpr bool affine = false;
};
struct PercentDimension {  // tick: 1e-6 percent
    static constexpr std::string_view called = "a percentage";
    static constexpr bool affine = false;
};
struct TemperatureDimension {  // tick: 1/18000 kelvin above absolute zero
    static constexpr std::string_view called = "a temperature";
    static constexpr bool affine = true;
};
struct SpeedDimension {  // tick: 1/3600000 metre a second
    static constexpr std::string_view called = "a speed";
    static constexpr bool affine = false;
};
struct MoneyDimension {  // tick: 1/10000 of the currency unit
    static constexpr std::string_view called = "an amount of money";
    static constexpr bool affine = false;
};

// A unit and the ways people write it; the first symbol is the one this program prints.
template <class Dimension>
struct Unit {
    std::string_view name;
    std::string_view plural;
    std::array<std::string_view, 8> symbols;  // unused places are empty
    std::int64_t ticks = 1;
    std::int64_t zero_at = 0;  // ticks at which this scale reads 0; only for affine dimensions

    constexpr std::string_view symbol() const { return symbols.front(); }
};

template <class Dimension>
class Quantity {
 public:
    using UnitType = Unit<Dimension>;

    constexpr Quantity() = default;  // zero ticks

    static constexpr Quantity from_ticks(std::int64_t ticks) { return Quantity(ticks); }

    // The exact decimal `number` of units; below a tick it is rounded to the nearest. Throws
    // InputError if the text is not a plainly written number or the amount cannot be held.
    static Quantity of(std::string_view number, const UnitType& unit) {
        return from_scale(ticks_of(number, unit.ticks), unit);
    }
    // The same for a floating number, to the nearest tick; it must be finite.
    static Quantity of(double number, const UnitType& unit) {
        return from_scale(ticks_of(number, unit.ticks), unit);
    }

    constexpr std::int64_t ticks() const { return ticks_; }

    double in(const UnitType& unit) const {
        return static_cast<double>(
            (static_cast<long double>(ticks_) - static_cast<long double>(unit.zero_at)) /
            static_cast<long double>(unit.ticks));
    }
    // Decimal text such as "14.0", without the unit.
    std::string text(const UnitType& unit, int places,
                     Rounding rounding = Rounding::nearest) const {
        return decimal_text(checked_subtract(ticks_, unit.zero_at), unit.ticks, places, rounding);
    }
    // Decimal text with the unit's symbol, such as "14.0 in".
    std::string with_unit(const UnitType& unit, int places,
                          Rounding rounding = Rounding::nearest) const {
        return text(unit, places, rounding) + " " + std::string(unit.symbol());
    }

    // This quantity times numerator / denominator, rounded once. A rate of so much per inch of DBH
    // is `rate.scaled(dbh.ticks(), units::inch.ticks, Rounding::down)`.
    Quantity scaled(std::int64_t numerator, std::int64_t denominator, Rounding rounding) const
        requires(!Dimension::affine) {
        return Quantity(multiply_divide(ticks_, numerator, denominator, rounding));
    }
    // A whole number of steps; `step` must be more than zero.
    Quantity rounded_to(const Quantity& step, Rounding rounding) const
        requires(!Dimension::affine) {
        if (step.ticks_ <= 0) throw InputError("A step to round to must be more than zero");
        const std::int64_t steps = multiply_divide(ticks_, 1, step.ticks_, rounding);
        return Quantity(checked_multiply(steps, step.ticks_));
    }

    // Sums, differences and multiples throw InputError when the result cannot be held.
    friend Quantity operator+(const Quantity& a, const Quantity& b) requires(!Dimension::affine) {
        return Quantity(checked_add(a.ticks_, b.ticks_));
    }
    friend Quantity operator-(const Quantity& a, const Quantity& b) requires(!Dimension::affine) {
        return Quantity(checked_subtract(a.ticks_, b.ticks_));
    }
    friend Quantity operator*(const Quantity& a, std::int64_t times) requires(!Dimension::affine) {
        return Quantity(checked_multiply(a.ticks_, times));
    }
    friend Quantity operator*(std::int64_t times, const Quantity& a) requires(!Dimension::affine) {
        return a * times;
    }
    // To the nearest tick; use scaled() where the direction of rounding matters.
    friend Quantity operator/(const Quantity& a, std::int64_t parts) requires(!Dimension::affine) {
        return a.scaled(1, parts, Rounding::nearest);
    }
    // How many times `b` goes into `a`; `b` must not be zero.
    friend double operator/(const Quantity& a, const Quantity& b) requires(!Dimension::affine) {
        if (b.ticks_ == 0) throw InputError("An amount cannot be divided by zero");
        return static_cast<double>(static_cast<long double>(a.ticks_) /
                                   static_cast<long double>(b.ticks_));
    }
    Quantity& operator+=(const Quantity& other) requires(!Dimension::affine) {
        return *this = *this + other;
    }
    Quantity& operator-=(const Quantity& other) requires(!Dimension::affine) {
        return *this = *this - other;
    }

    friend constexpr bool operator==(const Quantity& a, const Quantity& b) = default;
    friend constexpr std::strong_ordering operator<=>(const Quantity& a, const Quantity& b) {
        return a.ticks_ <=> b.ticks_;
    }

 private:
    constexpr explicit Quantity(std::int64_t ticks) : ticks_(ticks) {}

    static Quantity from_scale(std::int64_t reading, const UnitType& unit) {
        const std::int64_t ticks = checked_add(reading, unit.zero_at);
        if constexpr (Dimension::affine) {
            if (ticks < 0) throw InputError("A temperature is below absolute zero");
        }
        return Quantity(ticks);
    }

    std::int64_t ticks_ = 0;
};

using Length = Quantity<LengthDimension>;
using Area = Quantity<AreaDimension>;
using Volume = Quantity<VolumeDimension>;
using Mass = Quantity<MassDimension>;
using Percent = Quantity<PercentDimension>;
using Temperature = Quantity<TemperatureDimension>;
using Speed = Quantity<SpeedDimension>;
using Money = Quantity<MoneyDimension>;

using LengthUnit = Unit<LengthDimension>;
using AreaUnit = Unit<AreaDimension>;
using VolumeUnit = Unit<VolumeDimension>;
using MassUnit = Unit<MassDimension>;
using PercentUnit = Unit<PercentDimension>;
using TemperatureUnit = Unit<TemperatureDimension>;
using SpeedUnit = Unit<SpeedDimension>;
using MoneyUnit = Unit<MoneyDimension>;

}  // namespace ashtriage::measure
