#include "book/row.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "book/book_error.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {
namespace {

using namespace std::string_literals;

// Test vectors published with the function by Landon Curt Noll (quoted from memory).
TEST(Fingerprint, AgreesWithPublishedValues) {
    EXPECT_EQ(fingerprint(""), 0xcbf29ce484222325U);
    EXPECT_EQ(fingerprint("a"), 0xaf63dc4c8601ec8cU);
    EXPECT_EQ(fingerprint("foobar"), 0x85944171f73967e8U);
}

TEST(Seal, TellsApartWhatLooksAlike) {
    const auto seal = [](const auto&... values) {
        Row row;
        (row.add(values), ...);
        return seal_of(row);
    };
    EXPECT_NE(seal("ab", "c"), seal("a", "bc"));
    EXPECT_NE(seal("", "x"), seal("x", ""));
    EXPECT_NE(seal(""), seal(std::optional<std::int64_t>{}));
    EXPECT_NE(seal(std::int64_t{1}), seal(1.0));
    EXPECT_NE(seal(std::int64_t{1}), seal("1"));
    EXPECT_NE(seal(std::int64_t{1}, std::int64_t{2}), seal(std::int64_t{2}, std::int64_t{1}));
    EXPECT_EQ(seal("ab", std::int64_t{1}), seal("ab", std::int64_t{1}));
}

TEST(Seal, ChangesWithEveryBitOfATextAndANumber) {
    const std::string text = "20-30 %";
    const std::int64_t seal_of_text = seal_of(Row{{Cell{text}}});
    for (std::size_t bit = 0; bit < text.size() * 8; ++bit) {
        std::string flipped = text;
        flipped[bit / 8] = static_cast<char>(flipped[bit / 8] ^ (1 << bit % 8));
        EXPECT_NE(seal_of(Row{{Cell{flipped}}}), seal_of_text) << bit;
    }
    for (int bit = 0; bit < 63; ++bit) {
        EXPECT_NE(seal_of(Row{{Cell{std::int64_t{1} << bit}}}),
                  seal_of(Row{{Cell{std::int64_t{0}}}}));
    }
}

// Boundaries from the Unicode Standard, table 3-7.
TEST(RowText, TakesEveryLengthOfUtf8) {
    for (const std::string& text :
         {""s, "ash"s, "\xc2\x80"s, "\xdf\xbf"s, "\xe0\xa0\x80"s, "\xed\x9f\xbf"s, "\xee\x80\x80"s,
          "\xef\xbf\xbf"s, "\xf0\x90\x80\x80"s, "\xf4\x8f\xbf\xbf"s}) {
        EXPECT_NO_THROW(Row{}.add(text)) << text;
    }
}

TEST(RowText, RefusesWhatIsNotUtf8) {
    for (const std::string& text :
         {"\x80"s, "caf\xe9"s, "\xc1\xbf"s, "\xe0\x9f\xbf"s, "\xed\xa0\x80"s, "\xf0\x8f\xbf\xbf"s,
          "\xf4\x90\x80\x80"s, "\xf5\x80\x80\x80"s, "\xe2\x82"s, "\xe2\x82x"s, "zero\0byte"s}) {
        EXPECT_THROW(Row{}.add(text), measure::InputError) << text;
    }
}

TEST(RowNumber, RefusesWhatIsNotFinite) {
    EXPECT_THROW(Row{}.add(std::nan("")), measure::InputError);
    EXPECT_THROW(Row{}.add(std::numeric_limits<double>::infinity()), measure::InputError);
}

TEST(RowReader, RefusesACellOfAnotherKind) {
    const Row row{{Cell{std::string{"ash"}}}};
    EXPECT_THROW((RowReader{row, "x.book"}.integer()), BookError);
    EXPECT_THROW((RowReader{row, "x.book"}.real()), BookError);
    EXPECT_THROW((RowReader{row, "x.book"}.date()), BookError);
    RowReader reader{row, "x.book"};
    EXPECT_EQ(reader.text(), "ash");
    EXPECT_THROW(reader.text(), BookError);
}

}  // namespace
}  // namespace ashtriage::book
