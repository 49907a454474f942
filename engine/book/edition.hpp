// Whether a file is a book, of which edition, and how it becomes one of the newest.
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string_view>

#include "book/database.hpp"

namespace ashtriage::book {

// The edition of the book in `database`. Throws BookError when it is not a book (not_a_book) or was
// made by a later edition of this program (newer_edition).
int edition_of(const Database& database, int newest);

// A file without any content yet, as a connection with Access::create leaves it.
bool is_blank(const Database& database);

// Makes a book in a blank database; throws BookError (exists) when it is not blank.
void make_book(Database& database, std::span<const std::string_view> steps);

// Takes an older book through the steps it lacks, in one transaction. A copy of the book as it was
// is made beside it first and its path given back; nothing is done to a book that is up to date.
// An in-memory database gets no copy: it is one.
std::optional<std::filesystem::path> bring_up_to_date(Database& database,
                                                      std::span<const std::string_view> steps);

}  // namespace ashtriage::book
