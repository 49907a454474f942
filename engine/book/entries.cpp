#include "book/entries.hpp"

#include <fmt/format.h>

#include <string>

#include "book/statement.hpp"

namespace ashtriage::book {

void add_entries(Row& whole, const Entries& entries) {
    whole.add(static_cast<std::int64_t>(entries.size()));
    for (const Row& entry : entries) whole.add(entry);
}

void insert_entries(Database& database, std::string_view table, std::int64_t id,
                    const Entries& entries) {
    if (entries.empty()) return;
    std::string places = "?, ?";
    for (std::size_t i = 0; i < entries.front().cells().size(); ++i) places += ", ?";
    Statement insert_entry{database, fmt::format("INSERT INTO {} VALUES ({})", table, places)};
    std::int64_t position = 0;
    for (const Row& entry : entries) {
        Row row;
        row.add(id).add(++position).add(entry);
        insert_entry.run(row);
    }
}

}  // namespace ashtriage::book
