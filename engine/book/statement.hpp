// One SQL statement: bound, run to its end, read by row.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "book/row.hpp"

struct sqlite3_stmt;

namespace ashtriage::book {

// Every function throws BookError. Text after the first statement is refused, where SQLite itself
// would pass over it in silence.
class Statement {
 public:
    Statement(const Database& database, std::string_view sql);
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    ~Statement();

    // Runs with these values for the parameters, of which there must be as many.
    void run(const Row& values = {});
    std::vector<Row> rows(const Row& values = {});
    // The only row there can be, if there is one.
    std::optional<Row> row(const Row& values = {});
    // The whole number in the first column of the only row.
    std::int64_t number(const Row& values = {});

 private:
    void bind(const Row& values);
    bool step();
    Row current() const;
    [[noreturn]] void fail(int code) const;

    const Database& database_;
    sqlite3_stmt* statement_ = nullptr;
};

}  // namespace ashtriage::book
