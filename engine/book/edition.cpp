#include "book/edition.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstdint>
#include <string>

#include "book/backup.hpp"
#include "book/book_error.hpp"
#include "book/schema.hpp"
#include "book/statement.hpp"
#include "book/transaction.hpp"

namespace ashtriage::book {

namespace {

bool is_in_memory(const Database& database) {
    const char* file = sqlite3_db_filename(database.connection(), "main");
    return file == nullptr || *file == '\0';
}

// The first free name beside the book that says what the copy is.
std::filesystem::path free_name(const std::filesystem::path& book, int edition) {
    for (int number = 1;; ++number) {
        std::filesystem::path name = book;
        name += number == 1 ? fmt::format(".edition-{}.backup", edition)
                            : fmt::format(".edition-{}.{}.backup", edition, number);
        if (!std::filesystem::exists(std::filesystem::symlink_status(name))) return name;
    }
}

void run_steps(Database& database, int edition, std::span<const std::string_view> steps) {
    for (const std::string_view step : steps.subspan(static_cast<std::size_t>(edition))) {
        database.execute(std::string{step});
    }
    database.execute(fmt::format("PRAGMA user_version = {}", steps.size()));
    if (!Statement{database, "PRAGMA foreign_key_check"}.rows().empty()) {
        throw BookError(Trouble::damaged,
                        "The book could not be brought up to date: some of its records refer to "
                        "records that are not there",
                        database.path(),
                        "The book is as it was. Run a full check with the edition of the program "
                        "that made it.");
    }
}

}  // namespace

int edition_of(const Database& database, int newest) {
    const std::int64_t id = Statement{database, "PRAGMA application_id"}.number();
    const std::int64_t edition = Statement{database, "PRAGMA user_version"}.number();
    if (id != application_id || edition < 1) {
        throw BookError(
            Trouble::not_a_book,
            is_blank(database) ? "This file is empty, and not a book" : "This file is not a book",
            database.path(),
            is_blank(database) ? "Make a new book there, or give another path."
                               : "Check the path.");
    }
    if (edition > newest) {
        throw BookError(Trouble::newer_edition,
                        fmt::format("The book is of edition {}, and this program knows editions "
                                    "up to {}",
                                    edition, newest),
                        database.path(), "Use the newer program that wrote it.");
    }
    return static_cast<int>(edition);
}

bool is_blank(const Database& database) {
    return Statement{database, "PRAGMA application_id"}.number() == 0 &&
           Statement{database, "PRAGMA user_version"}.number() == 0 &&
           Statement{database, "SELECT count(*) FROM sqlite_schema"}.number() == 0;
}

void make_book(Database& database, std::span<const std::string_view> steps) {
    Transaction transaction{database};
    if (!is_blank(database)) {
        throw BookError(Trouble::exists, "There is a file of this name already", database.path(),
                        "Choose another name, or open the book that is there.");
    }
    database.execute(fmt::format("PRAGMA application_id = {}", application_id));
    run_steps(database, 0, steps);
    transaction.keep();
}

std::optional<std::filesystem::path> bring_up_to_date(Database& database,
                                                      std::span<const std::string_view> steps) {
    const int newest = static_cast<int>(steps.size());
    if (edition_of(database, newest) == newest) return std::nullopt;

    // Steps may rebuild tables that others refer to, and this switch works outside of transactions
    // alone; run_steps checks all references before anything is kept.
    database.execute("PRAGMA foreign_keys = OFF");
    std::optional<std::filesystem::path> copy;
    {
        Transaction transaction{database};
        // Another program may have done it while this one waited for its turn.
        const int edition = edition_of(database, newest);
        if (edition < newest) {
            if (!is_in_memory(database)) {
                copy = free_name(database.path(), edition);
                // Through a second connection, since this one is about to write.
                copy_to_new_file(Database::open(database.path(), Access::read_only), *copy);
            }
            run_steps(database, edition, steps);
        }
        transaction.keep();
    }
    database.execute("PRAGMA foreign_keys = ON");
    return copy;
}

}  // namespace ashtriage::book
