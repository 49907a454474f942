#include <gmock/gmock.h>

#include <sstream>

#include "measure/units.hpp"
#include "packs/bad_file.hpp"
#include "trees.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::triage {
namespace {

using measure::Length;
using measure::units::inch;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

observe::WalkSheet read(const std::string& text) {
    std::istringstream stream(text);
    return read_walk_sheet_csv(stream, "trees.csv", built_in_rules(),
                               measure::parse_date("2026-07-06"));
}

// "line:column: message hint" of every problem with the rows of a file.
std::vector<std::string> problems_of(const std::string& text) {
    std::vector<std::string> problems;
    try {
        read(text);
    } catch (const packs::BadFile& bad) {
        for (const packs::Problem& problem : bad.problems().list()) {
            EXPECT_EQ(problem.file, "trees.csv");
            problems.push_back(std::to_string(problem.place.line) + ":" +
                               std::to_string(problem.place.column) + ": " + problem.message + " " +
                               problem.hint);
        }
    }
    return problems;
}

// What a file as a whole is refused with.
Refusal refused(const std::string& text) {
    return refusal_of([&] { read(text); });
}

TEST(WalkSheetCsv, IsReadWhole) {
    const observe::WalkSheet sheet = read(
        "tree,place,date,observer,latitude,longitude,notes,stems,species,canopy_dieback\r\n"
        "N1,by the gate,2026-07-04,A. Nobody,42.5,-88.5,\"a, b and \"\"c\"\"\",9 + 8 in,green_ash,"
        "20-30 %\r\n");
    ASSERT_THAT(sheet.trees, SizeIs(1));
    const observe::SheetTree& tree = sheet.trees.front();
    EXPECT_EQ(tree.place, "trees.csv:2");
    EXPECT_EQ(tree.tree.label, "N1");
    EXPECT_EQ(tree.tree.place, "by the gate");
    EXPECT_EQ(tree.tree.position, (observe::Position{42.5, -88.5, {}}));
    EXPECT_EQ(tree.walk_around.date, measure::parse_date("2026-07-04"));
    EXPECT_EQ(tree.walk_around.observer, "A. Nobody");
    EXPECT_EQ(tree.walk_around.notes, "a, b and \"c\"");
    EXPECT_THAT(tree.walk_around.findings,
                ElementsAre(observe::Finding{"species", "green_ash"},
                            observe::Finding{"canopy_dieback", "20-30 %"}));
    EXPECT_THAT(tree.walk_around.stems, SizeIs(2));
    EXPECT_FALSE(sheet.site);
    EXPECT_FALSE(sheet.client);
}

// The same trees written as a table and as a sheet are the same trees.
TEST(WalkSheetCsv, SaysTheSameAsASheetDoes) {
    const auto table = read(
        "tree,place,observer,latitude,longitude,notes,stems,species,lean\n"
        "N1,by the gate,A. Nobody,42.5,-88.5,Look up.,9 in + girth 25 in,green_ash,3\n");
    const auto sheet = read_walk_sheet_yaml(
        "trees:\n  - tree: N1\n    place: by the gate\n    observer: A. Nobody\n"
        "    latitude: 42.5\n    longitude: -88.5\n    notes: Look up.\n"
        "    stems: 9 in + girth 25 in\n    facts: {species: green_ash, lean: 3}\n",
        "sheet.yaml", built_in_rules(), measure::parse_date("2026-07-06"));
    ASSERT_THAT(table.trees, SizeIs(1));
    ASSERT_THAT(sheet.trees, SizeIs(1));
    EXPECT_EQ(table.trees[0].tree, sheet.trees[0].tree);
    EXPECT_EQ(table.trees[0].walk_around, sheet.trees[0].walk_around);
}

TEST(WalkSheetCsv, TellsNothingByAnEmptyCell) {
    const auto sheet = read("tree,date,dbh,canopy_dieback,conks,latitude,longitude\nN1,, ,,\t,,\n");
    ASSERT_THAT(sheet.trees, SizeIs(1));
    EXPECT_EQ(sheet.trees[0].walk_around.date, measure::parse_date("2026-07-06"));
    EXPECT_THAT(sheet.trees[0].walk_around.stems, IsEmpty());
    EXPECT_THAT(sheet.trees[0].walk_around.findings, IsEmpty());
    EXPECT_FALSE(sheet.trees[0].tree.position);
}

TEST(WalkSheetCsv, MayBeginWithAByteOrderMark) {
    const auto sheet = read("\xEF\xBB\xBFtree,lean\nN1,3\n");
    ASSERT_THAT(sheet.trees, SizeIs(1));
    EXPECT_EQ(sheet.trees[0].tree.label, "N1");
}

TEST(WalkSheetCsv, TakesABareStemInInchesAndAnyColumnOrderOrSpelling) {
    const auto sheet = read("Canopy Dieback,DBH,Tree\n20,14,N1\n");
    ASSERT_THAT(sheet.trees, SizeIs(1));
    EXPECT_THAT(sheet.trees[0].walk_around.stems,
                ElementsAre(observe::Stem{observe::StemMeasure::diameter, Length::of("14", inch)}));
    EXPECT_THAT(sheet.trees[0].walk_around.findings,
                ElementsAre(observe::Finding{"canopy_dieback", "20"}));
}

TEST(WalkSheetCsv, KeepsAGirthAGirth) {
    EXPECT_THAT(read("tree,girth\nN1,44\n").trees.at(0).walk_around.stems,
                ElementsAre(observe::Stem{observe::StemMeasure::girth, Length::of("44", inch)}));
}

TEST(WalkSheetCsv, RefusesAColumnThatThereIsNot) {
    const Refusal refusal = refused("tree,canopy_diebak\nN1,20\n");
    EXPECT_THAT(refusal.what, HasSubstr("canopy_diebak"));
    EXPECT_THAT(refusal.hint, HasSubstr("canopy_dieback"));
    EXPECT_THAT(refused("label,lean\nN1,3\n").what, HasSubstr("tree"));
    EXPECT_THAT(refused("tree,lean,lean\nN1,3,3\n").what, HasSubstr("lean"));
}

TEST(WalkSheetCsv, RefusesWhatIsNoTable) {
    EXPECT_FALSE(refused("").what.empty());
    EXPECT_FALSE(refused(std::string("tree\nN\0001\n", 9)).what.empty());
    EXPECT_FALSE(refused("tree\nN\xFF\n").what.empty());
    EXPECT_FALSE(refused("tree,notes\nN1,\"never closed\n").what.empty());
}

TEST(WalkSheetCsv, RefusesAValueThatTheFactCannotHave) {
    for (const std::string value : {"101 %", "101", "-1", "nan", "inf", "20 in", "light", "1e2"}) {
        EXPECT_THAT(problems_of("tree,canopy_dieback\nN1,3\nN2," + value + "\n"),
                    ElementsAre(AllOf(HasSubstr("3:2: "), HasSubstr("Row 3"),
                                      HasSubstr("canopy_dieback"), HasSubstr(value))));
    }
    EXPECT_THAT(problems_of("tree,woodpecker_damage\nN1,hevy\n"),
                ElementsAre(AllOf(HasSubstr("2:2: "), HasSubstr("hevy"), HasSubstr("heavy"))));
}

TEST(WalkSheetCsv, RefusesStemsWithoutSize) {
    EXPECT_THAT(problems_of("tree,dbh\nN1,0\n"), ElementsAre(HasSubstr("2:2: ")));
    EXPECT_THAT(problems_of("tree,dbh\nN1,-4\n"), ElementsAre(HasSubstr("2:2: ")));
    EXPECT_THAT(problems_of("tree,dbh\nN1,nan\n"), ElementsAre(HasSubstr("2:2: ")));
    EXPECT_THAT(problems_of("tree,girth\nN1,0 cm\n"), ElementsAre(HasSubstr("2:2: ")));
    EXPECT_THAT(problems_of("tree,stems\nN1,9 in + 0 in\n"), ElementsAre(HasSubstr("2:2: ")));
    EXPECT_THAT(problems_of("tree,dbh\nN1,14 oz\n"), ElementsAre(HasSubstr("2:2: ")));
}

TEST(WalkSheetCsv, RefusesADiameterAndAGirthOfOneTree) {
    EXPECT_THAT(problems_of("tree,dbh,girth\nN1,14,44\n"), ElementsAre(HasSubstr("2:3: ")));
    EXPECT_THAT(problems_of("tree,stems,dbh\nN1,14 in,14\n"), ElementsAre(HasSubstr("2:3: ")));
    EXPECT_THAT(problems_of("tree,dbh,girth\nN1,14,\nN2,,44\n"), IsEmpty());
}

// February 2026 has 28 days.
TEST(WalkSheetCsv, RefusesADayThatThereIsNot) {
    EXPECT_THAT(problems_of("tree,date\nN1,2026-02-30\n"),
                ElementsAre(AllOf(HasSubstr("2:2: "), HasSubstr("2026-02-30"))));
}

TEST(WalkSheetCsv, RefusesHalfAPosition) {
    EXPECT_THAT(problems_of("tree,latitude,longitude\nN1,42.4,\n"),
                ElementsAre(AllOf(HasSubstr("2:3: "), HasSubstr("go together"))));
    EXPECT_THAT(problems_of("tree,latitude,longitude\nN1,,-88.5\n"),
                ElementsAre(AllOf(HasSubstr("2:2: "), HasSubstr("go together"))));
    EXPECT_THAT(problems_of("tree,latitude\nN1,42.4\n"), ElementsAre(HasSubstr("go together")));
    EXPECT_THAT(problems_of("tree,latitude,longitude\nN1,91,-88.5\n"),
                ElementsAre(HasSubstr("2:2: ")));
}

TEST(WalkSheetCsv, RefusesATreeWithoutALabelOrWithOneThatStandsTwice) {
    EXPECT_THAT(problems_of("tree,lean\n,3\n"), ElementsAre(HasSubstr("2:1: ")));
    EXPECT_THAT(problems_of("tree,lean\nN1,3\nN2,3\nN1,3\n"),
                ElementsAre(AllOf(HasSubstr("4:1: "), HasSubstr("N1"), HasSubstr("twice"))));
}

TEST(WalkSheetCsv, RefusesARowThatDoesNotFitItsHeader) {
    EXPECT_THAT(problems_of("tree,lean\nN1\nN2,3\nN3,3,4\n"),
                ElementsAre(HasSubstr("2:"), HasSubstr("4:")));
}

TEST(WalkSheetCsv, TellsEverythingThatIsWrongAtOnce) {
    EXPECT_THAT(problems_of("tree,dbh,date,conks\n"
                            "N1,0,2026-02-30,perhaps\n"
                            "N2,14,2026-07-04,no\n"
                            "N2,14 oz,,\n"),
                testing::UnorderedElementsAre(HasSubstr("2:2: "), HasSubstr("2:3: "),
                                              HasSubstr("2:4: "), HasSubstr("4:2: "),
                                              AllOf(HasSubstr("4:1: "), HasSubstr("twice"))));
}

std::string many_rows(int rows, int bad_row) {
    std::string text = "tree,dbh,canopy_dieback\n";
    for (int row = 1; row <= rows; ++row) {
        const std::string number = std::to_string(row);
        text += "N" + number + ",14," + (row == bad_row ? "101" : std::to_string(row % 101)) + "\n";
    }
    return text;
}

TEST(WalkSheetCsv, ReadsTenThousandRows) {
    const auto sheet = read(many_rows(10000, 0));
    ASSERT_THAT(sheet.trees, SizeIs(10000));
    EXPECT_EQ(sheet.trees.back().tree.label, "N10000");
    EXPECT_EQ(sheet.trees.back().place, "trees.csv:10001");
    EXPECT_EQ(sheet.trees.back().walk_around.findings.front().value, "1");  // 10000 = 99 * 101 + 1
}

// Row 9999 of the data is line 10000 of the file.
TEST(WalkSheetCsv, TakesNothingOfTenThousandRowsWhenOneIsBad) {
    EXPECT_THAT(problems_of(many_rows(10000, 9999)),
                ElementsAre(AllOf(HasSubstr("10000:3: "), HasSubstr("101"))));
}

}  // namespace
}  // namespace ashtriage::triage
