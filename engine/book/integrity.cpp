#include "book/integrity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string_view>

#include "book/applications.hpp"
#include "book/backup.hpp"
#include "book/book_error.hpp"
#include "book/drafts.hpp"
#include "book/edition.hpp"
#include "book/recommendations.hpp"
#include "book/schema.hpp"
#include "book/statement.hpp"
#include "book/tables.hpp"
#include "book/uses.hpp"
#include "book/walk_arounds.hpp"

namespace ashtriage::book {

namespace {

using Problems = std::vector<std::string>;

// What SQLite itself finds; it answers with the single word "ok" when there is nothing.
Problems found_by_sqlite(const Database& database, std::string_view pragma) {
    Problems problems;
    for (const Row& row : Statement{database, pragma}.rows()) {
        std::string text = RowReader{row, database.path()}.text();
        if (text != "ok") problems.push_back(fmt::format("The file is damaged: {}", text));
    }
    return problems;
}

void add_dangling_references(const Database& database, Problems& problems) {
    // Columns: table, row (empty without one), table referred to, number of the foreign key.
    for (const Row& row : Statement{database, "PRAGMA foreign_key_check"}.rows()) {
        RowReader reader{row, database.path()};
        const std::string table = reader.text();
        const std::optional<std::int64_t> id = reader.optional_integer();
        const std::string target = reader.text();
        problems.push_back(fmt::format("A record in '{}'{} refers to one in '{}' that is not there",
                                       table, id ? fmt::format(" (number {})", *id) : "", target));
    }
}

// Tables, indexes and triggers with the text that made them.
Problems definitions(const Database& database) {
    Statement select_definitions{database,
                                 "SELECT type || ' ' || name || ': ' || coalesce(sql, '') "
                                 "FROM sqlite_schema ORDER BY type, name"};
    Problems texts;
    for (const Row& row : select_definitions.rows()) {
        texts.push_back(RowReader{row, database.path()}.text());
    }
    return texts;
}

void add_differences_of_schema(const Database& database, int edition, Problems& problems) {
    Database fresh = Database::in_memory(database.path());
    make_book(fresh, steps_of_schema().first(static_cast<std::size_t>(edition)));
    const Problems expected = definitions(fresh);
    const Problems present = definitions(database);
    const auto add_missing = [&problems](const Problems& from, const Problems& in,
                                         std::string_view how) {
        for (const std::string& text : from) {
            if (std::find(in.begin(), in.end(), text) != in.end()) continue;
            problems.push_back(fmt::format("The {} {}", text.substr(0, text.find(':')), how));
        }
    };
    add_missing(expected, present, "is missing or was changed");
    add_missing(present, expected, "does not belong in a book of this edition");
}

// Reads each record of a table for itself, so that one damaged record does not hide another.
void add_unreadable(const Database& database, std::string_view table,
                    const std::function<void(std::int64_t)>& read, Problems& problems) {
    for (const Row& row :
         Statement{database, fmt::format("SELECT id FROM {} ORDER BY id", table)}.rows()) {
        try {
            read(RowReader{row, database.path()}.integer());
        } catch (const BookError& error) {
            problems.emplace_back(error.what());
        }
    }
}

void add_broken_seals(const Database& database, Problems& problems) {
    for (const SealedTable* table :
         {&clients_table(), &sites_table(), &trees_table(), &earlier_descriptions_table()}) {
        add_unreadable(
            database, table->name,
            [&](std::int64_t id) { select(database, *table, "WHERE id = ?", Row{}.add(id)); },
            problems);
    }
    add_unreadable(
        database, walk_arounds_table().name,
        [&](std::int64_t id) { find_walk_around(database, id); }, problems);
    add_unreadable(
        database, recommendations_table().name,
        [&](std::int64_t id) { find_recommendation(database, id); }, problems);
    add_unreadable(
        database, applications_table().name,
        [&](std::int64_t id) { find_application(database, id); }, problems);
    add_unreadable(
        database, other_uses_table().name, [&](std::int64_t id) { find_other_use(database, id); },
        problems);
    add_unreadable(
        database, raised_allowances_table().name,
        [&](std::int64_t id) { find_raised_allowance(database, id); }, problems);
    try {
        read_drafts(database);
    } catch (const BookError& error) {
        problems.emplace_back(error.what());
    }
}

// A problem for each row that `sql` selects, with its two cells put into `text`.
void add_found(const Database& database, std::string_view sql, fmt::string_view text,
               Problems& problems) {
    for (const Row& row : Statement{database, sql}.rows()) {
        RowReader reader{row, database.path()};
        const std::int64_t id = reader.integer();
        problems.push_back(fmt::format(fmt::runtime(text), id, reader.text()));
    }
}

void add_wrong_order(const Database& database, Problems& problems) {
    add_found(database,
              "SELECT r.id, r.made_on || ', before its walk-around of ' || w.seen_on "
              "FROM recommendations r JOIN walk_arounds w ON w.id = r.walk_around "
              "WHERE r.made_on < w.seen_on",
              "The recommendation number {} is dated {}", problems);
    // What is corrected was written, or corrected itself, before.
    add_found(database,
              "SELECT r.id, r.corrected_on FROM applications r "
              "JOIN applications earlier ON earlier.id = r.supersedes "
              "WHERE r.corrected_on < coalesce(earlier.corrected_on, earlier.written_on)",
              "The application number {} is dated {}, before what it corrects", problems);
    add_found(database,
              "SELECT r.id, r.written_on FROM applications r "
              "JOIN applications earlier ON earlier.id = r.supersedes "
              "WHERE r.written_on <> earlier.written_on",
              "The application number {} says that it was first written on {}, and the one that it "
              "corrects says otherwise",
              problems);
}

void add_strange_trees(const Database& database, Problems& problems) {
    add_found(
        database,
        "SELECT r.id, t.label FROM treated_trees t JOIN applications r ON r.id = t.application "
        "JOIN trees ON trees.id = t.tree WHERE trees.site <> r.site",
        "The application number {} names the tree '{}', which stands on another site", problems);
}

}  // namespace

std::vector<std::string> quick_problems(const Database& database) {
    return found_by_sqlite(database, "PRAGMA quick_check");
}

std::vector<std::string> all_problems(const Database& database) {
    const int edition = edition_of(database, newest_edition());
    Problems problems = found_by_sqlite(database, "PRAGMA integrity_check");
    add_dangling_references(database, problems);
    add_differences_of_schema(database, edition, problems);
    // Tables that are not what they should be cannot be read with any meaning.
    if (!problems.empty()) return problems;

    if (edition < newest_edition()) {
        Database copy = Database::in_memory(database.path());
        copy_content(database, copy);
        bring_up_to_date(copy, steps_of_schema());
        return all_problems(copy);
    }
    add_broken_seals(database, problems);
    add_wrong_order(database, problems);
    add_strange_trees(database, problems);
    return problems;
}

}  // namespace ashtriage::book
