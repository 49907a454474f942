// The book: one file in which everything lasts. Opened, read and written here and nowhere else.
//
// What was seen (walk-arounds), what was answered (recommendations) and what was done
// (applications, other uses) is added and never changed; a correction is a new record that
// supersedes an old one. The descriptions of clients, sites and trees may be changed, and what they
// said before is kept. A change is kept as a whole or not at all, whatever interrupts it.
//
// Trouble with the file is thrown as BookError, unusable input as measure::InputError. The damaged
// record of a book is never handed out: reading it throws.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "book/backup.hpp"
#include "book/book_error.hpp"
#include "book/corrections.hpp"
#include "book/database.hpp"
#include "book/drafts.hpp"
#include "book/earlier_descriptions.hpp"
#include "book/recommendations.hpp"
#include "book/transaction.hpp"
#include "book/walk_arounds.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

enum class Mode { read_write, read_only };

struct BookInfo {
    std::filesystem::path path;
    int edition = 0;  // of the tables
    std::string sqlite_version;
    std::int64_t size_in_bytes = 0;
    std::int64_t clients = 0;
    std::int64_t sites = 0;
    std::int64_t trees = 0;
    std::int64_t walk_arounds = 0;
    std::int64_t recommendations = 0;
    std::int64_t applications = 0;
    std::int64_t other_uses = 0;
    std::int64_t raised_allowances = 0;
    std::int64_t drafts = 0;
};

class Book {
 public:
    // A new book where there is no file, or an empty one.
    static Book create(const std::filesystem::path& path);
    // A new book that lasts no longer than this value: for a dry run where there is no book yet.
    static Book in_memory(const std::filesystem::path& named_after);
    // After a change that was cut short the book is set back to what it was before, and its
    // structure is checked. A book of an older edition is brought up to date, with a copy of the
    // old one kept beside it; with Mode::read_only that happens in memory and the file stays as it
    // is.
    static Book open(const std::filesystem::path& path, Mode mode = Mode::read_write,
                     std::chrono::milliseconds patience = usual_patience);

    observe::ClientId add(const observe::Client& client);
    observe::SiteId add(const observe::Site& site);  // the name must be new in the book
    observe::TreeId add(const observe::Tree& tree);  // the label must be new on its site
    observe::WalkAroundId add(const observe::WalkAround& walk_around);
    RecommendationId add(const StoredRecommendation& recommendation);
    treat::ApplicationId add(const treat::ApplicationRecord& record);
    treat::OtherUseId add(const treat::OtherUse& use);
    treat::RaisedAllowanceId add(const treat::RaisedAllowance& allowance);

    // Changes the description of the record with the same id, keeping what it said before.
    void update(const observe::Client& client, const measure::Date& changed_on);
    void update(const observe::Site& site, const measure::Date& changed_on);
    void update(const observe::Tree& tree, const measure::Date& changed_on);
    std::vector<EarlierDescription> earlier_of_client(observe::ClientId id) const;
    std::vector<EarlierDescription> earlier_of_site(observe::SiteId id) const;
    std::vector<EarlierDescription> earlier_of_tree(observe::TreeId id) const;

    std::vector<observe::Client> clients() const;  // by name
    std::optional<observe::Client> find_client(observe::ClientId id) const;
    std::vector<observe::Site> sites() const;  // by name
    std::optional<observe::Site> find_site(std::string_view name) const;
    std::optional<observe::Site> find_site(observe::SiteId id) const;
    std::vector<observe::Tree> trees(observe::SiteId site) const;  // as they were added
    std::optional<observe::Tree> find_tree(observe::SiteId site, std::string_view label) const;
    std::optional<observe::Tree> find_tree(observe::TreeId id) const;

    // Oldest first, superseded ones marked.
    std::vector<FiledWalkAround> walk_arounds(observe::TreeId tree) const;
    std::optional<FiledWalkAround> find_walk_around(observe::WalkAroundId id) const;
    // The latest date, not superseded.
    std::optional<observe::WalkAround> latest_walk_around(observe::TreeId tree) const;

    std::vector<StoredRecommendation> recommendations(observe::TreeId tree) const;  // oldest first
    std::optional<StoredRecommendation> latest_recommendation(observe::TreeId tree) const;

    // Superseded ones among them: standing() (corrections.hpp) leaves what was done. By the date of
    // the work.
    std::vector<RecordedApplication> applications(observe::SiteId site) const;
    std::vector<RecordedApplication> applications_of_tree(observe::TreeId tree) const;
    std::optional<RecordedApplication> find_application(treat::ApplicationId id) const;
    // The record with all that it corrects and all that corrects it, oldest first.
    std::vector<RecordedApplication> application_history(treat::ApplicationId id) const;
    std::vector<RecordedOtherUse> other_uses(observe::SiteId site) const;
    std::optional<RecordedOtherUse> find_other_use(treat::OtherUseId id) const;
    std::vector<RecordedRaisedAllowance> raised_allowances(observe::SiteId site) const;
    std::optional<RecordedRaisedAllowance> find_raised_allowance(treat::RaisedAllowanceId id) const;

    void save_draft(const Draft& draft);
    std::optional<Draft> find_draft(observe::SiteId site, std::string_view label) const;
    std::vector<Draft> drafts() const;
    void delete_draft(observe::SiteId site, std::string_view label);

    // Runs `work`; all it writes is kept when it returns, and none of it when it throws.
    template <class Work>
    auto in_transaction(Work&& work) {
        return run(std::forward<Work>(work), true);
    }
    // Runs `work` for what it returns or throws, and keeps nothing of what it writes: a dry run.
    template <class Work>
    auto rehearse(Work&& work) {
        return run(std::forward<Work>(work), false);
    }

    BookInfo info() const;
    // Everything that can be checked without the rules; empty when all is well.
    std::vector<std::string> check() const;
    // To a new file.
    void backup_to(const std::filesystem::path& path) const;
    // The copy that was made when this book was brought up to date on being opened.
    const std::optional<std::filesystem::path>& copy_of_older_edition() const { return copy_; }

 private:
    explicit Book(Database database) : database_(std::move(database)) {}

    template <class Work>
    auto run(Work&& work, bool keep) {
        Transaction transaction{database_};
        if constexpr (std::is_void_v<std::invoke_result_t<Work>>) {
            std::forward<Work>(work)();
            if (keep) transaction.keep();
        } else {
            auto result = std::forward<Work>(work)();
            if (keep) transaction.keep();
            return result;
        }
    }

    Database database_;
    std::optional<std::filesystem::path> copy_;
};

}  // namespace ashtriage::book
