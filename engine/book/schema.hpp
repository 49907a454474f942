// The tables of a book, as the steps that lead from each edition of the book to the next.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace ashtriage::book {

// Marks a file as a book in its SQLite header ("ASHT" in ASCII).
inline constexpr std::int64_t application_id = 0x41534854;

// SQL scripts: the first makes a book of edition 1 out of nothing, each further one makes the next
// edition out of the one before. A step that has been released is never changed.
std::span<const std::string_view> steps_of_schema();

// The edition that steps_of_schema() leads to.
int newest_edition();

}  // namespace ashtriage::book
