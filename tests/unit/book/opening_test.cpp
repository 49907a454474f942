#include <gmock/gmock.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book/schema.hpp"
#include "book/statement.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

using testing::HasSubstr;

class Opening : public BookFolder {
 protected:
    // Runs `work` as a user without rights to what others own; true when it returns true.
    template <class Work>
    static bool without_privileges(Work&& work) {
        const pid_t child = fork();
        if (child == 0) {
            constexpr uid_t nobody = 65534;
            if (geteuid() == 0 && seteuid(nobody) != 0) _exit(2);
            try {
                _exit(work() ? 0 : 1);
            } catch (const std::exception&) {
                _exit(3);
            }
        }
        int status = 0;
        waitpid(child, &status, 0);
        return WIFEXITED(status) && WEXITSTATUS(status) == 0;
    }

    std::filesystem::path path = in_folder("a.book");
};

// Plain, so that it can be used in a child process, where a failed expectation would be lost.
template <class Work>
bool meets(Trouble trouble, Work&& work) {
    try {
        std::forward<Work>(work)();
    } catch (const BookError& error) {
        return error.trouble() == trouble;
    }
    return false;
}

TEST_F(Opening, ABookInMemoryTakesRecordsAndLeavesNoFile) {
    Book book = Book::in_memory(path);
    book.add(observe::Client{0, "Ottoline Quillfeather", {}, {}, {}});
    EXPECT_EQ(book.info().clients, 1);
    EXPECT_FALSE(std::filesystem::exists(path));
}

TEST_F(Opening, OpensWhatItMade) {
    Book::create(path);
    const Book book = Book::open(path);
    EXPECT_THAT(book.clients(), testing::IsEmpty());
    EXPECT_THAT(book.check(), testing::IsEmpty());
    EXPECT_EQ(book.info().edition, newest_edition());
    EXPECT_FALSE(book.copy_of_older_edition());
}

// Offsets and meanings: "Database File Format", section 1.3, of the SQLite documentation.
TEST_F(Opening, MarksTheFileAsABookWithARollbackJournal) {
    Book::create(path);
    const std::string bytes = bytes_of(path);
    EXPECT_EQ(bytes.substr(0, 15), "SQLite format 3");
    EXPECT_EQ(bytes[18], 1);  // written with a rollback journal, not a write-ahead log
    EXPECT_EQ(bytes[19], 1);
    EXPECT_EQ(bytes.substr(60, 3), std::string("\0\0\0", 3));
    EXPECT_EQ(bytes[63], newest_edition());
    EXPECT_EQ(bytes.substr(68, 4), "ASHT");
}

TEST_F(Opening, RefusesToMakeABookOverAFile) {
    make_example_book(path);
    const std::string before = bytes_of(path);
    EXPECT_EQ(trouble_with([&] { Book::create(path); }).trouble(), Trouble::exists);
    EXPECT_EQ(bytes_of(path), before);
    write_bytes(in_folder("letter.txt"), "Dear client");
    EXPECT_EQ(trouble_with([&] { Book::create(in_folder("letter.txt")); }).trouble(),
              Trouble::exists);
    EXPECT_EQ(bytes_of(in_folder("letter.txt")), "Dear client");
    EXPECT_EQ(trouble_with([&] { Book::create(folder); }).trouble(), Trouble::exists);
}

TEST_F(Opening, MakesABookOfAnEmptyFile) {
    write_bytes(path, "");
    Book::create(path);
    EXPECT_EQ(Book::open(path).info().edition, newest_edition());
}

TEST_F(Opening, RefusesToMakeABookInAFolderThatIsNotThere) {
    const BookError error = trouble_with([&] { Book::create(in_folder("none") / "a.book"); });
    EXPECT_EQ(error.trouble(), Trouble::missing);
    EXPECT_THAT(error.what(), HasSubstr("none"));
}

TEST_F(Opening, RefusesWhatIsNotThere) {
    const BookError error = trouble_with([&] { Book::open(path); });
    EXPECT_EQ(error.trouble(), Trouble::missing);
    EXPECT_EQ(error.where(), path.string());
    EXPECT_FALSE(std::filesystem::exists(path));
    EXPECT_EQ(trouble_with([&] { Book::open(path, Mode::read_only); }).trouble(), Trouble::missing);
}

TEST_F(Opening, RefusesAFileOfAnotherKind) {
    const std::string letter(5000, 'x');
    for (const std::string& bytes :
         {std::string{}, std::string{"Dear client"}, letter, std::string{"\x89PNG\r\n\x1a\n"}}) {
        write_bytes(path, bytes);
        for (const Mode mode : {Mode::read_write, Mode::read_only}) {
            EXPECT_EQ(trouble_with([&] { Book::open(path, mode); }).trouble(), Trouble::not_a_book);
        }
        EXPECT_EQ(bytes_of(path), bytes);
    }
    EXPECT_EQ(trouble_with([&] { Book::open(folder); }).trouble(), Trouble::not_a_book);
}

TEST_F(Opening, RefusesTheDatabaseOfAnotherProgram) {
    Database::open(path, Access::create)
        .execute("CREATE TABLE trees (id); PRAGMA application_id = 5; PRAGMA user_version = 1");
    EXPECT_EQ(trouble_with([&] { Book::open(path); }).trouble(), Trouble::not_a_book);
    EXPECT_EQ(trouble_with([&] { Book::create(path); }).trouble(), Trouble::exists);
}

TEST_F(Opening, RefusesANewerEdition) {
    make_example_book(path);
    run_sql(path, "PRAGMA user_version = " + std::to_string(newest_edition() + 1));
    const std::string before = bytes_of(path);
    for (const Mode mode : {Mode::read_write, Mode::read_only}) {
        const BookError error = trouble_with([&] { Book::open(path, mode); });
        EXPECT_EQ(error.trouble(), Trouble::newer_edition);
        EXPECT_THAT(error.what(), HasSubstr("edition " + std::to_string(newest_edition() + 1)));
    }
    EXPECT_EQ(bytes_of(path), before);
}

TEST_F(Opening, ReadsAndDoesNotWriteInReadOnlyMode) {
    make_example_book(path);
    const std::string before = bytes_of(path);
    Book book = Book::open(path, Mode::read_only);
    EXPECT_EQ(book.clients().size(), 1U);
    EXPECT_EQ(trouble_with([&] { book.add(example_client()); }).trouble(), Trouble::read_only);
    EXPECT_EQ(bytes_of(path), before);
}

TEST_F(Opening, GoesBackToARollbackJournal) {
    make_example_book(path);
    const Content before = content_of(Book::open(path));
    run_sql(path, "PRAGMA journal_mode = WAL");
    EXPECT_EQ(bytes_of(path)[18], 2);
    EXPECT_EQ(content_of(Book::open(path)), before);
    EXPECT_EQ(bytes_of(path)[18], 1);
}

TEST_F(Opening, ReadsButRefusesToWriteAProtectedFile) {
    make_example_book(path);
    chmod(folder.c_str(), 0755);
    chmod(path.c_str(), 0444);
    EXPECT_TRUE(without_privileges([&] {
        return meets(Trouble::read_only, [&] { Book::open(path, Mode::read_write); }) &&
               Book::open(path, Mode::read_only).clients().size() == 1;
    }));
}

TEST_F(Opening, ReadsButRefusesToWriteInAProtectedFolder) {
    make_example_book(path);
    const std::string before = bytes_of(path);
    chmod(path.c_str(), 0666);
    chmod(folder.c_str(), 0555);
    EXPECT_TRUE(without_privileges([&] {
        Book book = Book::open(path);  // the file itself may be written, the journal may not
        return meets(Trouble::read_only, [&] { book.add(example_client()); }) &&
               book.clients().size() == 1 &&
               meets(Trouble::read_only, [&] { Book::create(in_folder("b.book")); });
    }));
    EXPECT_EQ(bytes_of(path), before);
}

TEST_F(Opening, FollowsALink) {
    make_example_book(path);
    std::filesystem::create_symlink(path, in_folder("link.book"));
    EXPECT_EQ(Book::open(in_folder("link.book")).clients().size(), 1U);
}

}  // namespace
}  // namespace ashtriage::book
