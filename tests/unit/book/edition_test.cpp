// Books of older editions are brought up to date. The later editions in the first part are made up
// for the test.

#include "book/edition.hpp"

#include <gmock/gmock.h>

#include <array>

#include "book/schema.hpp"
#include "book/statement.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

class Editions : public BookFolder {
 protected:
    Editions() {
        make_edition_1(path);
        content = content_of(Book::open(path, Mode::read_only));
    }
    static std::array<std::string_view, 3> steps(std::string_view second, std::string_view third) {
        return {steps_of_schema().front(), second, third};
    }
    static void make_edition_1(const std::filesystem::path& at) {
        Database::open(at, Access::create)
            .execute(bytes_of(std::filesystem::path{ASHTRIAGE_SOURCE_DIR} /
                              "tests/unit/book/fixtures/edition_1.sql"));
    }
    static std::int64_t edition(const Database& database) {
        return Statement{database, "PRAGMA user_version"}.number();
    }

    std::filesystem::path path = in_folder("a.book");
    Content content;
};

constexpr std::string_view adds_a_column = "ALTER TABLE trees ADD COLUMN tag TEXT";
constexpr std::string_view adds_a_table = "CREATE TABLE crews (name TEXT NOT NULL) STRICT";

TEST_F(Editions, AreBroughtUpToDateStepByStepWithACopyKept) {
    Database database = Database::open(path, Access::read_write);
    const auto copy = bring_up_to_date(database, steps(adds_a_column, adds_a_table));
    EXPECT_EQ(edition(database), 3);
    EXPECT_EQ((Statement{database, "SELECT count(*) FROM trees WHERE tag IS NULL"}.number()), 3);
    EXPECT_EQ((Statement{database, "SELECT count(*) FROM crews"}.number()), 0);
    EXPECT_EQ((Statement{database, "PRAGMA foreign_keys"}.number()), 1);

    ASSERT_TRUE(copy);
    EXPECT_EQ(copy->filename(), "a.book.edition-1.backup");
    const Book old = Book::open(*copy, Mode::read_only);
    EXPECT_EQ(content_of(old), content);
    EXPECT_THAT(old.check(), testing::IsEmpty());
}

TEST_F(Editions, AreLeftAloneWhenUpToDate) {
    Database database = Database::open(path, Access::read_write);
    const std::string before = bytes_of(path);
    EXPECT_FALSE(bring_up_to_date(database, steps_of_schema().first(1)));
    EXPECT_EQ(bytes_of(path), before);
    EXPECT_FALSE(std::filesystem::exists(in_folder("a.book.edition-1.backup")));
}

TEST_F(Editions, StayAsTheyWereWhenAStepFails) {
    {
        Database database = Database::open(path, Access::read_write);
        EXPECT_THROW(bring_up_to_date(database, steps(adds_a_column, "CREATE NONSENSE")),
                     BookError);
        EXPECT_EQ(edition(database), 1);
    }
    EXPECT_EQ(content_of(Book::open(path)), content);
    EXPECT_THAT(Book::open(path).check(), testing::IsEmpty());
}

TEST_F(Editions, StayAsTheyWereWhenAStepBreaksReferences) {
    {
        Database database = Database::open(path, Access::read_write);
        EXPECT_EQ(trouble_with([&] {
                      bring_up_to_date(database, steps(adds_a_column, "DELETE FROM clients"));
                  }).trouble(),
                  Trouble::damaged);
    }
    EXPECT_EQ(content_of(Book::open(path)), content);
}

TEST_F(Editions, NeverOverwriteAnEarlierCopy) {
    write_bytes(in_folder("a.book.edition-1.backup"), "kept");
    Database database = Database::open(path, Access::read_write);
    const auto copy = bring_up_to_date(database, steps(adds_a_column, adds_a_table));
    ASSERT_TRUE(copy);
    EXPECT_EQ(copy->filename(), "a.book.edition-1.2.backup");
    EXPECT_EQ(bytes_of(in_folder("a.book.edition-1.backup")), "kept");
}

TEST_F(Editions, AreBroughtUpToDateInMemoryForAReader) {
    const std::string before = bytes_of(path);
    const Database database = Database::open(path, Access::read_only);
    Database copy = Database::in_memory(path);
    copy_content(database, copy);
    EXPECT_FALSE(bring_up_to_date(copy, steps(adds_a_column, adds_a_table)));
    EXPECT_EQ(edition(copy), 3);
    EXPECT_EQ((Statement{copy, "SELECT count(*) FROM trees"}.number()), 3);
    EXPECT_EQ(bytes_of(path), before);
    EXPECT_FALSE(std::filesystem::exists(in_folder("a.book.edition-1.backup")));
}

TEST_F(Editions, TheFirstIsReadAsItWasWrittenAndBecomesTheNewest) {
    ASSERT_EQ(content.clients.size(), 1U);
    EXPECT_EQ(content.clients.front().name, "Orchard Trust of Sampleton — Zoë");
    ASSERT_EQ(content.trees.size(), 3U);
    EXPECT_EQ(content.walk_arounds.size(), 6U);
    EXPECT_EQ(content.recommendations.size(), 3U);
    EXPECT_EQ(content.drafts.size(), 1U);

    Book book = Book::open(path);
    EXPECT_EQ(book.info().edition, newest_edition());
    ASSERT_TRUE(book.copy_of_older_edition());
    EXPECT_EQ(book.copy_of_older_edition()->filename(), "a.book.edition-1.backup");
    EXPECT_EQ(content_of(book), content);
    EXPECT_THAT(book.check(), testing::IsEmpty());
    const observe::SiteId site = content.sites.front().id;
    book.add(example_application(site, content.trees.front().id));
    EXPECT_EQ(book.applications(site).size(), 1U);
    EXPECT_THAT(book.check(), testing::IsEmpty());
}

TEST_F(Editions, ReachedStepByStepAreTheSameAsThoseMadeAnew) {
    Book::open(path);
    Book::create(in_folder("new.book"));
    const auto tables_of = [](const std::filesystem::path& file) {
        const Database database = Database::open(file, Access::read_only);
        Statement schema{
            database, "SELECT type || name || coalesce(sql, '') FROM sqlite_schema ORDER BY name"};
        std::vector<std::string> found;
        for (const Row& row : schema.rows()) found.push_back(RowReader{row, file}.text());
        return found;
    };
    EXPECT_EQ(tables_of(path), tables_of(in_folder("new.book")));
}

TEST_F(Editions, NewerThanTheStepsAreRefused) {
    run_sql(path, "PRAGMA user_version = 4");
    Database database = Database::open(path, Access::read_write);
    EXPECT_EQ(trouble_with([&] {
                  bring_up_to_date(database, steps(adds_a_column, adds_a_table));
              }).trouble(),
              Trouble::newer_edition);
}

}  // namespace
}  // namespace ashtriage::book
