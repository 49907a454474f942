// Whatever ends a change in the middle, the book is as it was before.

#include <gmock/gmock.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <thread>

#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

using namespace std::chrono_literals;

class Interruption : public BookFolder {
 protected:
    Interruption() {
        make_example_book(path);
        before = content_of(Book::open(path));
        site = before.sites.front().id;
    }

    template <class Work>
    static pid_t start(Work&& work) {
        const pid_t child = fork();
        if (child == 0) {
            try {
                work();
            } catch (const std::exception&) {
                _exit(3);
            }
            _exit(0);
        }
        return child;
    }
    static int end_of(pid_t child) {
        int status = 0;
        waitpid(child, &status, 0);
        return status;
    }

    // More than SQLite holds back in memory, so that the file itself is changed before the end.
    void add_many(Book& book, int count, const std::string& label) const {
        for (int i = 0; i < count; ++i) {
            observe::Tree tree = example_tree(site, label + std::to_string(i));
            tree.place = std::string(2000, 'p');
            book.add(tree);
        }
    }

    // A journal that was left behind and a file that has been changed already.
    void leave_a_change_half_done() {
        const std::uintmax_t size = std::filesystem::file_size(path);
        const pid_t child = start([&] {
            Book book = Book::open(path);
            book.in_transaction([&] {
                add_many(book, 3000, "K-");
                raise(SIGKILL);
            });
        });
        const int status = end_of(child);
        ASSERT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
        ASSERT_GT(std::filesystem::file_size(journal), 0U);
        ASSERT_GT(std::filesystem::file_size(path), size);
    }

    void expect_as_it_was(const Book& book) const {
        EXPECT_EQ(content_of(book), before);
        EXPECT_THAT(book.check(), testing::IsEmpty());
    }

    std::filesystem::path path = in_folder("a.book");
    std::filesystem::path journal = in_folder("a.book-journal");
    Content before;
    observe::SiteId site = 0;
};

TEST_F(Interruption, UndoesAChangeThatWasKilledInTheMiddle) {
    leave_a_change_half_done();
    expect_as_it_was(Book::open(path));
    EXPECT_FALSE(std::filesystem::exists(journal));
}

TEST_F(Interruption, UndoesItForAReaderToo) {
    leave_a_change_half_done();
    expect_as_it_was(Book::open(path, Mode::read_only));
}

TEST_F(Interruption, FindsDamageThatTheInterruptedChangeLeft) {
    leave_a_change_half_done();
    Book::open(path);
    // The same again, with a page of the book spoilt behind the journal's back.
    std::string bytes = bytes_of(path);
    bytes.replace(4096 * 3, 4096, std::string(4096, '\xff'));
    write_bytes(path, bytes);
    write_bytes(journal, "left behind");
    const BookError error = trouble_with([&] { Book::open(path); });
    EXPECT_EQ(error.trouble(), Trouble::damaged);
    EXPECT_THAT(error.what(), testing::HasSubstr("cut short"));
}

TEST_F(Interruption, LosesNoFinishedChangeAndKeepsNoUnfinishedOne) {
    constexpr std::size_t batch = 40;
    for (int delay = 0; delay < 60; delay += 4) {
        const std::size_t trees_before = Book::open(path).trees(site).size();
        int progress[2];
        ASSERT_EQ(pipe(progress), 0);
        const pid_t child = start([&] {
            Book book = Book::open(path);
            for (int number = 0;; ++number) {
                book.in_transaction([&] {
                    add_many(book, batch,
                             std::to_string(delay) + "/" + std::to_string(number) + "/");
                });
                if (write(progress[1], "x", 1) != 1) _exit(4);  // this batch was kept
            }
        });
        close(progress[1]);
        char first = 0;
        ASSERT_EQ(read(progress[0], &first, 1), 1);
        std::this_thread::sleep_for(std::chrono::milliseconds(delay));
        kill(child, SIGKILL);
        end_of(child);
        std::size_t reported = 1;
        while (read(progress[0], &first, 1) == 1) ++reported;
        close(progress[0]);

        const Book book = Book::open(path);
        const std::size_t added = book.trees(site).size() - trees_before;
        EXPECT_EQ(added % batch, 0U);
        EXPECT_GE(added / batch, reported);      // all that was said to be kept
        EXPECT_LE(added / batch, reported + 1);  // and at most the one not reported yet
        EXPECT_THAT(book.check(), testing::IsEmpty());
    }
}

TEST_F(Interruption, LeavesTheBookAsItWasWhenTheFileCannotGrow) {
    const std::uintmax_t size = std::filesystem::file_size(path);
    const pid_t child = start([&] {
        Book book = Book::open(path);
        signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{size + 40'000, size + 40'000};
        if (setrlimit(RLIMIT_FSIZE, &limit) != 0) _exit(5);
        try {
            book.in_transaction([&] { add_many(book, 3000, "F-"); });
        } catch (const BookError&) {
            _exit(content_of(book) == before ? 0 : 6);  // still usable, and as it was
        }
        _exit(7);
    });
    const int status = end_of(child);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    expect_as_it_was(Book::open(path));
}

TEST_F(Interruption, TellsASecondWriterThatTheBookIsInUse) {
    Book first = Book::open(path);
    Book second = Book::open(path, Mode::read_write, 0ms);
    first.in_transaction([&] {
        first.add(example_tree(site, "W-1"));
        EXPECT_EQ(trouble_with([&] { second.add(example_tree(site, "W-2")); }).trouble(),
                  Trouble::in_use);
        EXPECT_EQ(second.trees(site).size(), before.trees.size());  // reading goes on
    });
    second.add(example_tree(site, "W-2"));
    EXPECT_EQ(first.trees(site).size(), before.trees.size() + 2);
}

TEST_F(Interruption, WaitsForAnotherWriterToFinish) {
    int held[2];
    ASSERT_EQ(pipe(held), 0);
    const pid_t child = start([&] {
        Book book = Book::open(path);
        book.in_transaction([&] {
            book.add(example_tree(site, "W-1"));
            if (write(held[1], "x", 1) != 1) _exit(4);
            std::this_thread::sleep_for(300ms);
        });
    });
    char started = 0;
    ASSERT_EQ(read(held[0], &started, 1), 1);
    Book::open(path).add(example_tree(site, "W-2"));
    EXPECT_EQ(end_of(child), 0);
    EXPECT_EQ(Book::open(path).trees(site).size(), before.trees.size() + 2);
}

}  // namespace
}  // namespace ashtriage::book
