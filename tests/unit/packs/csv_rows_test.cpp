#include "packs/csv_rows.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "measure/input_error.hpp"

namespace ashtriage::packs {
namespace {

using measure::InputError;
using testing::ElementsAre;
using testing::HasSubstr;

std::vector<CsvRow> rows_of(const std::string& text) {
    std::istringstream stream(text);
    CsvReader reader(stream, "trees.csv");
    std::vector<CsvRow> rows;
    for (CsvRow row; reader.next(row);) rows.push_back(row);
    return rows;
}

// The error that reading the whole text ends with.
InputError error_of(const std::string& text) {
    try {
        rows_of(text);
    } catch (const InputError& error) {
        return error;
    }
    ADD_FAILURE() << "no error for " << text.substr(0, 100);
    return InputError("");
}

TEST(CsvReader, ReadsRowsWithTheirNumbersAndLines) {
    const auto rows = rows_of("id,dbh\nA1,14\nA2,\"20\"\n");
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_THAT(rows[0].fields, ElementsAre("A1", "14"));
    EXPECT_EQ(rows[0].number, 2U);
    EXPECT_EQ(rows[0].line, 2U);
    EXPECT_THAT(rows[1].fields, ElementsAre("A2", "20"));
    EXPECT_EQ(rows[1].number, 3U);
    EXPECT_TRUE(rows[1].fault.empty());
}

// RFC 4180, section 2: 2.2 (last line end), 2.4 (blanks), 2.6 and 2.7 (quotation marks).
TEST(CsvReader, FollowsTheRulesOfRfc4180) {
    const auto rows =
        rows_of("a,b,c\r\n\"x, y\",\"he said \"\"no\"\"\",\"two\r\nlines\"\r\n spaced , ,");
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_THAT(rows[0].fields, ElementsAre("x, y", "he said \"no\"", "two\r\nlines"));
    EXPECT_EQ(rows[0].line, 2U);
    EXPECT_THAT(rows[1].fields, ElementsAre(" spaced ", " ", ""));
    EXPECT_EQ(rows[1].line, 4U);
}

TEST(CsvReader, KeepsCountOfLinesAcrossBlankLinesAndLineEndsOfAllKinds) {
    for (const char* end : {"\n", "\r\n", "\r"}) {
        std::string text = "a,b||\"x|y\",2|3,4||5,6|";
        for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos;) {
            text.replace(at, 1, end);
        }
        const auto rows = rows_of(text);
        ASSERT_EQ(rows.size(), 3U);
        EXPECT_EQ(rows[0].line, 3U);
        EXPECT_EQ(rows[1].line, 5U);
        EXPECT_EQ(rows[2].line, 7U);
        EXPECT_EQ(rows[2].number, 4U);
    }
}

TEST(CsvReader, SkipsAByteOrderMark) {
    std::istringstream stream(
        "\xEF\xBB\xBF"
        "id,dbh\n1,2\n");
    CsvReader reader(stream, "f");
    EXPECT_THAT(reader.header().names(), ElementsAre("id", "dbh"));
}

TEST(CsvReader, ARowOfTheWrongWidthIsAFaultOfThatRowAlone) {
    const auto rows = rows_of("a,b\n1,2\n3\n4,5,6\n7,8\n");
    ASSERT_EQ(rows.size(), 4U);
    EXPECT_TRUE(rows[0].fault.empty());
    EXPECT_EQ(rows[1].fault, "the row has 1 field, but there are 2 columns");
    EXPECT_EQ(rows[2].fault, "the row has 3 fields, but there are 2 columns");
    EXPECT_TRUE(rows[3].fault.empty());
}

TEST(CsvReader, WidthIsCheckedFarBehindTheHeaderToo) {
    std::string text = "a,b\n";
    for (int i = 0; i < 100'000; ++i) text += "1,2\n";
    text += "3\n";
    const auto rows = rows_of(text);
    ASSERT_EQ(rows.size(), 100'001U);
    EXPECT_EQ(rows.back().number, 100'002U);
    EXPECT_EQ(rows.back().line, 100'002U);
    EXPECT_FALSE(rows.back().fault.empty());
    EXPECT_TRUE(rows[99'999].fault.empty());
}

TEST(CsvReader, RefusesWhatIsNoTable) {
    EXPECT_THAT(error_of("").what(), HasSubstr("empty"));
    EXPECT_THAT(error_of("\n\n").what(), HasSubstr("empty"));
    EXPECT_THAT(error_of(std::string("a,b\n1,\0\n", 8)).what(), HasSubstr("byte 0"));
    EXPECT_THAT(error_of("a;b\n1;2\n").what(), HasSubstr("not separated by commas"));
    EXPECT_THAT(error_of("a,b,a\n").what(),
                HasSubstr("'a' stands twice, as column 1 and column 3"));
    EXPECT_THAT(error_of("Tree id,tree_ID\n").what(), HasSubstr("stands twice"));
    EXPECT_THAT(error_of("a,,b\n").what(), HasSubstr("column 2 has no name"));
}

TEST(CsvReader, NamesRowColumnAndLineOfWhatCannotBeRead) {
    const InputError text = error_of("id,note\n1,ok\n2,\xFF\n");
    EXPECT_EQ(std::string(text.what()), "row 3, column 'note': this is not UTF-8 text");
    EXPECT_EQ(text.where(), "trees.csv:3");
    EXPECT_FALSE(text.hint().empty());

    const InputError quote = error_of("id,note\n1,a\"b\n");
    EXPECT_THAT(quote.what(), HasSubstr("row 2, column 'note': a quotation mark"));

    const InputError open = error_of("id,note\n1,ok\n2,\"never closed\n3,x\n");
    EXPECT_THAT(open.what(),
                HasSubstr("row 3, column 'note': a quotation mark (\") is never closed"));
    EXPECT_EQ(open.where(), "trees.csv:3");
}

TEST(CsvReader, RowsBeforeAFailureAreStillGiven) {
    std::istringstream stream("id\n1\n2\n\xFF\n");
    CsvReader reader(stream, "f");
    CsvRow row;
    EXPECT_TRUE(reader.next(row));
    EXPECT_TRUE(reader.next(row));
    EXPECT_THROW(reader.next(row), InputError);
    EXPECT_THROW(reader.next(row), InputError);
}

// Gives out the same character without end, and counts.
class EndlessText : public std::streambuf {
 public:
    EndlessText(std::string start, char then) : start_(std::move(start)), then_(then) {}
    std::size_t given() const { return given_; }

 protected:
    std::streamsize xsgetn(char* to, std::streamsize count) override {
        for (std::streamsize i = 0; i < count; ++i, ++given_) {
            to[i] = given_ < start_.size() ? start_[given_] : then_;
        }
        return count;
    }
    int_type underflow() override { return traits_type::to_int_type(then_); }

 private:
    std::string start_;
    char then_;
    std::size_t given_ = 0;
};

TEST(CsvReader, StopsEarlyOnALineWithoutEnd) {
    for (const auto& [start, then] :
         {std::pair("a,b\n1,", 'x'), std::pair("a,b\n1,\"", '\n'), std::pair("a,b\n1,2", ','),
          std::pair("", 'x'), std::pair("", ',')}) {
        EndlessText text(start, then);
        std::istream stream(&text);
        const auto read_all = [&] {
            CsvReader reader(stream, "f");
            CsvRow row;
            while (reader.next(row)) {
            }
        };
        EXPECT_THROW(read_all(), InputError) << start << then;
        EXPECT_LT(text.given(), std::size_t{1} << 20U);
    }
}

TEST(CsvReader, AcceptsAFieldOfTheGreatestLengthAndNoLonger) {
    const auto rows = rows_of("a\n" + std::string(longest_csv_field, 'x') + "\n");
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].fields[0].size(), longest_csv_field);
    EXPECT_THAT(error_of("a\n" + std::string(longest_csv_field + 1, 'x') + "\n").what(),
                HasSubstr("longer than 64 KiB"));
}

TEST(CsvReader, NeverCrashesOnATableCutOffAnywhere) {
    const std::string table = "id,note\r\n1,\"a \"\"b\"\" \xC3\xA9\"\r\n2,\"x\ny\"\r\n";
    for (std::size_t length = 0; length <= table.size(); ++length) {
        try {
            EXPECT_LE(rows_of(table.substr(0, length)).size(), 2U);
        } catch (const InputError& error) {
            EXPECT_FALSE(std::string(error.what()).empty());
        }
    }
}

TEST(CsvHeader, FindsColumnsWhateverTheirSpelling) {
    const CsvHeader header({"Tree ID", "DBH"}, "f.csv");
    EXPECT_EQ(header.find("tree_id"), 0U);
    EXPECT_EQ(header.require("dbh"), 1U);
    EXPECT_EQ(header.find("height"), std::nullopt);
}

TEST(CsvHeader, NamesTheNearestColumnWhenOneIsMissing) {
    const CsvHeader header({"id", "canopy_los"}, "f.csv");
    try {
        header.require("canopy_loss");
        FAIL();
    } catch (const InputError& error) {
        EXPECT_EQ(std::string(error.what()), "the column 'canopy_loss' is missing");
        EXPECT_EQ(error.hint(), "is the column 'canopy_los' meant to be it?");
        EXPECT_EQ(error.where(), "f.csv");
    }
}

TEST(CsvHeader, RefusesColumnsThatNobodyExpects) {
    const CsvHeader header({"id", "hieght"}, "f.csv");
    EXPECT_NO_THROW(header.refuse_unknown({"ID", "Hieght"}));
    try {
        header.refuse_unknown({"id", "height"});
        FAIL();
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr("column 2, 'hieght'"));
        EXPECT_EQ(error.hint(), "did you mean 'height'?");
    }
}

}  // namespace
}  // namespace ashtriage::packs
