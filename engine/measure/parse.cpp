#include "measure/parse.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

#include "measure/letters.hpp"
#include "measure/nearest_name.hpp"
#include "measure/number.hpp"
#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

// The units of each dimension, in the order messages list them.
template <class Dimension>
struct Known;
template <>
struct Known<LengthDimension> {
    static constexpr std::string_view example = "14 in";
    static constexpr std::array units = {&units::inch,       &units::foot,       &units::mile,
                                         &units::millimetre, &units::centimetre, &units::metre,
                                         &units::kilometre};
};
template <>
struct Known<AreaDimension> {
    static constexpr std::string_view example = "600 sq ft";
    static constexpr std::array units = {&units::square_inch, &units::square_foot, &units::acre,
                                         &units::square_metre, &units::hectare};
};
template <>
struct Known<VolumeDimension> {
    static constexpr std::string_view example = "16 fl oz";
    static constexpr std::array units = {
        &units::us_fluid_ounce,      &units::us_pint,    &units::us_quart,
        &units::us_gallon,           &units::millilitre, &units::litre,
        &units::imperial_fluid_ounce};
};
template <>
struct Known<MassDimension> {
    static constexpr std::string_view example = "1.6 oz (weight)";
    static constexpr std::array units = {&units::avoirdupois_ounce, &units::pound,
                                         &units::milligram, &units::gram, &units::kilogram};
};
template <>
struct Known<PercentDimension> {
    static constexpr std::string_view example = "30 %";
    static constexpr std::array units = {&units::percent};
};
template <>
struct Known<TemperatureDimension> {
    static constexpr std::string_view example = "68 °F";
    static constexpr std::array units = {&units::celsius, &units::fahrenheit};
};
template <>
struct Known<SpeedDimension> {
    static constexpr std::string_view example = "10 mph";
    static constexpr std::array units{&units::mile_per_hour, &units::kilometre_per_hour,
                                      &units::metre_per_second};
};
template <>
struct Known<MoneyDimension> {
    static constexpr std::string_view example = "$12.50";
    static constexpr std::array units = {&units::dollar};
};

bool is_blank(char c) {
    return c == ' ' || c == '\t';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool in_number(char c) {
    return is_digit(c) || c == '.' || c == ',' || c == '-' || c == '+';
}

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

// Takes the longest start of `text` whose characters all fit off it.
template <class Fits>
std::string_view take_while(std::string_view& text, Fits fits) {
    const auto end = std::find_if_not(text.begin(), text.end(), fits);
    const auto count = static_cast<std::size_t>(end - text.begin());
    const std::string_view taken = text.substr(0, count);
    text.remove_prefix(count);
    return taken;
}

// Lower case, one blank between words, no point after a letter: "Fl.  Oz." becomes "fl oz".
std::string plain_form(std::string_view written) {
    std::string plain;
    for (const char c : trimmed(written)) {
        const char before = plain.empty() ? ' ' : plain.back();
        const bool between_words = is_blank(c) || (c == '.' && is_letter(before));
        if (!between_words) plain += lower(c);
        if (between_words && before != ' ') plain += ' ';
    }
    return std::string(trimmed(plain));
}

// Whether `symbol`, as listed in units.hpp, is `plain` but for capitals.
bool same_letters(std::string_view plain, std::string_view symbol) {
    return std::equal(plain.begin(), plain.end(), symbol.begin(), symbol.end(),
                      [](char a, char b) { return a == lower(b); });
}

template <class Dimension>
bool measures(std::string_view written) {
    return find_unit<Dimension>(written) != nullptr;
}

// What a known unit measures, whatever its dimension; empty for an unknown one.
std::string_view measured_by(std::string_view written) {
    if (measures<LengthDimension>(written)) return LengthDimension::called;
    if (measures<AreaDimension>(written)) return AreaDimension::called;
    if (measures<VolumeDimension>(written)) return VolumeDimension::called;
    if (measures<MassDimension>(written)) return MassDimension::called;
    if (measures<PercentDimension>(written)) return PercentDimension::called;
    if (measures<TemperatureDimension>(written)) return TemperatureDimension::called;
    if (measures<SpeedDimension>(written)) return SpeedDimension::called;
    if (measures<MoneyDimension>(written)) return MoneyDimension::called;
    return {};
}

bool is_bare_ounce(std::string_view written) {
    const std::string plain = plain_form(written);
    return plain == "oz" || plain == "ozs" || plain == "ounce" || plain == "ounces";
}

template <class Dimension>
std::string known_symbols() {
    std::string list;
    for (const auto* unit : Known<Dimension>::units) {
        if (!list.empty()) list += ", ";
        list += unit->symbol();
    }
    return list;
}

// What was written in front of a unit: a decimal number, a fraction, or a whole number and a
// fraction.
struct Amount {
    std::string_view number;  // empty for a fraction alone
    std::string_view numerator;
    std::string_view denominator;

    bool has_fraction() const { return !denominator.empty(); }
    bool negative() const { return number.starts_with('-') || numerator.starts_with('-'); }
};

// Takes "/ digits" off `text`, if it starts so.
std::string_view take_denominator(std::string_view& text) {
    if (!text.starts_with('/')) return {};
    text.remove_prefix(1);
    return take_while(text, is_digit);
}

Amount take_amount(std::string_view& text) {
    Amount amount;
    amount.number = take_while(text, in_number);
    if (text.starts_with('/')) {
        amount.numerator = amount.number;
        amount.number = {};
        amount.denominator = take_denominator(text);
        return amount;
    }
    std::string_view ahead = text;
    const bool blank_follows = !take_while(ahead, is_blank).empty();
    const std::string_view numerator = take_while(ahead, is_digit);
    const std::string_view denominator = take_denominator(ahead);
    if (blank_follows && !numerator.empty() && !denominator.empty()) {
        amount.numerator = numerator;
        amount.denominator = denominator;
        text = ahead;
    }
    return amount;
}

template <class Dimension>
class Reader {
 public:
    using UnitType = Unit<Dimension>;

    Reader(std::string_view text, const std::optional<UnitType>& bare_unit)
        : whole_(trimmed(text)), bare_unit_(bare_unit) {}

    Quantity<Dimension> read() const {
        if (whole_.empty()) {
            throw InputError(
                std::string(Dimension::called) + " was expected, and nothing was given", {},
                example());
        }
        std::string_view rest = whole_;
        const bool dollar_first = takes_dollar_sign(rest);
        const Amount amount = take_amount(rest);
        if (amount.number.empty() && !amount.has_fraction()) {
            throw InputError(quoted(whole_) + " does not start with a plainly written number", {},
                             example());
        }
        rest = trimmed(rest);
        if constexpr (!Dimension::affine) {
            if (amount.negative()) {
                throw InputError(quoted(whole_) + " is less than zero, which " +
                                     std::string(Dimension::called) + " cannot be",
                                 {}, "Leave out the minus.");
            }
        }
        if (dollar_first && rest.empty()) rest = "$";
        if constexpr (std::is_same_v<Dimension, LengthDimension>) {
            if (const std::optional<Length> length = feet_and_inches(amount, rest)) return *length;
        }
        return value_of(amount, unit_of(rest));
    }

 private:
    static std::string example() {
        return "Write a number and a unit (" + known_symbols<Dimension>() + "), such as " +
               std::string(Known<Dimension>::example) + ".";
    }

    static bool takes_dollar_sign(std::string_view& text) {
        if constexpr (std::is_same_v<Dimension, MoneyDimension>) {
            if (text.starts_with('$')) {
                text = trimmed(text.substr(1));
                return true;
            }
        }
        return false;
    }

    [[noreturn]] void refuse_fraction() const {
        throw InputError(quoted(whole_) + " has a fraction that cannot be read", {},
                         "Write it like 1/2 or 14 1/2, or as a decimal number such as 14.5.");
    }

    Quantity<Dimension> value_of(const Amount& amount, const UnitType& unit) const {
        if (!amount.has_fraction()) return Quantity<Dimension>::of(amount.number, unit);
        if constexpr (Dimension::affine) {
            refuse_fraction();
        } else {
            return number_and_fraction(amount, unit);
        }
    }

    Quantity<Dimension> number_and_fraction(const Amount& amount, const UnitType& unit) const {
        constexpr std::size_t most_digits = 6;
        if (amount.numerator.size() > most_digits || amount.denominator.size() > most_digits) {
            refuse_fraction();
        }
        const Decimal numerator = require_decimal(amount.numerator);
        const Decimal denominator = require_decimal(amount.denominator);
        if (numerator.places != 0 || denominator.digits == 0) refuse_fraction();
        Quantity<Dimension> value;
        if (!amount.number.empty()) {
            const bool proper = numerator.digits < denominator.digits;
            if (require_decimal(amount.number).places != 0 || !proper) refuse_fraction();
            value = Quantity<Dimension>::of(amount.number, unit);
        }
        return value + Quantity<Dimension>::from_ticks(unit.ticks)
                           .scaled(numerator.digits, denominator.digits, Rounding::nearest);
    }

    // "5 ft 6 in", given the amount in front and the text from the first unit on; nothing if it is
    // not written so.
    std::optional<Length> feet_and_inches(const Amount& feet, std::string_view rest) const {
        if (!measured_by(rest).empty()) return std::nullopt;  // one unit alone, perhaps "ft2"
        const std::string_view first_unit = take_while(rest, [](char c) { return !is_digit(c); });
        if (rest.empty() || find_unit<LengthDimension>(first_unit) != &units::foot) {
            return std::nullopt;
        }
        const Amount inches = take_amount(rest);
        if (find_unit<LengthDimension>(rest) != &units::inch) {
            throw InputError(quoted(whole_) + " gives feet and then something other than inches",
                             {}, "Write it like 5 ft 6 in, or use one unit.");
        }
        const Length feet_part = value_of(feet, units::foot);
        const Length inches_part = value_of(inches, units::inch);
        const Length one_foot = Length::from_ticks(units::foot.ticks);
        if (feet.has_fraction() || feet_part.rounded_to(one_foot, Rounding::down) != feet_part ||
            inches_part >= one_foot) {
            throw InputError(quoted(whole_) + " is not whole feet and less than 12 inches", {},
                             "Write it like 5 ft 6 in, or use one unit.");
        }
        return feet_part + inches_part;
    }

    UnitType unit_of(std::string_view written) const {
        if (written.empty()) {
            if (bare_unit_) return *bare_unit_;
            throw InputError(quoted(whole_) + " has no unit", {},
                             "Add one: " + known_symbols<Dimension>() + ".");
        }
        if (const UnitType* unit = find_unit<Dimension>(written)) return *unit;
        if (is_bare_ounce(written)) {
            throw InputError(
                quoted(whole_) + " could be fluid ounces (a volume) or ounces of weight", {},
                "Write 'fl oz' for a volume or 'oz (weight)' for a weight.");
        }
        if (const std::string_view other = measured_by(written); !other.empty()) {
            throw InputError(quoted(whole_) + " is " + std::string(other) + "; " +
                                 std::string(Dimension::called) + " was expected",
                             {}, "Use one of these units: " + known_symbols<Dimension>() + ".");
        }
        refuse_unknown_unit(written);
    }

    [[noreturn]] void refuse_unknown_unit(std::string_view written) const {
        if (std::any_of(written.begin(), written.end(), is_digit)) {
            throw InputError(quoted(whole_) + " is not one plainly written number and a unit", {},
                             example());
        }
        std::vector<std::string_view> names;
        for (const auto* unit : Known<Dimension>::units) {
            names.insert(names.end(), unit->symbols.begin(),
                         std::find(unit->symbols.begin(), unit->symbols.end(), ""));
        }
        std::string hint = "Known units: " + known_symbols<Dimension>() + ".";
        if (const auto nearest = nearest_name(plain_form(written), names)) {
            hint = "Did you mean " + quoted(*nearest) + "? " + hint;
        }
        throw InputError(quoted(written) + " in " + quoted(whole_) + " is not a known unit of " +
                             std::string(Dimension::called),
                         {}, hint);
    }

    std::string_view whole_;
    const std::optional<UnitType>& bare_unit_;
};

}  // namespace

template <class Dimension>
const Unit<Dimension>* find_unit(std::string_view written) {
    const std::string plain = plain_form(written);
    if (plain.empty()) return nullptr;
    for (const Unit<Dimension>* unit : Known<Dimension>::units) {
        for (const std::string_view symbol : unit->symbols) {
            if (same_letters(plain, symbol)) return unit;
        }
    }
    return nullptr;
}

template const LengthUnit* find_unit<LengthDimension>(std::string_view);
template const AreaUnit* find_unit<AreaDimension>(std::string_view);
template const VolumeUnit* find_unit<VolumeDimension>(std::string_view);
template const MassUnit* find_unit<MassDimension>(std::string_view);
template const PercentUnit* find_unit<PercentDimension>(std::string_view);
template const TemperatureUnit* find_unit<TemperatureDimension>(std::string_view);
template const SpeedUnit* find_unit<SpeedDimension>(std::string_view);
template const MoneyUnit* find_unit<MoneyDimension>(std::string_view);

Length parse_length(std::string_view text, std::optional<LengthUnit> bare_unit) {
    return Reader<LengthDimension>(text, bare_unit).read();
}
Area parse_area(std::string_view text, std::optional<AreaUnit> bare_unit) {
    return Reader<AreaDimension>(text, bare_unit).read();
}
Volume parse_volume(std::string_view text, std::optional<VolumeUnit> bare_unit) {
    return Reader<VolumeDimension>(text, bare_unit).read();
}
Mass parse_mass(std::string_view text, std::optional<MassUnit> bare_unit) {
    return Reader<MassDimension>(text, bare_unit).read();
}
Percent parse_percent(std::string_view text, std::optional<PercentUnit> bare_unit) {
    return Reader<PercentDimension>(text, bare_unit).read();
}
Temperature parse_temperature(std::string_view text, std::optional<TemperatureUnit> bare_unit) {
    return Reader<TemperatureDimension>(text, bare_unit).read();
}
Speed parse_speed(std::string_view text, std::optional<SpeedUnit> bare_unit) {
    return Reader<SpeedDimension>(text, bare_unit).read();
}
Money parse_money(std::string_view text, std::optional<MoneyUnit> bare_unit) {
    return Reader<MoneyDimension>(text, bare_unit).read();
}

}  // namespace ashtriage::measure
