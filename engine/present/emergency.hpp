// Whom to call.
#pragma once

#include <string_view>

namespace ashtriage::present {

// Poison help and spills, with the advice to check the numbers.
std::string_view emergency_numbers();

}  // namespace ashtriage::present
