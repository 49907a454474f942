// Amounts in what is said to people: in the unit that they measure it out in, with its metric twin.
#pragma once

#include <string>

#include "treat/amount.hpp"

namespace ashtriage::treat {

// "5.5 US fluid ounces (162.65 mL)" beside a cup with marks in fluid ounces, "162.65 mL" beside one
// in millilitres. With up to two digits after the point, rounded down. The amount and the device
// are both of a volume, or both of a weight; otherwise the amount is given in metric units.
std::string beside(const Amount& amount, const StatedAmount& device);

}  // namespace ashtriage::treat
