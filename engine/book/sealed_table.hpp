// Tables whose records each carry a seal: written with it, and never read without checking it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "book/row.hpp"
#include "book/statement.hpp"

namespace ashtriage::book {

struct SealedTable {
    std::string_view name;                  // of the table
    std::string_view record;                // what one row is called in a message
    std::vector<std::string_view> columns;  // the first one is `id` where there is one; no seal
};

// The next free id. Only to be used inside a Transaction.
std::int64_t next_id(const Database& database, std::string_view table);

// Throws measure::InputError when the table has no such id.
void require_id(const Database& database, const SealedTable& table, std::int64_t id);

// Throws BookError (damaged).
[[noreturn]] void throw_damaged(const Database& database, std::string_view record,
                                std::string_view key);
void check_seal(const Database& database, const Row& cells, std::int64_t seal,
                std::string_view record);

void insert(Database& database, const SealedTable& table, const Row& cells);
// With a seal that covers more than the cells.
void insert(Database& database, const SealedTable& table, const Row& cells, std::int64_t seal);
// The record with the id in the first cell.
void update(Database& database, const SealedTable& table, const Row& cells);

// The cells of the records that `rest` (WHERE, ORDER BY ...) selects, seals checked.
std::vector<Row> select(const Database& database, const SealedTable& table, std::string_view rest,
                        const Row& values = {});

// The records themselves; `read` makes one out of a RowReader.
template <class Read>
auto read_all(const Database& database, const SealedTable& table, std::string_view rest,
              const Row& values, Read read) {
    std::vector<decltype(read(std::declval<RowReader&>()))> records;
    for (const Row& row : select(database, table, rest, values)) {
        RowReader reader{row, database.path()};
        records.push_back(read(reader));
    }
    return records;
}

template <class Read>
auto read_one(const Database& database, const SealedTable& table, std::string_view rest,
              const Row& values, Read read) {
    auto records = read_all(database, table, rest, values, read);
    using Record = typename decltype(records)::value_type;
    return records.empty() ? std::optional<Record>{}
                           : std::optional<Record>{std::move(records.front())};
}

}  // namespace ashtriage::book
