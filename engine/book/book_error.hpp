// What can go wrong with the file that is the book, as opposed to what is written into it.
#pragma once

#include <filesystem>
#include <string>

#include "measure/input_error.hpp"

struct sqlite3;

namespace ashtriage::book {

enum class Trouble {
    missing,        // there is no such file
    exists,         // there is one already and it would be written over
    not_a_book,     // a file of another kind
    newer_edition,  // written by a later edition of this program
    in_use,         // another program is writing
    disk_full,
    read_only,  // the file or its folder may not be written
    damaged,    // what is stored is not what was written
    refused,    // the book's own rules forbid it, such as a change to what was seen
    failed,     // anything else, with SQLite's own words
};

// The book cannot be used as asked. where(): the path of the file.
class BookError : public measure::InputError {
 public:
    BookError(Trouble trouble, const std::string& what, const std::filesystem::path& path,
              std::string hint = {});

    Trouble trouble() const { return trouble_; }

 private:
    Trouble trouble_;
};

// Throws the BookError that stands for an SQLite result code; `connection`, which may be null, is
// asked for SQLite's own words.
[[noreturn]] void throw_trouble(int code, sqlite3* connection, const std::filesystem::path& path);

}  // namespace ashtriage::book
