#include "book/database.hpp"

#include <sqlite3.h>

#include <utility>

#include "book/book_error.hpp"

namespace ashtriage::book {

void Database::Close::operator()(sqlite3* connection) const {
    sqlite3_close_v2(connection);
}

Database::Database(Connection connection, std::filesystem::path path)
    : connection_(std::move(connection)), path_(std::move(path)) {}

Database::Connection Database::connect(const std::string& file, int flags,
                                       const std::filesystem::path& path) {
    sqlite3* opened = nullptr;
    const int code = sqlite3_open_v2(file.c_str(), &opened, flags | SQLITE_OPEN_EXRESCODE, nullptr);
    Connection connection{opened};
    if (code != SQLITE_OK) throw_trouble(code, opened, path);
    return connection;
}

Database Database::open(const std::filesystem::path& path, Access access,
                        std::chrono::milliseconds patience) {
    int flags = access == Access::read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
    if (access == Access::create) flags |= SQLITE_OPEN_CREATE;
    // An absolute path is never taken for a URI, for ":memory:" or for a temporary database.
    Database database{connect(std::filesystem::absolute(path).string(), flags, path), path};
    // SQLite falls back to reading alone when the file may not be written.
    if (access != Access::read_only && sqlite3_db_readonly(database.connection(), "main") == 1) {
        throw_trouble(SQLITE_READONLY, nullptr, path);
    }
    sqlite3_busy_timeout(database.connection(), static_cast<int>(patience.count()));
    if (access == Access::replace) {
        // Also lifts the check that the file is as long as it says, which a cut file fails.
        sqlite3_db_config(database.connection(), SQLITE_DBCONFIG_WRITABLE_SCHEMA, 1, nullptr);
    } else {
        database.set_up();  // reads the tables that are there
    }
    return database;
}

Database Database::in_memory(const std::filesystem::path& named_after) {
    Database database{connect(":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, named_after),
                      named_after};
    database.set_up();
    return database;
}

void Database::set_up() {
    sqlite3* const raw = connection();
    // A mistyped "name" is an error and not a text; SQL stored in a foreign file gets no reach.
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_ENABLE_FKEY, 1, nullptr);
    execute(
        "PRAGMA synchronous = FULL;"
        "PRAGMA recursive_triggers = ON;"  // so that a REPLACE does not slip past a trigger
        "PRAGMA cell_size_check = ON;"
        "PRAGMA temp_store = MEMORY;");
}

void Database::execute(const std::string& script) {
    const int code = sqlite3_exec(connection(), script.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) throw_trouble(code, connection(), path_);
}

bool Database::in_transaction() const {
    return sqlite3_get_autocommit(connection()) == 0;
}

}  // namespace ashtriage::book
