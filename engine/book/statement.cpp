#include "book/statement.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <cctype>
#include <string>
#include <utility>

#include "book/book_error.hpp"

namespace ashtriage::book {

namespace {

struct Bind {
    sqlite3_stmt* statement;
    int parameter;

    int operator()(std::monostate) const { return sqlite3_bind_null(statement, parameter); }
    int operator()(std::int64_t number) const {
        return sqlite3_bind_int64(statement, parameter, number);
    }
    int operator()(double number) const {
        return sqlite3_bind_double(statement, parameter, number);
    }
    int operator()(const std::string& text) const {
        return sqlite3_bind_text64(statement, parameter, text.data(), text.size(), SQLITE_TRANSIENT,
                                   SQLITE_UTF8);
    }
};

}  // namespace

Statement::Statement(const Database& database, std::string_view sql) : database_(database) {
    const char* rest = nullptr;
    const int code = sqlite3_prepare_v3(database.connection(), sql.data(),
                                        static_cast<int>(sql.size()), 0, &statement_, &rest);
    if (code != SQLITE_OK) fail(code);
    const bool more = std::any_of(rest, sql.data() + sql.size(), [](unsigned char character) {
        return std::isspace(character) == 0;
    });
    if (more || statement_ == nullptr) {
        sqlite3_finalize(statement_);
        throw BookError(Trouble::failed, fmt::format("\"{}\" is not one statement", sql),
                        database.path());
    }
}

Statement::~Statement() {
    sqlite3_finalize(statement_);
}

void Statement::fail(int code) const {
    throw_trouble(code, database_.connection(), database_.path());
}

void Statement::bind(const Row& values) {
    const auto expected = static_cast<std::size_t>(sqlite3_bind_parameter_count(statement_));
    if (values.cells().size() != expected) {
        throw BookError(Trouble::failed,
                        fmt::format("{} values were given for the {} parameters of \"{}\"",
                                    values.cells().size(), expected, sqlite3_sql(statement_)),
                        database_.path());
    }
    sqlite3_reset(statement_);
    int parameter = 0;
    for (const Cell& cell : values.cells()) {
        const int code = std::visit(Bind{statement_, ++parameter}, cell);
        if (code != SQLITE_OK) fail(code);
    }
}

bool Statement::step() {
    const int code = sqlite3_step(statement_);
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) {
        sqlite3_reset(statement_);
        return false;
    }
    sqlite3_reset(statement_);  // lets go of its locks and keeps SQLite's words about the error
    fail(code);
}

Row Statement::current() const {
    const int columns = sqlite3_column_count(statement_);
    std::vector<Cell> cells;
    cells.reserve(static_cast<std::size_t>(columns));
    for (int column = 0; column < columns; ++column) {
        switch (sqlite3_column_type(statement_, column)) {
            case SQLITE_INTEGER:
                cells.emplace_back(std::int64_t{sqlite3_column_int64(statement_, column)});
                break;
            case SQLITE_FLOAT:
                cells.emplace_back(sqlite3_column_double(statement_, column));
                break;
            case SQLITE_TEXT:
            case SQLITE_BLOB: {
                const void* bytes = sqlite3_column_blob(statement_, column);
                const int size = sqlite3_column_bytes(statement_, column);
                cells.emplace_back(bytes == nullptr ? std::string{}
                                                    : std::string(static_cast<const char*>(bytes),
                                                                  static_cast<std::size_t>(size)));
                break;
            }
            default:
                cells.emplace_back();
        }
    }
    return Row{std::move(cells)};
}

void Statement::run(const Row& values) {
    bind(values);
    while (step()) {
    }
}

std::vector<Row> Statement::rows(const Row& values) {
    bind(values);
    std::vector<Row> found;
    while (step()) found.push_back(current());
    return found;
}

std::optional<Row> Statement::row(const Row& values) {
    std::vector<Row> found = rows(values);
    if (found.size() > 1) {
        throw BookError(Trouble::damaged,
                        fmt::format("The book is damaged: it holds {} records where there can be "
                                    "only one",
                                    found.size()),
                        database_.path(), "Run a full check of the book, and restore a backup.");
    }
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

std::int64_t Statement::number(const Row& values) {
    const std::optional<Row> found = row(values);
    if (!found) {
        throw BookError(Trouble::damaged, "The book is damaged: a number is missing",
                        database_.path());
    }
    return RowReader{*found, database_.path()}.integer();
}

}  // namespace ashtriage::book
