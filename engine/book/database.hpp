// One connection to one SQLite file, set up the careful way: the only place that opens one.
#pragma once

#include <chrono>
#include <filesystem>
#include <memory>
#include <string>

struct sqlite3;

namespace ashtriage::book {

enum class Access {
    read_only,
    read_write,
    create,   // read_write, and an absent file is made
    replace,  // read_write, for a file that is going to be overwritten and may be damaged
};

// How long to wait for another program that is writing.
inline constexpr std::chrono::milliseconds usual_patience{5000};

class Database {
 public:
    // Throws BookError: for a file that is no database (not_a_book), among other things.
    static Database open(const std::filesystem::path& path, Access access,
                         std::chrono::milliseconds patience = usual_patience);
    // A database that is gone when it is closed; `named_after` is the path that its errors show.
    static Database in_memory(const std::filesystem::path& named_after);

    // Runs one or more statements whose rows, if any, are of no interest.
    void execute(const std::string& script);

    bool in_transaction() const;
    const std::filesystem::path& path() const { return path_; }
    sqlite3* connection() const { return connection_.get(); }

 private:
    struct Close {
        void operator()(sqlite3* connection) const;
    };
    using Connection = std::unique_ptr<sqlite3, Close>;

    Database(Connection connection, std::filesystem::path path);
    static Connection connect(const std::string& file, int flags,
                              const std::filesystem::path& path);
    void set_up();

    Connection connection_;
    std::filesystem::path path_;
};

}  // namespace ashtriage::book
