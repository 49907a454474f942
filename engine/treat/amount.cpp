#include "treat/amount.hpp"

#include <fmt/format.h>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"
#include "treat/exact_ratio.hpp"

namespace ashtriage::treat {

using measure::Mass;
using measure::Rounding;
using measure::Volume;
namespace units = measure::units;

namespace {

// The unit at the end of an amount such as "1/2 fl oz".
std::string_view unit_part(std::string_view text) {
    const std::size_t start = text.find_first_not_of("0123456789.,/+- \t");
    return start == std::string_view::npos ? std::string_view() : text.substr(start);
}

// The number at the start of an amount whose text has been found good: digits with a point, a
// fraction, or a whole number and a fraction.
template <class Dimension>
Stated<Dimension> stated(std::string_view text, measure::Quantity<Dimension> amount) {
    const std::string_view unit_text = unit_part(text);
    const auto* unit = measure::find_unit<Dimension>(unit_text);
    if (amount.ticks() <= 0 || unit == nullptr) {
        throw measure::InputError(fmt::format("'{}' is not more than zero", text), {},
                                  "copy the figure from the label, or leave the entry out");
    }
    const std::string_view number = packs::trimmed(text.substr(0, text.size() - unit_text.size()));
    const std::size_t slash = number.find('/');
    if (slash == std::string_view::npos) {
        const measure::Decimal decimal = measure::require_decimal(number);
        std::int64_t denominator = 1;
        for (int place = 0; place < decimal.places; ++place) denominator *= 10;
        return {decimal.digits, denominator, *unit};
    }
    const std::size_t blank = number.find_last_of(" \t", slash);
    const bool mixed = blank != std::string_view::npos;
    const auto whole_number = [](std::string_view digits) {
        return measure::require_decimal(packs::trimmed(digits)).digits;
    };
    const std::int64_t whole = mixed ? whole_number(number.substr(0, blank)) : 0;
    const std::size_t start = mixed ? blank + 1 : 0;
    const std::int64_t denominator = whole_number(number.substr(slash + 1));
    return {measure::checked_add(measure::checked_multiply(whole, denominator),
                                 whole_number(number.substr(start, slash - start))),
            denominator, *unit};
}

// The fewest digits after the point that show the number exactly; a third has `most`.
template <class Dimension>
int places_for(const Stated<Dimension>& stated, int most) {
    int places = 0;
    std::int64_t numerator = stated.numerator % stated.denominator;
    while (places < most && numerator != 0) {
        numerator = measure::checked_multiply(numerator, 10) % stated.denominator;
        ++places;
    }
    return places;
}

// A third of a unit is shown with three digits.
constexpr int most_places_of_a_mark = 3;

std::string without_idle_zeros(std::string number) {
    if (number.find('.') == std::string::npos) return number;
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    return number;
}

std::string number_and_unit(const std::string& number, std::string_view one,
                            std::string_view several) {
    return fmt::format("{} {}", number, number == "1" ? one : several);
}

template <class Dimension>
std::string in_words(measure::Quantity<Dimension> amount, const measure::Unit<Dimension>& unit,
                     int places, Rounding rounding) {
    return number_and_unit(amount.text(unit, places, rounding), unit.name, unit.plural);
}

// A unit of the US system; all others here are metric.
bool is_us(const measure::VolumeUnit& unit) {
    return unit.name != units::millilitre.name && unit.name != units::litre.name;
}
bool is_us(const measure::MassUnit& unit) {
    return unit.name == units::avoirdupois_ounce.name || unit.name == units::pound.name;
}

std::string twin_of(Volume volume, const measure::VolumeUnit& unit, Rounding rounding) {
    if (is_us(unit)) {
        return volume < Volume::from_ticks(units::litre.ticks)
                   ? in_words(volume, units::millilitre, 1, rounding)
                   : in_words(volume, units::litre, 2, rounding);
    }
    return volume < Volume::from_ticks(units::us_gallon.ticks)
               ? in_words(volume, units::us_fluid_ounce, 2, rounding)
               : in_words(volume, units::us_gallon, 2, rounding);
}

std::string twin_of(Mass mass, const measure::MassUnit& unit, Rounding rounding) {
    if (is_us(unit)) return in_words(mass, units::gram, 1, rounding);
    return mass < Mass::from_ticks(units::pound.ticks)
               ? in_words(mass, units::avoirdupois_ounce, 2, rounding)
               : in_words(mass, units::pound, 2, rounding);
}

std::string plain(Volume volume) {
    const bool small = volume < Volume::from_ticks(units::litre.ticks);
    const auto& unit = small ? units::millilitre : units::litre;
    return fmt::format("{} {}", without_idle_zeros(volume.text(unit, 2, Rounding::down)),
                       unit.symbol());
}
std::string plain(Mass mass) {
    const bool small = mass < Mass::from_ticks(units::gram.ticks);
    const auto& unit = small ? units::milligram : units::gram;
    return fmt::format("{} {}", without_idle_zeros(mass.text(unit, 2, Rounding::down)),
                       unit.symbol());
}

[[noreturn]] void refuse_mixture() {
    throw measure::InputError("A volume was taken for a weight, or a weight for a volume", {},
                              "Liquids are measured by volume and dry products by weight.");
}

// Calls `use` with two stated amounts of the same dimension.
template <class Use>
auto with_same(const StatedAmount& amount, const StatedAmount& device, Use use) {
    if (is_volume(amount) != is_volume(device)) refuse_mixture();
    if (is_volume(amount))
        return use(std::get<StatedVolume>(amount), std::get<StatedVolume>(device));
    return use(std::get<StatedMass>(amount), std::get<StatedMass>(device));
}

}  // namespace

std::int64_t ticks_of(const Amount& amount) {
    return std::visit([](const auto& quantity) { return quantity.ticks(); }, amount);
}

bool is_volume(const Amount& amount) {
    return std::holds_alternative<Volume>(amount);
}
bool is_volume(const StatedAmount& amount) {
    return std::holds_alternative<StatedVolume>(amount);
}

Volume volume_of(const Amount& amount) {
    if (const Volume* volume = std::get_if<Volume>(&amount)) return *volume;
    refuse_mixture();
}
Mass mass_of(const Amount& amount) {
    if (const Mass* mass = std::get_if<Mass>(&amount)) return *mass;
    refuse_mixture();
}

StatedVolume parse_stated_volume(std::string_view text) {
    return stated(text, measure::parse_volume(text));
}
StatedMass parse_stated_mass(std::string_view text) {
    return stated(text, measure::parse_mass(text));
}

Amount amount_of(const StatedAmount& amount) {
    return std::visit([](const auto& stated) -> Amount { return stated.quantity(); }, amount);
}

Amount multiplied(const StatedAmount& amount, std::int64_t times, std::int64_t over) {
    return std::visit(
        [&](const auto& stated) -> Amount {
            using Quantity = decltype(stated.quantity());
            return Quantity::from_ticks(exact_ratio({stated.numerator, stated.unit.ticks, times},
                                                    {stated.denominator, over}, Rounding::down));
        },
        amount);
}

std::int64_t marks(const StatedAmount& amount, std::int64_t times, std::int64_t over,
                   const StatedAmount& device, Rounding rounding) {
    return with_same(amount, device, [&](const auto& stated, const auto& step) {
        return exact_ratio({stated.numerator, stated.unit.ticks, times, step.denominator},
                           {stated.denominator, over, step.numerator, step.unit.ticks}, rounding);
    });
}

std::int64_t marks(const Amount& amount, const StatedAmount& device, Rounding rounding) {
    if (is_volume(amount) != is_volume(device)) refuse_mixture();
    const std::int64_t ticks = ticks_of(amount);
    return std::visit(
        [&](const auto& step) {
            return exact_ratio({ticks, step.denominator}, {step.numerator, step.unit.ticks},
                               rounding);
        },
        device);
}

Amount at_mark(std::int64_t mark, const StatedAmount& device) {
    return multiplied(device, mark, 1);
}

std::string mark_text(std::int64_t mark, const StatedAmount& device) {
    return std::visit(
        [&](const auto& step) {
            const std::string number = measure::decimal_text(
                measure::checked_multiply(mark, step.numerator), step.denominator,
                places_for(step, most_places_of_a_mark), Rounding::nearest);
            return number_and_unit(number, step.unit.name, step.unit.plural);
        },
        device);
}

std::string stated_text(const StatedAmount& amount) {
    return std::visit(
        [&](const auto& stated) -> std::string {
            constexpr int most_places_of_a_label = 9;
            const int places = places_for(stated, most_places_of_a_label);
            const bool is_decimal = places < most_places_of_a_label;
            return number_and_unit(is_decimal
                                       ? measure::decimal_text(stated.numerator, stated.denominator,
                                                               places, Rounding::nearest)
                                       : fmt::format("{}/{}", stated.numerator, stated.denominator),
                                   stated.unit.name, stated.unit.plural);
        },
        amount);
}

std::string twin_text(std::int64_t mark, const StatedAmount& device, Rounding rounding) {
    const Amount amount = at_mark(mark, device);
    return std::visit(
        [&](const auto& step) {
            using Quantity = decltype(step.quantity());
            return twin_of(std::get<Quantity>(amount), step.unit, rounding);
        },
        device);
}

std::string plain_text(const Amount& amount) {
    return std::visit([](const auto& quantity) { return plain(quantity); }, amount);
}

}  // namespace ashtriage::treat
