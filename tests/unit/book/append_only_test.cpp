// What was seen and what was answered stays as it is, even for one who opens the file with other
// tools.

#include <gmock/gmock.h>

#include "book/statement.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

class AppendOnly : public BookFolder {
 protected:
    AppendOnly() {
        make_example_book(path);
        before = content_of(Book::open(path));
    }
    void expect_refused(const std::string& sql) {
        EXPECT_EQ(trouble_with([&] { run_sql(path, sql); }).trouble(), Trouble::refused) << sql;
        EXPECT_EQ(content_of(Book::open(path)), before) << sql;
    }

    std::filesystem::path path = in_folder("a.book");
    Content before;
};

TEST_F(AppendOnly, RefusesToChangeWhatWasSeenOrAnswered) {
    expect_refused("UPDATE walk_arounds SET notes = ''");
    expect_refused("UPDATE stems SET length_nm = length_nm + 1");
    expect_refused("UPDATE findings SET value = '0 %' WHERE fact = 'canopy_loss'");
    expect_refused("UPDATE recommendations SET firm = 0");
    expect_refused("UPDATE earlier_descriptions SET changed_on = '2020-01-01'");
    expect_refused("UPDATE applications SET notes = ''");
    expect_refused("UPDATE applied_actives SET mass_ng = 1");
    expect_refused("UPDATE treated_trees SET dbh_nm = dbh_nm + 1");
    expect_refused("UPDATE application_people SET license = ''");
    expect_refused("UPDATE application_words SET text = 'x'");
    expect_refused("UPDATE other_uses SET mass_ng = 1");
    expect_refused("UPDATE raised_allowances SET expires = '2099-12-31'");
}

TEST_F(AppendOnly, RefusesToDeleteWhatWasSeenOrAnswered) {
    for (const char* table :
         {"walk_arounds", "stems", "findings", "recommendations", "earlier_descriptions",
          "applications", "applied_actives", "treated_trees", "application_people",
          "application_words", "other_uses", "raised_allowances"}) {
        expect_refused("DELETE FROM " + std::string{table});
    }
}

TEST_F(AppendOnly, RefusesToDeleteWhatOthersReferTo) {
    for (const char* table : {"clients", "sites", "trees"}) {
        expect_refused("DELETE FROM " + std::string{table});
    }
}

TEST_F(AppendOnly, RefusesToReplaceUnderTheCoverOfAnInsertion) {
    expect_refused("INSERT OR REPLACE INTO walk_arounds SELECT * FROM walk_arounds");
    expect_refused(
        "INSERT OR REPLACE INTO walk_arounds (id, tree, seen_on, observer, notes, supersedes, seal)"
        " VALUES (99, 1, '2026-05-18', 'x', '', 1, 0)");  // would delete the correction there is
    expect_refused("INSERT OR REPLACE INTO stems VALUES (1, 1, 'girth', 5)");
    expect_refused("INSERT OR REPLACE INTO findings VALUES (1, 1, 'canopy_loss', '0 %')");
    expect_refused("INSERT OR REPLACE INTO recommendations SELECT * FROM recommendations");
    expect_refused(
        "INSERT OR REPLACE INTO earlier_descriptions SELECT * FROM earlier_descriptions");
    for (const std::string table :
         {"applications", "applied_actives", "treated_trees", "application_people",
          "application_words", "other_uses", "raised_allowances"}) {
        expect_refused("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table);
    }
}

TEST_F(AppendOnly, RefusesToAddToAWalkAroundLater) {
    expect_refused("INSERT INTO stems VALUES (1, 9, 'girth', 5)");
    expect_refused("INSERT INTO findings VALUES (1, 9, 'bark_split', 'yes')");
}

TEST_F(AppendOnly, RefusesToAddToAnApplicationLater) {
    expect_refused("INSERT INTO applied_actives VALUES (1, 9, 'x', 5)");
    expect_refused(
        "INSERT INTO treated_trees VALUES (1, 9, NULL, 'Z-1', 5, NULL, NULL, NULL, NULL, NULL)");
    expect_refused("INSERT INTO application_people VALUES (1, 9, 'assistant', 'x', '', '', NULL)");
    expect_refused("INSERT INTO application_words VALUES (1, 9, 'photo', 'x.jpg')");
}

TEST_F(AppendOnly, RefusesStemsWithoutAWalkAround) {
    expect_refused("INSERT INTO stems VALUES (999, 1, 'girth', 5)");
}

TEST_F(AppendOnly, RefusesDatesThatSqliteWouldBend) {
    const auto insertion = [](const std::string& date) {
        return "INSERT INTO walk_arounds (id, tree, seen_on, observer, notes, seal) "
               "VALUES (99, 1, '" +
               date + "', 'x', '', 0)";
    };
    for (const char* date :
         {"2026-02-31", "2026-2-3", "2460000.5", "2026-05-18 10:00", "", "20260518"}) {
        expect_refused(insertion(date));
    }
    EXPECT_THROW(run_sql(path, insertion("now")), BookError);  // a clock in a constraint
    EXPECT_EQ(content_of(Book::open(path)), before);
}

TEST_F(AppendOnly, KeepsCorrectionsOnOneTree) {
    // The walk-around 1 is of tree 1.
    expect_refused(
        "INSERT INTO walk_arounds (id, tree, seen_on, observer, notes, supersedes, seal) "
        "VALUES (99, 3, '2026-05-18', 'x', '', 2, 0)");
}

}  // namespace
}  // namespace ashtriage::book
