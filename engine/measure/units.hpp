// The units this program knows. Factors are exact: NIST SP 811, Appendix B; NIST Handbook 44,
// Appendix C; international foot and acre (85 FR 62698, 5 October 2020).
//
// Symbols are compared without regard to case, points or doubled spaces. A bare "oz" belongs to no
// unit: it could be a volume or a weight.
#pragma once

#include "measure/quantity.hpp"

namespace ashtriage::measure::units {

inline constexpr LengthUnit millimetre{
    "millimetre",
    "millimetres",
    {"mm", "millimetre", "millimetres", "millimeter", "millimeters"},
    1'000'000};
inline constexpr LengthUnit centimetre{
    "centimetre",
    "centimetres",
    {"cm", "centimetre", "centimetres", "centimeter", "centimeters"},
    10'000'000};
inline constexpr LengthUnit metre{
    "metre", "metres", {"m", "metre", "metres", "meter", "meters"}, 1'000'000'000};
inline constexpr LengthUnit kilometre{"kilometre",
                                      "kilometres",
                                      {"km", "kilometre", "kilometres", "kilometer", "kilometers"},
                                      1'000'000'000'000};
inline constexpr LengthUnit inch{
    "inch", "inches", {"in", "inch", "inches", "\"", "″", "”", "''"}, 25'400'000};
inline constexpr LengthUnit foot{
    "foot", "feet", {"ft", "foot", "feet", "'", "′", "’"}, 304'800'000};
inline constexpr LengthUnit mile{"mile", "miles", {"mi", "mile", "miles"}, 1'609'344'000'000};

inline constexpr AreaUnit square_inch{
    "square inch",
    "square inches",
    {"sq in", "square inch", "square inches", "in2", "in²", "in^2"},
    64'516};
inline constexpr AreaUnit square_foot{"square foot",
                                      "square feet",
                                      {"sq ft", "square foot", "square feet", "ft2", "ft²", "ft^2"},
                                      9'290'304};
inline constexpr AreaUnit acre{"acre", "acres", {"ac", "acre", "acres"}, 404'685'642'240};
inline constexpr AreaUnit square_metre{
    "square metre",
    "square metres",
    {"m2", "m²", "m^2", "sq m", "square metre", "square metres", "square meter", "square meters"},
    100'000'000};
inline constexpr AreaUnit hectare{
    "hectare", "hectares", {"ha", "hectare", "hectares"}, 1'000'000'000'000};

inline constexpr VolumeUnit us_fluid_ounce{
    "US fluid ounce",
    "US fluid ounces",
    {"fl oz", "floz", "fluid ounce", "fluid ounces", "us fl oz", "us fluid ounce",
     "us fluid ounces", "us_fl_oz"},
    295'735'295'625};
inline constexpr VolumeUnit us_pint{"US pint",
                                    "US pints",
                                    {"pt", "pint", "pints", "us pt", "us pint", "us pints"},
                                    4'731'764'730'000};
inline constexpr VolumeUnit us_quart{"US quart",
                                     "US quarts",
                                     {"qt", "quart", "quarts", "us qt", "us quart", "us quarts"},
                                     9'463'529'460'000};
inline constexpr VolumeUnit us_gallon{
    "US gallon",
    "US gallons",
    {"gal", "gallon", "gallons", "us gal", "us gallon", "us gallons"},
    37'854'117'840'000};
inline constexpr VolumeUnit imperial_fluid_ounce{
    "imperial fluid ounce",
    "imperial fluid ounces",
    {"imp fl oz", "imperial fl oz", "imperial fluid ounce", "imperial fluid ounces", "imp_fl_oz"},
    284'130'625'000};
inline constexpr VolumeUnit millilitre{
    "millilitre",
    "millilitres",
    {"mL", "millilitre", "millilitres", "milliliter", "milliliters", "cc"},
    10'000'000'000};
inline constexpr VolumeUnit litre{
    "litre", "litres", {"L", "litre", "litres", "liter", "liters"}, 10'000'000'000'000};

inline constexpr MassUnit milligram{
    "milligram", "milligrams", {"mg", "milligram", "milligrams"}, 1'000'000};
inline constexpr MassUnit gram{"gram", "grams", {"g", "gram", "grams"}, 1'000'000'000};
inline constexpr MassUnit kilogram{
    "kilogram", "kilograms", {"kg", "kilogram", "kilograms"}, 1'000'000'000'000};
inline constexpr MassUnit avoirdupois_ounce{
    "ounce (weight)",
    "ounces (weight)",
    {"oz (weight)", "oz av", "oz avdp", "oz weight", "oz wt", "ounce (weight)", "ounces (weight)",
     "avoirdupois ounces"},
    28'349'523'125};
inline constexpr MassUnit pound{
    "pound", "pounds", {"lb", "lbs", "pound", "pounds"}, 453'592'370'000};

inline constexpr PercentUnit percent{
    "percent", "percent", {"%", "percent", "per cent", "pct"}, 1'000'000};

// F = 1.8 C + 32 exactly, 0 C = 273.15 K (NIST SP 811).
inline constexpr TemperatureUnit celsius{
    "degree Celsius",
    "degrees Celsius",
    {"°C", "C", "deg C", "celsius", "degree celsius", "degrees celsius"},
    18'000,
    4'916'700};
inline constexpr TemperatureUnit fahrenheit{
    "degree Fahrenheit",
    "degrees Fahrenheit",
    {"°F", "F", "deg F", "fahrenheit", "degree fahrenheit", "degrees fahrenheit"},
    10'000,
    4'596'700};

inline constexpr SpeedUnit mile_per_hour{
    "mile per hour",
    "miles per hour",
    {"mph", "mi/h", "mile per hour", "miles per hour", "miles an hour"},
    1'609'344};
inline constexpr SpeedUnit kilometre_per_hour{
    "kilometre per hour",
    "kilometres per hour",
    {"km/h", "kmh", "kph", "kilometres per hour", "kilometers per hour", "kilometre per hour"},
    1'000'000};
inline constexpr SpeedUnit metre_per_second{
    "metre per second",
    "metres per second",
    {"m/s", "metre per second", "metres per second", "meters per second"},
    3'600'000};

inline constexpr MoneyUnit dollar{"dollar", "dollars", {"$", "dollar", "dollars", "usd"}, 10'000};

}  // namespace ashtriage::measure::units
