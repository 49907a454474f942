#include "book/backup.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <memory>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "book/book_error.hpp"
#include "book/edition.hpp"
#include "book/integrity.hpp"
#include "book/schema.hpp"

namespace ashtriage::book {

namespace {

namespace fs = std::filesystem;

struct FinishBackup {
    void operator()(sqlite3_backup* backup) const { sqlite3_backup_finish(backup); }
};

bool is_there(const fs::path& path) {
    return fs::exists(fs::symlink_status(path));
}

void require_file(const fs::path& path, const char* called) {
    std::error_code ignored;
    if (!fs::exists(path, ignored)) {
        throw BookError(Trouble::missing, fmt::format("There is no {} here", called), path,
                        "Check the path.");
    }
    if (!fs::is_regular_file(path, ignored)) {
        throw BookError(Trouble::not_a_book, "This is not a file", path, "Check the path.");
    }
}

void require_absent(const fs::path& path) {
    if (is_there(path)) {
        throw BookError(Trouble::exists, "There is a file of this name already", path,
                        "Choose another name; nothing is written over.");
    }
}

void require_sound(const Database& backup) {
    edition_of(backup, newest_edition());
    const std::vector<std::string> problems = all_problems(backup);
    if (problems.empty()) return;
    throw BookError(
        Trouble::damaged,
        fmt::format("The backup is damaged, and nothing was restored: {}{}", problems.front(),
                    problems.size() == 1 ? std::string{}
                                         : fmt::format(" (and {} more)", problems.size() - 1)),
        backup.path(), "Use another backup.");
}

std::int64_t big_endian_at(std::string_view bytes, std::size_t offset) {
    std::int64_t number = 0;
    for (const char byte : bytes.substr(offset, 4)) {
        number = number * 256 + static_cast<unsigned char>(byte);
    }
    return number;
}

// By its header alone, which can be read when the rest is damaged. Offsets: "Database File Format",
// section 1.3, of the SQLite documentation.
void require_marked_as_book(const fs::path& path) {
    constexpr std::string_view sqlite_mark{"SQLite format 3\0", 16};
    std::array<char, 100> header{};
    std::ifstream file{path, std::ios::binary};
    file.read(header.data(), header.size());
    const std::string_view bytes{header.data(), static_cast<std::size_t>(file.gcount())};
    if (bytes.size() < header.size() || bytes.substr(0, sqlite_mark.size()) != sqlite_mark ||
        big_endian_at(bytes, 68) != application_id) {
        throw BookError(Trouble::not_a_book, "This file is not a book, so it is not overwritten",
                        path,
                        "Move it away, together with the file of the same name that ends in "
                        "'-journal' if there is one, and restore again.");
    }
    if (big_endian_at(bytes, 60) > newest_edition()) {
        throw BookError(Trouble::newer_edition,
                        "This book was made by a newer edition of the program, so it is not "
                        "overwritten",
                        path, "Move it away, or restore with the newer program.");
    }
}

// Removes a new file again unless the work on it was finished.
class NewFile {
 public:
    explicit NewFile(fs::path path) : path_(std::move(path)) {}
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    ~NewFile() {
        std::error_code ignored;
        if (!finished_) fs::remove(path_, ignored);
    }
    void finished() { finished_ = true; }

 private:
    fs::path path_;
    bool finished_ = false;
};

}  // namespace

void copy_content(const Database& from, Database& to) {
    const std::unique_ptr<sqlite3_backup, FinishBackup> backup{
        sqlite3_backup_init(to.connection(), "main", from.connection(), "main")};
    if (backup == nullptr) {
        throw_trouble(sqlite3_extended_errcode(to.connection()), to.connection(), to.path());
    }
    // All pages in one step: others may read meanwhile, and nobody can write in between.
    const int code = sqlite3_backup_step(backup.get(), -1);
    if (code != SQLITE_DONE) throw_trouble(code, nullptr, to.path());
}

void copy_to_new_file(const Database& from, const fs::path& to) {
    require_absent(to);
    NewFile file{to};
    {
        Database target = Database::open(to, Access::create);
        copy_content(from, target);
    }
    file.finished();
}

void restore(const fs::path& backup, const fs::path& to, IfThere if_there,
             std::chrono::milliseconds patience) {
    require_file(backup, "backup");
    const Database source = Database::open(backup, Access::read_only);
    require_sound(source);

    if (!is_there(to)) {
        copy_to_new_file(source, to);
        return;
    }
    if (if_there == IfThere::refuse) {
        throw BookError(Trouble::exists, "There is a book of this name already", to,
                        "Restore to another name, or ask for it to be overwritten.");
    }
    std::error_code ignored;
    if (fs::equivalent(backup, to, ignored)) {
        throw BookError(Trouble::exists, "The backup and the book are the same file", to,
                        "Give the path of the backup and the path of the book.");
    }
    require_file(to, "book");
    require_marked_as_book(to);
    Database target = Database::open(to, Access::replace, patience);
    copy_content(source, target);
}

}  // namespace ashtriage::book
