// The walk-around sheet of the demonstration property, built into the program.
#pragma once

#include <string_view>

namespace ashtriage::cli {

std::string_view demo_sheet();

}  // namespace ashtriage::cli
