#include "book/backup.hpp"

#include <gmock/gmock.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>

#include "book/schema.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

using namespace std::chrono_literals;
using testing::HasSubstr;

class Backup : public BookFolder {
 protected:
    Backup() {
        make_example_book(path);
        content = content_of(Book::open(path));
        Book::open(path).backup_to(backup);
    }
    void change_book() {
        Book book = Book::open(path);
        book.add(example_tree(content.sites.front().id, "later"));
        changed = content_of(book);
    }

    std::filesystem::path path = in_folder("a.book");
    std::filesystem::path backup = in_folder("a.backup");
    Content content;
    Content changed;
};

TEST_F(Backup, HoldsTheSame) {
    const Book copy = Book::open(backup, Mode::read_only);
    EXPECT_EQ(content_of(copy), content);
    EXPECT_THAT(copy.check(), testing::IsEmpty());
}

TEST_F(Backup, OverwritesNothing) {
    change_book();
    EXPECT_EQ(trouble_with([&] { Book::open(path).backup_to(backup); }).trouble(), Trouble::exists);
    EXPECT_EQ(trouble_with([&] { Book::open(path).backup_to(path); }).trouble(), Trouble::exists);
    EXPECT_EQ(content_of(Book::open(backup)), content);
    EXPECT_EQ(trouble_with([&] { Book::open(path).backup_to(in_folder("none") / "b"); }).trouble(),
              Trouble::missing);
}

TEST_F(Backup, IsTakenOfTheBookAsItWasWhileAnotherWrites) {
    Book writer = Book::open(path);
    const Book reader = Book::open(path, Mode::read_only);
    writer.in_transaction([&] {
        writer.add(example_tree(content.sites.front().id, "in the middle"));
        reader.backup_to(in_folder("b.backup"));
    });
    EXPECT_EQ(content_of(Book::open(in_folder("b.backup"))), content);
}

TEST_F(Backup, IsRestoredToANewPlace) {
    restore(backup, in_folder("b.book"), IfThere::refuse);
    EXPECT_EQ(content_of(Book::open(in_folder("b.book"))), content);
}

TEST_F(Backup, IsRestoredOverABookOnlyWhenAskedFor) {
    change_book();
    EXPECT_EQ(trouble_with([&] { restore(backup, path, IfThere::refuse); }).trouble(),
              Trouble::exists);
    EXPECT_EQ(content_of(Book::open(path)), changed);
    restore(backup, path, IfThere::overwrite);
    EXPECT_EQ(content_of(Book::open(path)), content);
    EXPECT_THAT(Book::open(path).check(), testing::IsEmpty());
}

TEST_F(Backup, IsRestoredOverADamagedBook) {
    const std::string sound = bytes_of(path);
    std::string spoilt = sound;
    spoilt.replace(100, spoilt.size() - 100, std::string(spoilt.size() - 100, '\x55'));
    for (const std::string& bytes : {spoilt, sound.substr(0, sound.size() / 2),
                                     sound.substr(0, 500), sound + std::string(9000, 'x')}) {
        write_bytes(path, bytes);
        restore(backup, path, IfThere::overwrite);
        EXPECT_EQ(content_of(Book::open(path)), content);
        EXPECT_THAT(Book::open(path).check(), testing::IsEmpty());
    }
}

TEST_F(Backup, IsNotRestoredOverAFileThatIsNotABook) {
    const std::filesystem::path other = in_folder("other.db");
    Database::open(other, Access::create).execute("CREATE TABLE trees (id)");
    for (const std::string& bytes : {std::string{"Dear client"}, std::string{}, bytes_of(other)}) {
        write_bytes(other, bytes);
        const BookError error = trouble_with([&] { restore(backup, other, IfThere::overwrite); });
        EXPECT_EQ(error.trouble(), Trouble::not_a_book);
        EXPECT_THAT(error.what(), HasSubstr("not overwritten"));
        EXPECT_EQ(bytes_of(other), bytes);
    }
}

TEST_F(Backup, IsNotRestoredOverANewerBook) {
    run_sql(path, "PRAGMA user_version = " + std::to_string(newest_edition() + 1));
    EXPECT_EQ(trouble_with([&] { restore(backup, path, IfThere::overwrite); }).trouble(),
              Trouble::newer_edition);
}

TEST_F(Backup, IsNotRestoredWhenItIsDamaged) {
    change_book();
    const std::string sound = bytes_of(backup);
    std::string bytes = sound;
    bytes[bytes.find("Ladder needed")] = 'M';
    write_bytes(backup, bytes);
    EXPECT_EQ(trouble_with([&] { restore(backup, path, IfThere::overwrite); }).trouble(),
              Trouble::damaged);
    write_bytes(backup, std::string_view{sound}.substr(0, sound.size() / 2));
    EXPECT_EQ(trouble_with([&] { restore(backup, path, IfThere::overwrite); }).trouble(),
              Trouble::damaged);
    EXPECT_EQ(content_of(Book::open(path)), changed);
}

TEST_F(Backup, IsNotRestoredWhenItIsNotThereOrOfAnotherKind) {
    EXPECT_EQ(trouble_with([&] { restore(in_folder("none"), path, IfThere::overwrite); }).trouble(),
              Trouble::missing);
    write_bytes(in_folder("letter.txt"), "Dear client");
    EXPECT_EQ(
        trouble_with([&] { restore(in_folder("letter.txt"), path, IfThere::overwrite); }).trouble(),
        Trouble::not_a_book);
    EXPECT_EQ(trouble_with([&] { restore(path, path, IfThere::overwrite); }).trouble(),
              Trouble::exists);
    EXPECT_EQ(content_of(Book::open(path)), content);
}

TEST_F(Backup, IsNotRestoredUnderTheHandsOfAWriter) {
    Book writer = Book::open(path);
    writer.in_transaction([&] {
        writer.add(example_tree(content.sites.front().id, "in the middle"));
        EXPECT_EQ(trouble_with([&] { restore(backup, path, IfThere::overwrite, 0ms); }).trouble(),
                  Trouble::in_use);
    });
    EXPECT_EQ(writer.trees(content.sites.front().id).size(), content.trees.size() + 1);
}

// Runs `work` in a process whose files cannot grow beyond `size`; 0 when it meets a BookError.
template <class Work>
int with_files_limited_to(rlim_t size, Work&& work) {
    const pid_t child = fork();
    if (child == 0) {
        signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{size, size};
        if (setrlimit(RLIMIT_FSIZE, &limit) != 0) _exit(5);
        try {
            work();
        } catch (const BookError&) {
            _exit(0);
        }
        _exit(7);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return status;
}

TEST_F(Backup, LeavesNoFileWhenItFails) {
    EXPECT_EQ(with_files_limited_to(
                  20'000, [&] { Book::open(path, Mode::read_only).backup_to(in_folder("b")); }),
              0);
    EXPECT_FALSE(std::filesystem::exists(in_folder("b")));
}

TEST_F(Backup, LeavesTheBookAsItWasWhenItCannotBeRestored) {
    change_book();
    EXPECT_EQ(with_files_limited_to(20'000, [&] { restore(backup, path, IfThere::overwrite); }), 0);
    EXPECT_EQ(content_of(Book::open(path)), changed);
    EXPECT_THAT(Book::open(path).check(), testing::IsEmpty());
}

}  // namespace
}  // namespace ashtriage::book
