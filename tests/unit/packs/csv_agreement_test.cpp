// The rows as another reader of RFC 4180 gives them: libcsv, in its strict mode and with blanks as
// part of the field. On every text, whole or damaged, both give the same rows and then both end
// well or both fail.
#include <csv.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/csv_rows.hpp"
#include "packs/utf8.hpp"

namespace ashtriage::packs {
namespace {

using Fields = std::vector<std::string>;

struct Reading {
    std::vector<Fields> rows;
    bool well = true;  // to the end
};

// What libcsv makes of the text. It knows nothing of byte 0, UTF-8 and a byte order mark.
class ByLibcsv {
 public:
    static Reading of(std::string text) {
        if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
        const std::size_t zero = text.find('\0');
        ByLibcsv reader;
        csv_parser parser{};
        csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
        csv_set_space_func(&parser, [](unsigned char) { return 0; });
        const std::size_t end = std::min(zero, text.size());
        reader.reading_.well = csv_parse(&parser, text.data(), end, field, row, &reader) == end &&
                               zero == std::string::npos &&
                               csv_fini(&parser, field, row, &reader) == 0;
        csv_free(&parser);
        if (reader.not_utf8_) reader.reading_.well = false;
        return reader.reading_;
    }

 private:
    static void field(void* bytes, std::size_t size, void* self) {
        auto& reader = *static_cast<ByLibcsv*>(self);
        const std::string text(static_cast<const char*>(bytes), size);
        if (first_invalid_utf8(text)) reader.not_utf8_ = true;
        reader.row_.push_back(text);
    }
    static void row(int /*end*/, void* self) {
        auto& reader = *static_cast<ByLibcsv*>(self);
        if (!reader.not_utf8_) reader.reading_.rows.push_back(reader.row_);
        reader.row_.clear();
    }

    Reading reading_;
    Fields row_;
    bool not_utf8_ = false;
};

// A header of its own is put before the text, so that any text at all can follow.
Reading by_blocks(const std::string& text) {
    std::istringstream stream(text);
    Reading reading;
    try {
        CsvReader reader(stream, "any.csv");
        reading.rows.push_back(reader.header().names());
        for (CsvRow row; reader.next(row);) reading.rows.push_back(row.fields);
    } catch (const measure::InputError&) {
        reading.well = false;
    }
    return reading;
}

void expect_agreement(const std::string& text) {
    const Reading expected = ByLibcsv::of(text);
    const Reading read = by_blocks(text);
    EXPECT_EQ(read.rows, expected.rows) << testing::PrintToString(text);
    EXPECT_EQ(read.well, expected.well) << testing::PrintToString(text);
}

// Every short text of the bytes that mean something, and one that does not.
TEST(CsvAgreement, OnEveryShortText) {
    const std::string bytes = std::string("a,\"\r\n") + '\0';
    std::vector<std::string> texts{""};
    for (int length = 0; length < 6; ++length) {
        std::vector<std::string> longer;
        for (const std::string& text : texts) {
            expect_agreement("h\n" + text);
            for (const char byte : bytes) longer.push_back(text + byte);
        }
        texts = std::move(longer);
    }
}

class RandomTables {
 public:
    std::string field() {
        static const std::vector<std::string> pieces{"a",    "14",   " ",  "\"\"", "\xC3\xA9",
                                                     "\r\n", "\n",   "\r", ",",    "\xE2\x89\xA4",
                                                     "x y",  "30 %", "-",  ";",    ""};
        std::string text;
        bool quoted = false;
        for (std::size_t count = below(5); count > 0; --count) {
            const std::string& piece = pieces[below(pieces.size())];
            quoted = quoted || piece.find_first_of(",\"\r\n") != std::string::npos;
            text += piece;
        }
        return quoted || below(8) == 0 ? '"' + text + '"' : text;
    }

    std::string table(std::size_t rows) {
        static const std::vector<std::string> ends{"\n", "\r\n", "\r", "\n\n"};
        std::string text = below(4) == 0 ? "\xEF\xBB\xBFh,i\n" : "h,i\r\n";
        for (; rows > 0; --rows) {
            for (std::size_t fields = below(4); fields > 0; --fields) text += field() + ',';
            text += field() + ends[below(ends.size())];
        }
        return text;
    }

    // Bytes changed, taken out, put in, or the end cut off, a few times over; never in the header.
    std::string damaged(std::string text) {
        static const std::string bytes = std::string(
                                             "\",\r\n\xFF\xC3"
                                             "a") +
                                         '\0';
        constexpr std::size_t header = 8;
        for (std::size_t times = 1 + below(3); times > 0 && text.size() > header; --times) {
            const std::size_t at = header + below(text.size() - header);
            switch (below(4)) {
                case 0:
                    text[at] = bytes[below(bytes.size())];
                    break;
                case 1:
                    text.erase(at, 1);
                    break;
                case 2:
                    text.insert(at, 1, bytes[below(bytes.size())]);
                    break;
                default:
                    text.resize(at);
            }
        }
        return text;
    }

    std::size_t below(std::size_t end) { return random_() % end; }

 private:
    std::mt19937 random_{4180};
};

TEST(CsvAgreement, OnRandomTables) {
    RandomTables random;
    for (int i = 0; i < 3000; ++i) {
        const std::string text = random.table(random.below(12));
        expect_agreement(text);
        EXPECT_TRUE(by_blocks(text).well) << testing::PrintToString(text);
    }
}

TEST(CsvAgreement, OnRandomTablesThatWereDamaged) {
    RandomTables random;
    for (int i = 0; i < 6000; ++i) {
        expect_agreement(random.damaged(random.table(1 + random.below(12))));
    }
}

// Far longer than what is read at a time, so that rows, fields, characters, line ends and doubled
// quotation marks lie across the borders of blocks, at every offset.
TEST(CsvAgreement, AcrossTheBordersOfBlocks) {
    RandomTables random;
    for (int i = 0; i < 40; ++i) {
        std::string text = random.table(20);
        while (text.size() < 600'000) {
            text += '"' + std::string(random.below(60'000), 'x') + "\"\"\xC3\xA9\"\r\n";
            std::string more = random.table(200);
            text += more.substr(more.find('\n') + 1);
        }
        const Reading expected = ByLibcsv::of(text);
        const Reading read = by_blocks(text);
        ASSERT_TRUE(expected.well);
        ASSERT_TRUE(read.well);
        ASSERT_EQ(read.rows.size(), expected.rows.size());
        for (std::size_t row = 0; row < read.rows.size(); ++row) {
            ASSERT_EQ(read.rows[row], expected.rows[row]) << "row " << row;
        }
    }
}

// The line of a row is where it begins in the file, whatever lies before.
TEST(CsvAgreement, LinesAreCountedAcrossTheBordersOfBlocks) {
    std::mt19937 random(1);
    for (const std::string end : {"\n", "\r\n", "\r"}) {
        std::string text = "a,b" + end;
        std::vector<std::size_t> lines;
        std::size_t line = 2;
        for (int i = 0; i < 60'000; ++i) {
            lines.push_back(line);
            const std::string filling(random() % 7, 'x');
            const bool two_lines = random() % 5 == 0;
            text += "1," + (two_lines ? '"' + filling + end + '"' : filling) + end;
            line += two_lines ? 2 : 1;
        }
        std::istringstream stream(text);
        CsvReader reader(stream, "lines.csv");
        CsvRow row;
        for (const std::size_t expected : lines) {
            ASSERT_TRUE(reader.next(row));
            ASSERT_EQ(row.line, expected);
        }
        EXPECT_FALSE(reader.next(row));
    }
}

}  // namespace
}  // namespace ashtriage::packs
