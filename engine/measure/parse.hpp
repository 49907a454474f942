// Reading amounts as people write them: "14 in", "35.6 cm", "5'6\"", "14 1/2 in", "1.6 oz
// (weight)".
//
// Every function takes the whole text; blanks at either end do not matter. A number without a unit
// is refused unless `bare_unit` says what it means. All throw InputError when the text is empty,
// does not start with a plainly written number (see number.hpp), has an unknown unit or one that
// measures something else, or is negative (temperatures alone may be). A bare "oz" is refused with
// the two readings it could have.
#pragma once

#include <optional>
#include <string_view>

#include "measure/quantity.hpp"

namespace ashtriage::measure {

// Fractions ("1/2 in", "14 1/2 in") and, for lengths, feet with inches ("5 ft 6 in") are
// understood.
Length parse_length(std::string_view text, std::optional<LengthUnit> bare_unit = std::nullopt);
Area parse_area(std::string_view text, std::optional<AreaUnit> bare_unit = std::nullopt);
Volume parse_volume(std::string_view text, std::optional<VolumeUnit> bare_unit = std::nullopt);
Mass parse_mass(std::string_view text, std::optional<MassUnit> bare_unit = std::nullopt);
// More than 100 percent is accepted; which range makes sense is for the caller to know.
Percent parse_percent(std::string_view text, std::optional<PercentUnit> bare_unit = std::nullopt);
Temperature parse_temperature(std::string_view text,
                              std::optional<TemperatureUnit> bare_unit = std::nullopt);
Speed parse_speed(std::string_view text, std::optional<SpeedUnit> bare_unit = std::nullopt);
// "$12.50" and "12.50 dollars".
Money parse_money(std::string_view text, std::optional<MoneyUnit> bare_unit = std::nullopt);

// The unit of one dimension that is written so ("in", "Inches", "fl. oz."), or null. Instantiated
// for every dimension of quantity.hpp.
template <class Dimension>
const Unit<Dimension>* find_unit(std::string_view written);

}  // namespace ashtriage::measure
