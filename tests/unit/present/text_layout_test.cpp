#include "present/text_layout.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <stdexcept>

namespace ashtriage::present {
namespace {

std::size_t widest_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t widest = 0;
    for (std::string line; std::getline(lines, line);) widest = std::max(widest, width_of(line));
    return widest;
}

TEST(WidthOf, CountsCharactersAndNotBytes) {
    EXPECT_EQ(width_of(""), 0U);
    EXPECT_EQ(width_of("ash"), 3U);
    EXPECT_EQ(width_of("Zoë"), 3U);
    EXPECT_EQ(width_of("木🌳"), 2U);
}

TEST(Paragraph, FillsALineToItsLastCharacter) {
    EXPECT_EQ(paragraph("aaaa bbbb", {}, 9), "aaaa bbbb\n");
    EXPECT_EQ(paragraph("aaaa bbbb", {}, 8), "aaaa\nbbbb\n");
}

TEST(Paragraph, CountsWhatStandsBeforeTheFirstLine) {
    EXPECT_EQ(paragraph("aaaa bbbb cccc", "* ", 11), "* aaaa bbbb\n  cccc\n");
    EXPECT_EQ(paragraph("aaaa bbbb cccc", "* ", 10), "* aaaa\n  bbbb\n  cccc\n");
    EXPECT_EQ(paragraph("aa bb", "ë ", 4), "ë aa\n  bb\n");
}

TEST(Paragraph, TakesAnyRunOfBlanksAndLineBreaksForOneBlank) {
    EXPECT_EQ(paragraph("  a \n\n b  "), "a b\n");
}

TEST(Paragraph, OfNothingIsALineWithWhatStandsBeforeIt) {
    EXPECT_EQ(paragraph(""), "\n");
    EXPECT_EQ(paragraph("  \n "), "\n");
    EXPECT_EQ(paragraph("", "* "), "*\n");
}

TEST(Paragraph, GivesALongWordALineOfItsOwn) {
    EXPECT_EQ(paragraph("a bbbbbbbbbb c", {}, 5), "a\nbbbbbbbbbb\nc\n");
    EXPECT_EQ(paragraph("bbbbbbbbbb", {}, 5), "bbbbbbbbbb\n");
}

TEST(Paragraph, IsEightyWideUnlessTold) {
    std::string words;
    for (int i = 0; i < 200; ++i) words += "word ";
    EXPECT_EQ(widest_line(paragraph(words)), 79U);  // 16 words of 4 with 15 blanks between
}

TEST(TextTable, PutsColumnsUnderOneAnother) {
    TextTable table({"Tree", "DBH", "Why"});
    table.add({"N1", "9.0", "thin"});
    table.add({"North", "14.0", "far from it"});
    EXPECT_EQ(table.text(),
              "Tree   DBH   Why\n"
              "-----  ----  ---\n"
              "N1     9.0   thin\n"
              "North  14.0  far from it\n");
}

TEST(TextTable, WrapsTheLastColumnToWhatIsLeft) {
    TextTable table({"Tree", "Why"});
    table.add({"N1", "aaaa bbbb cccc"});
    EXPECT_EQ(table.text(15), "Tree  Why\n----  ---\nN1    aaaa bbbb\n      cccc\n");
}

TEST(TextTable, LinesUpCharactersThatTakeSeveralBytes) {
    TextTable table({"Tree", "Why"});
    table.add({"Zoë", "a"});
    table.add({"Zoe", "b"});
    EXPECT_EQ(table.text(), "Tree  Why\n----  ---\nZoë   a\nZoe   b\n");
}

TEST(TextTable, OfNoRowsIsNothing) {
    EXPECT_EQ(TextTable({"Tree", "Why"}).text(), "");
}

TEST(TextTable, RefusesARowThatDoesNotFit) {
    TextTable table({"Tree", "Why"});
    EXPECT_THROW(table.add({"N1"}), std::invalid_argument);
    EXPECT_THROW(table.add({"N1", "a", "b"}), std::invalid_argument);
}

}  // namespace
}  // namespace ashtriage::present
