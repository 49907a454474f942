// Reading the file in which the user describes the crews, and an example of one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/crew.hpp"

namespace ashtriage::plan {

// The crews of a file; `name` is how messages call it, `methods` are those that a rule set knows.
// Throws packs::BadFile with every problem and its place: an unknown entry or method with the
// nearest one that exists, a crew without a day to work on, more than 24 hours a day, a last day
// before the first, a name that two crews have.
Crews read_crews(std::string_view text, const std::string& name,
                 const std::vector<std::string>& methods);

// A file of two invented crews, every entry explained; its figures are examples. It reads as it is.
std::string_view example_crew_file();

}  // namespace ashtriage::plan
