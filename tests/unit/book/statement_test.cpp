#include "book/statement.hpp"

#include <gmock/gmock.h>

#include "book/transaction.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

class StatementTest : public BookFolder {
 protected:
    StatementTest() { database.execute("CREATE TABLE t (number INTEGER, text TEXT) STRICT"); }
    std::int64_t count() { return Statement{database, "SELECT count(*) FROM t"}.number(); }
    void insert(std::int64_t number) {
        Statement{database, "INSERT INTO t VALUES (?, 'x')"}.run(Row{}.add(number));
    }

    Database database = Database::open(in_folder("a.db"), Access::create);
};

TEST_F(StatementTest, RefusesASecondStatement) {
    EXPECT_THROW(Statement(database, "SELECT 1; DROP TABLE t"), BookError);
    EXPECT_THROW(Statement(database, ""), BookError);
    EXPECT_NO_THROW(Statement(database, "SELECT 1; \n"));
}

TEST_F(StatementTest, RefusesTooFewOrTooManyValues) {
    Statement insert_one{database, "INSERT INTO t VALUES (?, ?)"};
    EXPECT_THROW(insert_one.run(Row{}.add(std::int64_t{1})), BookError);
    EXPECT_THROW(insert_one.run(Row{}.add(std::int64_t{1}).add("a").add("b")), BookError);
    EXPECT_EQ(count(), 0);
    insert_one.run(Row{}.add(std::int64_t{1}).add("a"));
    EXPECT_EQ(count(), 1);
}

TEST_F(StatementTest, TakesAMistypedNameForAnErrorAndNotForAText) {
    EXPECT_THROW(Statement(database, "SELECT \"numbr\" FROM t"), BookError);
}

TEST_F(StatementTest, CanBeRunAgain) {
    Statement find{database, "SELECT text FROM t WHERE number = ?"};
    EXPECT_FALSE(find.row(Row{}.add(std::int64_t{7})));
    insert(7);
    EXPECT_TRUE(find.row(Row{}.add(std::int64_t{7})));
}

TEST_F(StatementTest, WillNotPickOneOfSeveralRows) {
    insert(1);
    insert(1);
    EXPECT_EQ(trouble_with([&] {
                  Statement{database, "SELECT number FROM t"}.row();
              }).trouble(),
              Trouble::damaged);
}

TEST_F(StatementTest, EnforcesTheKindsOfColumnsAndReferences) {
    EXPECT_THROW(Statement(database, "INSERT INTO t VALUES ('ash', 'x')").run(), BookError);
    EXPECT_EQ((Statement{database, "PRAGMA foreign_keys"}.number()), 1);
    EXPECT_EQ((Statement{database, "PRAGMA synchronous"}.number()), 2);  // FULL
    EXPECT_EQ((Statement{database, "PRAGMA trusted_schema"}.number()), 0);
}

TEST_F(StatementTest, UndoesATransactionThatIsNotKept) {
    {
        const Transaction transaction{database};
        insert(1);
    }
    EXPECT_EQ(count(), 0);
    EXPECT_FALSE(database.in_transaction());
}

TEST_F(StatementTest, UndoesAnInnerTransactionAlone) {
    Transaction outer{database};
    insert(1);
    {
        const Transaction inner{database};
        insert(2);
    }
    {
        Transaction inner{database};
        insert(3);
        inner.keep();
    }
    outer.keep();
    EXPECT_EQ((Statement{database, "SELECT sum(number) FROM t"}.number()), 4);
}

TEST_F(StatementTest, UndoesTheInnerTransactionsWithTheOuterOne) {
    {
        const Transaction outer{database};
        Transaction inner{database};
        insert(1);
        inner.keep();
    }
    EXPECT_EQ(count(), 0);
}

TEST_F(StatementTest, SaysThatTheDiskIsFull) {
    database.execute("PRAGMA max_page_count = 8");
    const BookError error = trouble_with([&] {
        Transaction transaction{database};
        for (int i = 0; i < 10'000; ++i) insert(i);
        transaction.keep();
    });
    EXPECT_EQ(error.trouble(), Trouble::disk_full);
    EXPECT_THAT(error.hint(), testing::HasSubstr("as it was"));
    EXPECT_FALSE(database.in_transaction());
    EXPECT_EQ(count(), 0);
}

TEST_F(StatementTest, TakesNoNameForAnythingButAFile) {
    for (const char* name : {":memory:", "file:x.db?mode=memory"}) {
        const std::filesystem::path before = std::filesystem::current_path();
        std::filesystem::current_path(folder);
        Database::open(name, Access::create).execute("CREATE TABLE t (a)");
        std::filesystem::current_path(before);
        EXPECT_TRUE(std::filesystem::exists(in_folder(name)));
    }
}

}  // namespace
}  // namespace ashtriage::book
