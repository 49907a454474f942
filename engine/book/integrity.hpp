// Whether a book still holds what was written into it.
#pragma once

#include <string>
#include <vector>

#include "book/database.hpp"

namespace ashtriage::book {

// The structure of the file alone, without reading every value. One entry per problem.
std::vector<std::string> quick_problems(const Database& database);

// Everything that can be checked without the rules: structure and constraints of the file,
// references, tables against those of its edition, the seal of every record, and the order of
// dates. One entry per problem, in plain words; empty when all is well. Throws BookError when the
// file cannot be read at all.
std::vector<std::string> all_problems(const Database& database);

}  // namespace ashtriage::book
