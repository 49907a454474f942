// Lists that belong to a record, such as the stems of a walk-around. They are written before their
// record, which closes them (see schema.cpp), and its seal covers them.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "book/row.hpp"

namespace ashtriage::book {

// One row for each entry of a list, without the record's id and the place in the list.
using Entries = std::vector<Row>;

template <class List, class CellsOf>
Entries entries_of(const List& list, CellsOf cells_of) {
    Entries entries;
    for (const auto& entry : list) entries.push_back(cells_of(entry));
    return entries;
}

// What the seal of the record covers: how many there are, and each.
void add_entries(Row& whole, const Entries& entries);

// Into `table`, whose first columns are the id of the record and the place in the list, from 1.
void insert_entries(Database& database, std::string_view table, std::int64_t id,
                    const Entries& entries);

}  // namespace ashtriage::book
