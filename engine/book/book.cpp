#include "book/book.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <system_error>

#include "book/applications.hpp"
#include "book/clients.hpp"
#include "book/edition.hpp"
#include "book/integrity.hpp"
#include "book/schema.hpp"
#include "book/sites.hpp"
#include "book/statement.hpp"
#include "book/tables.hpp"
#include "book/trees.hpp"
#include "book/uses.hpp"

namespace ashtriage::book {

namespace fs = std::filesystem;

namespace {

void require_folder(const fs::path& path) {
    const fs::path folder = fs::absolute(path).parent_path();
    std::error_code ignored;
    if (!fs::is_directory(folder, ignored)) {
        throw BookError(Trouble::missing,
                        fmt::format("There is no folder '{}' for the book", folder.string()), path,
                        "Make the folder first, or give another path.");
    }
}

void require_book_file(const fs::path& path) {
    std::error_code ignored;
    if (!fs::exists(path, ignored)) {
        throw BookError(Trouble::missing, "There is no book here", path,
                        "Check the path, or make a new book there.");
    }
    if (!fs::is_regular_file(path, ignored)) {
        throw BookError(Trouble::not_a_book, "This is not a file", path, "Check the path.");
    }
}

// A journal beside the book: somebody is writing at this moment, or was cut short.
bool has_journal(const fs::path& path) {
    std::error_code error;
    fs::path journal = fs::canonical(path, error);  // SQLite follows links before it names the file
    journal += "-journal";
    const std::uintmax_t size = fs::file_size(journal, error);
    return !error && size > 0;
}

// Undoing a change that was cut short takes the right to write, even for one who only reads.
void undo_interrupted_change(const fs::path& path, std::chrono::milliseconds patience) {
    try {
        const Database database = Database::open(path, Access::read_write, patience);
        edition_of(database, newest_edition());
    } catch (const BookError& error) {
        if (error.trouble() != Trouble::read_only) throw;
        throw_trouble(SQLITE_READONLY_ROLLBACK, nullptr, path);
    }
}

void require_sound_structure(const Database& database) {
    const std::vector<std::string> problems = quick_problems(database);
    if (problems.empty()) return;
    throw BookError(
        Trouble::damaged,
        fmt::format("The last change to the book was cut short, and the book is damaged "
                    "({})",
                    problems.front()),
        database.path(), "Keep a copy of the file as it is, and restore a backup.");
}

// One file that people copy: no write-ahead log beside it, should another program have set one up.
void require_rollback_journal(Database& database) {
    const std::optional<Row> mode = Statement{database, "PRAGMA journal_mode = DELETE"}.row();
    if (mode && RowReader{*mode, database.path()}.text() == "delete") return;
    throw_trouble(SQLITE_BUSY, nullptr, database.path());
}

std::int64_t count(const Database& database, const SealedTable& table) {
    return Statement{database, fmt::format("SELECT count(*) FROM {}", table.name)}.number();
}

}  // namespace

Book Book::create(const fs::path& path) {
    require_folder(path);
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(path)) &&
        (!fs::is_regular_file(path, ignored) || fs::file_size(path, ignored) > 0)) {
        throw BookError(Trouble::exists, "There is a file of this name already", path,
                        "Choose another name, or open the book that is there.");
    }
    Database database = Database::open(path, Access::create);
    make_book(database, steps_of_schema());
    return Book{std::move(database)};
}

Book Book::in_memory(const fs::path& named_after) {
    Database database = Database::in_memory(named_after);
    make_book(database, steps_of_schema());
    return Book{std::move(database)};
}

Book Book::open(const fs::path& path, Mode mode, std::chrono::milliseconds patience) {
    require_book_file(path);
    const bool unclean = has_journal(path);
    if (unclean && mode == Mode::read_only) undo_interrupted_change(path, patience);
    Database database = Database::open(
        path, mode == Mode::read_only ? Access::read_only : Access::read_write, patience);
    const int edition = edition_of(database, newest_edition());
    if (unclean) require_sound_structure(database);

    if (mode == Mode::read_only) {
        if (edition == newest_edition()) return Book{std::move(database)};
        Database copy = Database::in_memory(path);
        copy_content(database, copy);
        bring_up_to_date(copy, steps_of_schema());
        return Book{std::move(copy)};
    }
    require_rollback_journal(database);
    std::optional<fs::path> copy = bring_up_to_date(database, steps_of_schema());
    Book book{std::move(database)};
    book.copy_ = std::move(copy);
    return book;
}

observe::ClientId Book::add(const observe::Client& client) {
    return add_client(database_, client);
}
observe::SiteId Book::add(const observe::Site& site) {
    return add_site(database_, site);
}
observe::TreeId Book::add(const observe::Tree& tree) {
    return add_tree(database_, tree);
}
observe::WalkAroundId Book::add(const observe::WalkAround& walk_around) {
    return add_walk_around(database_, walk_around);
}
RecommendationId Book::add(const StoredRecommendation& recommendation) {
    return add_recommendation(database_, recommendation);
}

treat::ApplicationId Book::add(const treat::ApplicationRecord& record) {
    return add_application(database_, record);
}
treat::OtherUseId Book::add(const treat::OtherUse& use) {
    return add_other_use(database_, use);
}
treat::RaisedAllowanceId Book::add(const treat::RaisedAllowance& allowance) {
    return add_raised_allowance(database_, allowance);
}

void Book::update(const observe::Client& client, const measure::Date& changed_on) {
    update_client(database_, client, changed_on);
}
void Book::update(const observe::Site& site, const measure::Date& changed_on) {
    update_site(database_, site, changed_on);
}
void Book::update(const observe::Tree& tree, const measure::Date& changed_on) {
    update_tree(database_, tree, changed_on);
}

std::vector<EarlierDescription> Book::earlier_of_client(observe::ClientId id) const {
    return read_earlier(database_, clients_table(), id);
}
std::vector<EarlierDescription> Book::earlier_of_site(observe::SiteId id) const {
    return read_earlier(database_, sites_table(), id);
}
std::vector<EarlierDescription> Book::earlier_of_tree(observe::TreeId id) const {
    return read_earlier(database_, trees_table(), id);
}

std::vector<observe::Client> Book::clients() const {
    return read_clients(database_);
}
std::optional<observe::Client> Book::find_client(observe::ClientId id) const {
    return book::find_client(database_, id);
}
std::vector<observe::Site> Book::sites() const {
    return read_sites(database_);
}
std::optional<observe::Site> Book::find_site(std::string_view name) const {
    return book::find_site(database_, name);
}
std::optional<observe::Site> Book::find_site(observe::SiteId id) const {
    return book::find_site(database_, id);
}
std::vector<observe::Tree> Book::trees(observe::SiteId site) const {
    return read_trees(database_, site);
}
std::optional<observe::Tree> Book::find_tree(observe::SiteId site, std::string_view label) const {
    return book::find_tree(database_, site, label);
}
std::optional<observe::Tree> Book::find_tree(observe::TreeId id) const {
    return book::find_tree(database_, id);
}

std::vector<FiledWalkAround> Book::walk_arounds(observe::TreeId tree) const {
    return read_walk_arounds(database_, tree);
}
std::optional<FiledWalkAround> Book::find_walk_around(observe::WalkAroundId id) const {
    return book::find_walk_around(database_, id);
}
std::optional<observe::WalkAround> Book::latest_walk_around(observe::TreeId tree) const {
    return find_latest_walk_around(database_, tree);
}

std::vector<StoredRecommendation> Book::recommendations(observe::TreeId tree) const {
    return read_recommendations(database_, tree);
}
std::optional<StoredRecommendation> Book::latest_recommendation(observe::TreeId tree) const {
    return find_latest_recommendation(database_, tree);
}

std::vector<RecordedApplication> Book::applications(observe::SiteId site) const {
    return read_applications(database_, site);
}
std::vector<RecordedApplication> Book::applications_of_tree(observe::TreeId tree) const {
    return read_applications_of_tree(database_, tree);
}
std::optional<RecordedApplication> Book::find_application(treat::ApplicationId id) const {
    return book::find_application(database_, id);
}
std::vector<RecordedApplication> Book::application_history(treat::ApplicationId id) const {
    return read_application_history(database_, id);
}
std::vector<RecordedOtherUse> Book::other_uses(observe::SiteId site) const {
    return read_other_uses(database_, site);
}
std::vector<RecordedRaisedAllowance> Book::raised_allowances(observe::SiteId site) const {
    return read_raised_allowances(database_, site);
}

std::optional<RecordedOtherUse> Book::find_other_use(treat::OtherUseId id) const {
    return book::find_other_use(database_, id);
}
std::optional<RecordedRaisedAllowance> Book::find_raised_allowance(
    treat::RaisedAllowanceId id) const {
    return book::find_raised_allowance(database_, id);
}

void Book::save_draft(const Draft& draft) {
    book::save_draft(database_, draft);
}
std::optional<Draft> Book::find_draft(observe::SiteId site, std::string_view label) const {
    return book::find_draft(database_, site, label);
}
std::vector<Draft> Book::drafts() const {
    return read_drafts(database_);
}
void Book::delete_draft(observe::SiteId site, std::string_view label) {
    book::delete_draft(database_, site, label);
}

BookInfo Book::info() const {
    const std::int64_t pages = Statement{database_, "PRAGMA page_count"}.number();
    const std::int64_t page_size = Statement{database_, "PRAGMA page_size"}.number();
    return {.path = database_.path(),
            .edition = edition_of(database_, newest_edition()),
            .sqlite_version = sqlite3_libversion(),
            .size_in_bytes = pages * page_size,
            .clients = count(database_, clients_table()),
            .sites = count(database_, sites_table()),
            .trees = count(database_, trees_table()),
            .walk_arounds = count(database_, walk_arounds_table()),
            .recommendations = count(database_, recommendations_table()),
            .applications = count(database_, applications_table()),
            .other_uses = count(database_, other_uses_table()),
            .raised_allowances = count(database_, raised_allowances_table()),
            .drafts = count(database_, drafts_table())};
}

std::vector<std::string> Book::check() const {
    return all_problems(database_);
}

void Book::backup_to(const fs::path& path) const {
    require_folder(path);
    copy_to_new_file(database_, path);
}

}  // namespace ashtriage::book
