// An amount of something that is measured out by hand: a volume of a liquid or a weight of a dry
// product, never one taken for the other.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

#include "measure/exact.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::treat {

using Amount = std::variant<measure::Volume, measure::Mass>;

bool is_volume(const Amount& amount);

// In the ticks of its own kind of quantity.
std::int64_t ticks_of(const Amount& amount);

// The volume or the mass; throws InputError when it is the other one.
measure::Volume volume_of(const Amount& amount);
measure::Mass mass_of(const Amount& amount);

// An amount exactly as it is stated: a number of units. Quantities count whole ticks, and neither
// half a US fluid ounce nor 0.43 of one is a whole number of ticks; what is multiplied by a
// diameter or compared with the marks of a measuring cup must not lose that part of a tick.
template <class Dimension>
struct Stated {
    std::int64_t numerator = 0;  // number of units = numerator / denominator
    std::int64_t denominator = 1;
    measure::Unit<Dimension> unit;

    // To the nearest tick.
    measure::Quantity<Dimension> quantity() const {
        return measure::Quantity<Dimension>::from_ticks(unit.ticks)
            .scaled(numerator, denominator, measure::Rounding::nearest);
    }
};
using StatedVolume = Stated<measure::VolumeDimension>;
using StatedMass = Stated<measure::MassDimension>;
using StatedAmount = std::variant<StatedVolume, StatedMass>;

bool is_volume(const StatedAmount& amount);

// Reads "0.43 fl oz", "1/2 fl oz", "1 mL" or, for the other, "8.5 g". Throws InputError for an
// amount of zero or less, or one without a unit of its own kind; a bare "oz", which could be a
// volume or a weight, is refused.
StatedVolume parse_stated_volume(std::string_view text);
StatedMass parse_stated_mass(std::string_view text);

// To the nearest tick.
Amount amount_of(const StatedAmount& amount);

// `amount` times `times` / `over`, rounded down to the tick.
Amount multiplied(const StatedAmount& amount, std::int64_t times, std::int64_t over);

// A measuring device is given by its smallest step, in the unit of its marks: a cup with marks
// every half US fluid ounce, a scale that shows whole grams. The functions below throw InputError
// when the amount is a volume and the device a scale, or the other way round.

// The marks of the device that `amount` times `times` / `over` reaches, or for Rounding::up the
// first that it does not pass.
std::int64_t marks(const StatedAmount& amount, std::int64_t times, std::int64_t over,
                   const StatedAmount& device, measure::Rounding rounding);
std::int64_t marks(const Amount& amount, const StatedAmount& device, measure::Rounding rounding);

// What the device holds at a mark, rounded down to the tick.
Amount at_mark(std::int64_t mark, const StatedAmount& device);

// As it was stated, its unit spelled out, and read again as the same amount: "6.0 US fluid ounces",
// or as a fraction where no decimal says it, "6/14 US fluid ounces".
std::string stated_text(const StatedAmount& amount);

// A mark as read off the device, its unit spelled out: "6.0 US fluid ounces", "119 grams".
std::string mark_text(std::int64_t mark, const StatedAmount& device);

// The amount at a mark in the other system of units: US fluid ounces or gallons beside millilitres
// or litres, avoirdupois ounces or pounds beside grams.
std::string twin_text(std::int64_t mark, const StatedAmount& device, measure::Rounding rounding);

// An amount that no device measures, in metric units with up to two digits after the
// point, rounded down: "8.5 mL".
std::string plain_text(const Amount& amount);

}  // namespace ashtriage::treat
