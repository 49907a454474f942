#include "book/sealed_table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "book/book_error.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {

namespace {

Row with_seal(const Row& cells, std::int64_t seal) {
    Row sealed = cells;
    sealed.add(seal);
    return sealed;
}

// The key of a record for a message: its first cell, if that is an id.
std::string key_of(const Row& cells) {
    const auto* id = cells.cells().empty() ? nullptr : std::get_if<std::int64_t>(&cells.cells()[0]);
    return id == nullptr ? std::string{} : fmt::format(" {}", *id);
}

}  // namespace

std::int64_t next_id(const Database& database, std::string_view table) {
    return Statement{database, fmt::format("SELECT coalesce(max(id), 0) + 1 FROM {}", table)}
        .number();
}

void require_id(const Database& database, const SealedTable& table, std::int64_t id) {
    Statement count{database, fmt::format("SELECT count(*) FROM {} WHERE id = ?", table.name)};
    if (count.number(Row{}.add(id)) == 0) {
        throw measure::InputError(
            fmt::format("There is no {} number {} in the book", table.record, id),
            database.path().string());
    }
}

void throw_damaged(const Database& database, std::string_view record, std::string_view key) {
    throw BookError(Trouble::damaged,
                    fmt::format("The {}{} is not as it was written: the book is damaged, or was "
                                "changed by another program",
                                record, key),
                    database.path(),
                    "Keep a copy of the file as it is, run a full check of it, and restore a "
                    "backup.");
}

void check_seal(const Database& database, const Row& cells, std::int64_t seal,
                std::string_view record) {
    if (seal_of(cells) != seal) throw_damaged(database, record, key_of(cells));
}

void insert(Database& database, const SealedTable& table, const Row& cells) {
    insert(database, table, cells, seal_of(cells));
}

void insert(Database& database, const SealedTable& table, const Row& cells, std::int64_t seal) {
    std::string places = "?";
    for (std::size_t i = 0; i < table.columns.size(); ++i) places += ", ?";
    Statement{database, fmt::format("INSERT INTO {} ({}, seal) VALUES ({})", table.name,
                                    fmt::join(table.columns, ", "), places)}
        .run(with_seal(cells, seal));
}

void update(Database& database, const SealedTable& table, const Row& cells) {
    std::string changes;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        changes += fmt::format("{} = ?{}, ", table.columns[i], i + 1);
    }
    Statement{database, fmt::format("UPDATE {} SET {}seal = ?{} WHERE id = ?1", table.name, changes,
                                    table.columns.size() + 1)}
        .run(with_seal(cells, seal_of(cells)));
}

std::vector<Row> select(const Database& database, const SealedTable& table, std::string_view rest,
                        const Row& values) {
    std::vector<Row> found =
        Statement{database, fmt::format("SELECT {}, seal FROM {} {}",
                                        fmt::join(table.columns, ", "), table.name, rest)}
            .rows(values);
    for (Row& row : found) {
        std::vector<Cell> cells = row.cells();
        const auto* seal = std::get_if<std::int64_t>(&cells.back());
        if (seal == nullptr) throw_damaged(database, table.record, key_of(row));
        const std::int64_t kept = *seal;
        cells.pop_back();
        row = Row{std::move(cells)};
        check_seal(database, row, kept, table.record);
    }
    return found;
}

}  // namespace ashtriage::book
