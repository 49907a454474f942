// Rows after RFC 4180, section 2 (CRLF between rows, inner quotation marks doubled), and the
// characters that a published list of formula injections names: = + - @, tab, carriage return and,
// since August 2025, line feed.
#include "present/csv_text.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "packs/csv_rows.hpp"

namespace ashtriage::present {
namespace {

TEST(CsvTextField, LeavesPlainTextAlone) {
    EXPECT_EQ(csv_text_field(""), "");
    EXPECT_EQ(csv_text_field("by the gate"), "by the gate");
    EXPECT_EQ(csv_text_field("a-b = c + d @ e"), "a-b = c + d @ e");
}

TEST(CsvTextField, QuotesWhatWouldBreakTheRow) {
    EXPECT_EQ(csv_text_field("a,b"), "\"a,b\"");
    EXPECT_EQ(csv_text_field("say \"no\""), "\"say \"\"no\"\"\"");
    EXPECT_EQ(csv_text_field("one\ntwo\nthree"), "\"one\ntwo\nthree\"");
}

TEST(CsvTextField, KeepsASpreadsheetFromReadingAFormula) {
    EXPECT_EQ(csv_text_field("=1+1"), "'=1+1");
    EXPECT_EQ(csv_text_field("-ask owner"), "'-ask owner");
    EXPECT_EQ(csv_text_field("+1 612 555 0100"), "'+1 612 555 0100");
    EXPECT_EQ(csv_text_field("@home"), "'@home");
    EXPECT_EQ(csv_text_field("\t=1+1"), "'\t=1+1");
    EXPECT_EQ(csv_text_field("\r=1+1"), "\"'\r'=1+1\"");
    EXPECT_EQ(csv_text_field("\n=1+1"), "\"'\n'=1+1\"");
    EXPECT_EQ(csv_text_field("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
}

TEST(CsvTextField, GuardsEveryLineOfANote) {
    EXPECT_EQ(csv_text_field("look\n=1+1\r\n+2"), "\"look\n'=1+1\r\n'+2\"");
    EXPECT_EQ(csv_text_field("look\n\nagain"), "\"look\n\nagain\"");
}

// North American longitudes all begin with a minus sign.
TEST(CsvPlainField, LeavesANegativeNumberANumber) {
    EXPECT_EQ(csv_plain_field("-88.6"), "-88.6");
    EXPECT_EQ(csv_plain_field("2026-07-10"), "2026-07-10");
    EXPECT_EQ(csv_plain_field("a,b"), "\"a,b\"");
}

TEST(CsvRow, JoinsWithCommasAndEndsWithCrLf) {
    EXPECT_EQ(csv_row({"a", "b", ""}), "a,b,\r\n");
    EXPECT_EQ(csv_row({"a"}), "a\r\n");
}

TEST(CsvRow, IsReadBackAsItWasWritten) {
    const std::vector<std::string> fields{"a,b", "say \"no\"", "one\ntwo", "", "-88.6", " blank "};
    std::vector<std::string> written;
    written.reserve(fields.size());
    for (const std::string& field : fields) written.push_back(csv_plain_field(field));
    std::istringstream stream("a,b,c,d,e,f\r\n" + csv_row(written));
    packs::CsvReader reader(stream, "rows.csv");
    packs::CsvRow row;
    ASSERT_TRUE(reader.next(row));
    EXPECT_EQ(row.fields, fields);
    EXPECT_FALSE(reader.next(row));
}

}  // namespace
}  // namespace ashtriage::present
