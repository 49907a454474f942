// Books of older editions are brought up to date. The later editions here are made up for the test.

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
        make_example_book(path);
        content = content_of(Book::open(path));
    }
    static std::array<std::string_view, 3> steps(std::string_view second, std::string_view third) {
        return {steps_of_schema().front(), second, third};
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
    EXPECT_FALSE(bring_up_to_date(database, steps_of_schema()));
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
