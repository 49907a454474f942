// The units that number facts and settings of a rule pack may have.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/units.hpp"

namespace ashtriage::packs {

struct FactUnit {
    std::string_view name;       // as rule packs write it: "inches"
    std::string_view one;        // behind the number 1: "in", "tree height"; empty for a count
    std::string_view several;    // behind any other number
    bool whole_numbers = false;  // a count has no fractions
    // Lengths: the unit as a measure, so that other length units can be converted to it.
    std::optional<measure::LengthUnit> length;
};

// The unit of that name, or null.
const FactUnit* find_fact_unit(std::string_view name);

std::vector<std::string> fact_unit_names();

// Whether `written` is a way to write this unit: its name, its short form, and for lengths and
// percent what measure/units.hpp lists.
bool is_fact_unit(const FactUnit& unit, std::string_view written);

// The number with its unit in words, "35 %", "1 tree height". All digits that are needed to read
// the same number back, or, when `places` is given, at most so many after the point.
std::string number_with_unit(double number, std::string_view unit_name,
                             std::optional<int> places = std::nullopt);

// The plain decimal text of a number, never with an exponent.
std::string number_text(double number, std::optional<int> places = std::nullopt);

}  // namespace ashtriage::packs
