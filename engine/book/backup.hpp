// Copies of whole books, made through SQLite so that a copy is never half of a change.
#pragma once

#include <chrono>
#include <filesystem>

#include "book/database.hpp"

namespace ashtriage::book {

// Replaces all of `to` by what is in `from`: on success `to` is the same, page by page, and on
// failure or interruption it is as it was. Throws BookError.
void copy_content(const Database& from, Database& to);

// Copies the book to the new file `to`, which must not exist. A failed copy leaves no file.
void copy_to_new_file(const Database& from, const std::filesystem::path& to);

enum class IfThere { refuse, overwrite };

// Makes the book at `to` the same as the backup, after a full check of the backup. With
// IfThere::overwrite a book that is there is replaced, even a damaged one as long as its first
// bytes show that it is a book; a file of another kind never is. The backup may be of an older
// edition: it is brought up to date when the book is next opened.
void restore(const std::filesystem::path& backup, const std::filesystem::path& to, IfThere if_there,
             std::chrono::milliseconds patience = usual_patience);

}  // namespace ashtriage::book
