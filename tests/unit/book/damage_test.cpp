// A damaged book is never taken for a sound one.

#include <gmock/gmock.h>

#include <optional>

#include "book/statement.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class Damage : public BookFolder {
 protected:
    Damage() {
        make_example_book(path);
        sound = bytes_of(path);
        content = content_of(Book::open(path));
    }
    // What a reader gets who first asks for a full check; nothing when damage is noticed.
    std::optional<Content> taken_for_sound() {
        try {
            const Book book = Book::open(path, Mode::read_only);
            if (!book.check().empty()) return std::nullopt;
            return content_of(book);
        } catch (const BookError&) {
            return std::nullopt;
        }
    }

    std::filesystem::path path = in_folder("a.book");
    std::string sound;
    Content content;
};

TEST_F(Damage, IsNoticedWhenTheEndOfTheFileIsMissing) {
    for (std::size_t length = 0; length < sound.size(); length += length < 1024 ? 61 : 509) {
        write_bytes(path, std::string_view{sound}.substr(0, length));
        EXPECT_FALSE(taken_for_sound()) << length << " of " << sound.size() << " bytes";
    }
}

// A changed bit may be in a place without meaning; but then everything must read as it was.
TEST_F(Damage, IsNoticedWhenAnyBitThatMattersIsFlipped) {
    int noticed = 0;
    constexpr std::size_t stride = 1613;  // a prime, so that every bit of a byte has its turn
    for (std::size_t bit = 0; bit < sound.size() * 8; bit += stride) {
        std::string bytes = sound;
        bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ (1 << bit % 8));
        write_bytes(path, bytes);
        const std::optional<Content> read = taken_for_sound();
        if (read) {
            EXPECT_EQ(*read, content) << "bit " << bit % 8 << " of byte " << bit / 8;
        } else {
            ++noticed;
        }
    }
    EXPECT_GT(noticed, 0);
}

TEST_F(Damage, IsNoticedInEveryByteOfARecord) {
    for (const std::string_view text :
         {"555-0199", "Mill Lane 3", "north of the gate", "Ladder needed", "20-30 %", "2026.1",
          "good-enough", "dead-limb", "Invented Product 40", "00000-000", "C-0001", "0.43 fl oz",
          "a-2.jpg", "turf, grubs", "SLN XX-00-0000", "misread", "\"canopy_loss\":\"40 %\"",
          "1 Example Road\\nSampleton"}) {
        const std::size_t start = sound.find(text);
        ASSERT_NE(start, std::string::npos) << text;
        for (std::size_t i = start; i < start + text.size(); ++i) {
            std::string bytes = sound;
            bytes[i] = bytes[i] == 'z' ? 'y' : 'z';
            write_bytes(path, bytes);
            EXPECT_FALSE(taken_for_sound()) << text << ", byte " << i - start;
        }
    }
}

TEST_F(Damage, IsNoticedWhenTheWholeFileIsOverwritten) {
    write_bytes(path, std::string(sound.size(), '\0'));
    EXPECT_FALSE(taken_for_sound());
}

TEST_F(Damage, KeepsARecordFromBeingReadWithoutAFullCheck) {
    std::string bytes = sound;
    bytes[bytes.rfind("Ladder needed")] = 'M';  // a page is filled from its end: the first record
    write_bytes(path, bytes);
    const Book book = Book::open(path);
    const BookError error = trouble_with([&] { book.walk_arounds(1); });
    EXPECT_EQ(error.trouble(), Trouble::damaged);
    EXPECT_THAT(error.what(), HasSubstr("walk-around 1"));
    EXPECT_THAT(book.check(), ElementsAre(HasSubstr("walk-around 1")));
    EXPECT_EQ(book.walk_arounds(2).size(), 2U);  // what is sound can be read
}

TEST_F(Damage, IsNoticedWhenRecordsAreChangedByAnotherProgram) {
    run_sql(path, "UPDATE sites SET area_hundredth_mm2 = area_hundredth_mm2 * 10");
    run_sql(path, "UPDATE trees SET label = 'A-1x' WHERE label = 'A-1'");
    EXPECT_THAT(Book::open(path).check(), ElementsAre(HasSubstr("site 1"), HasSubstr("tree 1")));
}

TEST_F(Damage, IsNoticedWhenReferencesHang) {
    run_sql(path, "PRAGMA foreign_keys = OFF; DELETE FROM clients");
    EXPECT_THAT(Book::open(path).check(), ElementsAre(HasSubstr("'clients'")));
}

TEST_F(Damage, IsNoticedWhenTheTablesAreNotThoseOfTheEdition) {
    run_sql(path, "DROP TRIGGER stems_are_not_changed");
    EXPECT_THAT(Book::open(path).check(),
                ElementsAre(HasSubstr("trigger stems_are_not_changed is missing")));
    run_sql(path, "CREATE TABLE extra (a)");
    EXPECT_THAT(Book::open(path).check(), testing::Contains(HasSubstr("table extra")));
    run_sql(path, "DROP TRIGGER findings_are_not_changed; DELETE FROM drafts; DROP TABLE drafts");
    EXPECT_THAT(Book::open(path).check(), Not(IsEmpty()));
}

TEST_F(Damage, IsNoticedWhenARecommendationIsOlderThanWhatItRestsOn) {
    const Book book = Book::open(path);
    EXPECT_THAT(book.check(), IsEmpty());
    // Written with its seal, as a faulty program would: only the order of dates gives it away.
    Database database = Database::open(path, Access::read_write);
    Row row;
    row.add(std::int64_t{99}).add(std::int64_t{1}).add(std::int64_t{1}).add("2020-01-01");
    row.add("2026.1").add("0f3a").add("").add(R"(["treat"])").add(true);
    row.add("[]").add("[]").add("[]");
    Row sealed = row;
    sealed.add(seal_of(row));
    Statement{database, "INSERT INTO recommendations VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?)"}.run(
        sealed);
    EXPECT_THAT(book.check(), ElementsAre(HasSubstr("number 99 is dated 2020-01-01")));
}

}  // namespace
}  // namespace ashtriage::book
