#include "present/triage_stream.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <sstream>

#include "demo_property.hpp"
#include "measure/input_error.hpp"
#include "packs/bad_file.hpp"
#include "packs/csv_rows.hpp"
#include "present/listing.hpp"
#include "random_sheet.hpp"
#include "triage/labels_seen.hpp"
#include "triage/walk_sheet_rows.hpp"

namespace ashtriage::present {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::StartsWith;

struct Streamed {
    std::string lines;
    std::string problems;
    std::string left_out;
    TriageStreamEnd end;
    std::string failure;  // what it ended with, when not well
};

Streamed streamed(const std::string& sheet, unsigned threads = 2,
                  const Knowledge& knowledge = built_in_knowledge()) {
    std::istringstream stream(sheet);
    std::ostringstream lines;
    std::ostringstream problems;
    std::ostringstream left_out;
    Streamed result;
    try {
        result.end = stream_triage(stream, "trees.csv", knowledge, demo_day(),
                                   {lines, problems, &left_out}, threads);
    } catch (const measure::InputError& error) {
        result.failure = error.what();
    }
    result.lines = lines.str();
    result.problems = problems.str();
    result.left_out = left_out.str();
    return result;
}

// The sheet read as a whole, and the listing of it as CSV. Throws as the parts do.
std::string listed(const std::string& sheet, const Knowledge& knowledge = built_in_knowledge()) {
    std::istringstream stream(sheet);
    std::vector<TreeAssessment> trees;
    for (const observe::SheetTree& entry :
         triage::read_walk_sheet_csv(stream, "trees.csv", knowledge.judge.rules(), demo_day())
             .trees) {
        triage::check(entry, demo_day());
        trees.push_back(
            assess_tree(knowledge, nullptr, entry.tree, entry.walk_around, nullptr, demo_day()));
    }
    return triage_csv(trees);
}

const std::string& listing_header() {
    static const std::string header = triage_csv({});
    return header;
}

// Tells only where they first differ: texts this long are not to be shown.
void expect_the_same_lines(const std::string& lines, const std::string& expected) {
    const auto [at, at_expected] = std::ranges::mismatch(lines, expected);
    if (at == lines.end() && at_expected == expected.end()) return;
    const auto from = static_cast<std::size_t>(at - lines.begin());
    const std::size_t line = lines.rfind('\n', from) + 1;
    ADD_FAILURE() << "here: " << lines.substr(line, 300)
                  << "\nexpected: " << expected.substr(line, 300);
}

void expect_the_listing_of_the_rows_that_can_be_read(const Knowledge& knowledge, unsigned seed,
                                                     int rows) {
    RandomSheet random(knowledge.judge.rules(), seed);
    const std::string header = random.header();
    std::string sheet = header;
    std::string expected = listing_header();
    std::size_t refused = 0;
    for (int i = 0; i < rows; ++i) {
        const std::string row = random.row();
        sheet += row;
        try {
            expected += listed(header + row, knowledge).substr(listing_header().size());
        } catch (const packs::BadFile&) {
            ++refused;
        } catch (const measure::InputError&) {
            ++refused;
        }
    }
    const auto some = static_cast<std::size_t>(rows) / 20;
    EXPECT_GT(refused, some);
    EXPECT_LT(refused, 10 * some);
    for (const unsigned threads : {1U, 2U, 5U}) {
        const Streamed result = streamed(sheet, threads, knowledge);
        EXPECT_EQ(result.failure, "");
        expect_the_same_lines(result.lines, expected);
        EXPECT_EQ(result.end.rows, static_cast<std::size_t>(rows));
        EXPECT_EQ(result.end.left_out, refused);
    }
}

// The listing is made by another way through the program: each row read as a sheet of its own, the
// whole recommendation found and worded.
TEST(TriageStream, GivesByteForByteTheListingOfTheSheet) {
    expect_the_listing_of_the_rows_that_can_be_read(built_in_knowledge(), 1, 2500);
}

TEST(TriageStream, GivesTheListingOfAnyPreset) {
    for (const packs::Preset& preset : built_in_rules().presets) {
        SCOPED_TRACE(preset.name);
        const Knowledge knowledge = read_knowledge(packs::built_in_rule_files(), preset.name);
        expect_the_listing_of_the_rows_that_can_be_read(knowledge, 2, 150);
    }
}

TEST(TriageStream, GivesTheListingOfASheetWithoutTrees) {
    EXPECT_EQ(streamed("tree,species\n").lines, listing_header());
    EXPECT_EQ(streamed("tree,species\n").end.rows, 0U);
}

// What is wrong with a row is told in the words in which a sheet as a whole is refused for it.
TEST(TriageStream, TellsOfARowWhatTheWholeSheetIsRefusedWith) {
    const std::string sheet = "tree,dbh,canopy_dieback,conks\nA,14,20,no\nB,0,101,perhaps\n";
    const Streamed result = streamed(sheet);
    try {
        listed(sheet);
        ADD_FAILURE() << "the sheet was not refused";
    } catch (const packs::BadFile& bad) {
        EXPECT_EQ(result.problems, bad.problems().text() + "\n");
    }
    EXPECT_EQ(result.lines, listed("tree,dbh,canopy_dieback,conks\nA,14,20,no\n"));
    EXPECT_EQ(result.end.left_out, 1U);
}

TEST(TriageStream, TellsTheRowLineColumnAndRemedy) {
    const Streamed result = streamed("tree,notes,dbh\nA,\"two\nlines\",14\nB,,0\nC,x\n");
    EXPECT_THAT(result.problems, HasSubstr("trees.csv:4:3: Row 3, column \"dbh\": A stem of no "
                                           "size [bad-cell]\n    Leave the cell empty"));
    EXPECT_THAT(result.problems, HasSubstr("trees.csv:5: Row 4: the row has 2 fields"));
    const Streamed later = streamed("tree,date\nA,2026-07-11\n");
    EXPECT_THAT(later.problems, HasSubstr("trees.csv:2: Row 2: The walk-around of tree \"A\""));
    EXPECT_THAT(later.problems, HasSubstr("[bad-row]"));
}

TEST(TriageStream, TellsTheFirstTwentyInFullAndCountsTheRest) {
    std::string sheet = "tree,dbh\n";
    for (int i = 1; i <= 5000; ++i) sheet += "T" + std::to_string(i) + ",0\n";
    const Streamed result = streamed(sheet);
    EXPECT_EQ(result.end.left_out, 5000U);
    EXPECT_EQ(count_of("A stem of no size", result.problems), 20U);
    EXPECT_THAT(result.problems, HasSubstr("Row 21,"));
    EXPECT_THAT(result.problems, testing::Not(HasSubstr("Row 22,")));
    EXPECT_EQ(count_of("A stem of no size", result.left_out), 5000U);
}

TEST(TriageStream, KeepsTheFirstTreeOfALabelAndLeavesOutTheOthers) {
    const Streamed result = streamed("tree,dbh\nA,14\nB,9\n A ,15\nA,16\nb,9\n");
    EXPECT_EQ(result.lines, listed("tree,dbh\nA,14\nB,9\nb,9\n"));
    EXPECT_EQ(count_of("The tree \"A\" stands here twice", result.problems), 2U);
    EXPECT_EQ(result.end.labels_kept, 0U);
}

// --- rows set aside ----------------------------------------------------------------------------

TEST(TriageStream, SetsRowsAsideToTheLetterWithTheirProblem) {
    const Streamed result =
        streamed("tree,notes,dbh\nA,fine,14\nB,\"=1+1, \"\"odd\"\"\ntwo lines\",0\nC, x ,girth\n");
    std::istringstream stream(result.left_out);
    packs::CsvReader reader(stream, "left_out.csv");
    EXPECT_THAT(reader.header().names(), testing::ElementsAre("tree", "notes", "dbh", "problem"));
    packs::CsvRow row;
    ASSERT_TRUE(reader.next(row));
    EXPECT_THAT(row.fields, testing::ElementsAre("B", "=1+1, \"odd\"\ntwo lines", "0",
                                                 HasSubstr("Row 3, column \"dbh\"")));
    ASSERT_TRUE(reader.next(row));
    EXPECT_THAT(row.fields, testing::ElementsAre("C", " x ", "girth", HasSubstr("Row 4")));
    EXPECT_FALSE(reader.next(row));
}

TEST(TriageStream, TakesMendedRowsThatWereSetAside) {
    std::string aside = streamed("tree,dbh\nA,14\nB,0\nC,0\n").left_out;
    aside.replace(aside.find("B,0"), 3, "B,9");
    const Streamed again = streamed(aside);
    EXPECT_EQ(again.lines, listed("tree,dbh\nB,9\n"));
    EXPECT_EQ(again.end.left_out, 1U);
    // The old problem makes way for the new one.
    EXPECT_THAT(again.left_out, StartsWith("tree,dbh,problem\r\nC,0,"));
    EXPECT_EQ(count_of("A stem of no size", again.left_out), 1U);
}

TEST(TriageStream, TakesNoRowOfTheWrongWidthForAWholeOneLater) {
    for (const std::string sheet :
         {"tree,dbh,place\nA,14\nB,1,2,3\nC\n", "tree,dbh,problem\nA,14\nB,9,was bad,more\nC\n"}) {
        std::string aside = sheet;
        for (int times = 0; times < 3; ++times) {
            const Streamed result = streamed(aside);
            EXPECT_EQ(result.lines, listing_header());
            EXPECT_EQ(result.end.left_out, 3U);
            aside = result.left_out;
        }
    }
}

// --- files that no further row can be trusted of -----------------------------------------------

TEST(TriageStream, StopsBeforeAnythingIsWrittenAtAFileThatIsNoTableOfThisKind) {
    for (const std::string sheet : {"", "\n", "a;b\n1;2\n", "tree,canopy_diebak\nA,20\n",
                                    "label,dbh\nA,14\n", "tree,tree\nA,A\n", "tree,\"dbh\n"}) {
        const Streamed result = streamed(sheet);
        EXPECT_FALSE(result.failure.empty()) << sheet;
        EXPECT_EQ(result.lines, "") << sheet;
        EXPECT_EQ(result.left_out, "") << sheet;
    }
}

TEST(TriageStream, WritesTheRowsBeforeThePlaceFromWhichNothingCanBeTrusted) {
    std::string good = "tree,dbh\n";
    for (int i = 1; i <= 20'000; ++i) good += "T" + std::to_string(i) + ",14\n";
    const std::string all = streamed(good).lines;
    EXPECT_EQ(count_of("\r\n", all), 20'001U);
    for (const std::string& bad : {std::string("X,\"never closed\nY,9\n"), std::string("X,9\"\n"),
                                   std::string("X\xFF,9\n"), std::string("X,\0\n", 4)}) {
        const Streamed result = streamed(good + bad);
        EXPECT_THAT(result.failure, StartsWith("row 20002, "));
        EXPECT_EQ(result.lines, all);
    }
}

TEST(TriageStream, SaysSoWhenItsOutputCannotBeWritten) {
    std::string sheet = "tree,dbh\n";
    for (int i = 1; i <= 20'000; ++i) sheet += "T" + std::to_string(i) + ",14\n";
    std::istringstream stream(sheet);
    std::ostringstream full;
    full.setstate(std::ios::badbit);
    std::ostringstream problems;
    EXPECT_THROW(stream_triage(stream, "trees.csv", built_in_knowledge(), demo_day(),
                               {full, problems, nullptr}, 2),
                 measure::InputError);
}

}  // namespace
}  // namespace ashtriage::present
