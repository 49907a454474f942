#include "book/book_error.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

namespace ashtriage::book {

BookError::BookError(Trouble trouble, const std::string& what, const std::filesystem::path& path,
                     std::string hint)
    : InputError(what, path.string(), std::move(hint)), trouble_(trouble) {}

void throw_trouble(int code, sqlite3* connection, const std::filesystem::path& path) {
    const std::string words = connection != nullptr ? sqlite3_errmsg(connection)  //
                                                    : sqlite3_errstr(code);
    if (code == SQLITE_READONLY_ROLLBACK || code == SQLITE_READONLY_RECOVERY) {
        throw BookError(Trouble::read_only,
                        "The last change to the book was cut short and must be undone before it "
                        "can be read, but the book may not be written",
                        path,
                        "Copy the book together with the file of the same name that ends in "
                        "'-journal' to a folder you may write to, and open it there.");
    }
    switch (code & 0xff) {  // the primary code of an extended one
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            throw BookError(Trouble::in_use, "The book is in use by another program", path,
                            "Close the other program, or wait until it has finished, and try "
                            "again. Nothing was changed.");
        case SQLITE_FULL:
            throw BookError(Trouble::disk_full, "The disk is full: the change was not kept", path,
                            "Free some space and try again. The book is as it was before.");
        case SQLITE_READONLY:
        case SQLITE_PERM:
            throw BookError(Trouble::read_only, "The book may not be written", path,
                            "Change the permissions of the file and its folder, or copy the book "
                            "to a folder you may write to.");
        case SQLITE_CANTOPEN:
            throw BookError(Trouble::read_only,
                            "The book, or the journal beside it, could not be opened", path,
                            "The program needs permission to write to the folder that holds the "
                            "book.");
        case SQLITE_NOTADB:
            throw BookError(Trouble::not_a_book, "This file is not a book", path,
                            "Check the path. If it used to be a book, its beginning has been "
                            "damaged: restore a backup.");
        case SQLITE_CORRUPT:
            throw BookError(Trouble::damaged, fmt::format("The book is damaged ({})", words), path,
                            "Keep a copy of the file as it is, and restore a backup.");
        case SQLITE_IOERR:
            throw BookError(Trouble::failed,
                            fmt::format("The book could not be read or written ({})", words), path,
                            "Check the disk, its free space and the connection to it. An "
                            "unfinished change is undone when the book is next opened.");
        case SQLITE_CONSTRAINT:
            throw BookError(Trouble::refused, fmt::format("The book refuses this: {}", words),
                            path);
        default:
            throw BookError(
                Trouble::failed,
                fmt::format("The book could not be used: {} (SQLite code {})", words, code), path);
    }
}

}  // namespace ashtriage::book
