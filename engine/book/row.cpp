#include "book/row.hpp"

#include <bit>
#include <cmath>

#include "book/book_error.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {

namespace {

// The length of the UTF-8 sequence at the start of `text`, or 0 when it is not well formed
// (Unicode 15, table 3-7: no overlong forms, no surrogates, nothing above U+10FFFF).
std::size_t sequence_length(std::string_view text) {
    const auto byte = [text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    if (first < 0x80) return 1;
    std::size_t length = 0;
    unsigned char least = 0x80;
    unsigned char most = 0xbf;
    if (first >= 0xc2 && first <= 0xdf) {
        length = 2;
    } else if (first >= 0xe0 && first <= 0xef) {
        length = 3;
        if (first == 0xe0) least = 0xa0;
        if (first == 0xed) most = 0x9f;
    } else if (first >= 0xf0 && first <= 0xf4) {
        length = 4;
        if (first == 0xf0) least = 0x90;
        if (first == 0xf4) most = 0x8f;
    }
    if (length == 0 || text.size() < length) return 0;
    if (byte(1) < least || byte(1) > most) return 0;
    for (std::size_t i = 2; i < length; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return 0;
    }
    return length;
}

bool well_formed(std::string_view text) {
    while (!text.empty()) {
        if (text.front() == '\0') return false;
        const std::size_t length = sequence_length(text);
        if (length == 0) return false;
        text.remove_prefix(length);
    }
    return true;
}

void append(std::string& bytes, std::uint64_t number) {
    for (int shift = 0; shift < 64; shift += 8) {
        bytes.push_back(static_cast<char>(number >> shift & 0xff));
    }
}

}  // namespace

Row& Row::add(std::string_view text) {
    if (!well_formed(text)) {
        throw measure::InputError("A text to be stored is not valid UTF-8 or holds a zero byte", {},
                                  "Save the file it came from as UTF-8 and try again.");
    }
    cells_.emplace_back(std::string{text});
    return *this;
}

Row& Row::add(std::int64_t number) {
    cells_.emplace_back(number);
    return *this;
}

Row& Row::add(double number) {
    if (!std::isfinite(number)) {
        throw measure::InputError("A number to be stored is not a finite number");
    }
    cells_.emplace_back(number + 0.0);  // SQLite keeps no minus zero
    return *this;
}

Row& Row::add(const measure::Date& date) {
    return add(std::string_view{measure::text(date)});
}

Row& Row::add(const Row& other) {
    cells_.insert(cells_.end(), other.cells_.begin(), other.cells_.end());
    return *this;
}

std::uint64_t fingerprint(std::string_view bytes) {
    constexpr std::uint64_t offset_basis = 0xcbf29ce484222325;
    constexpr std::uint64_t prime = 0x100000001b3;
    std::uint64_t state = offset_basis;
    for (const char byte : bytes) state = (state ^ static_cast<unsigned char>(byte)) * prime;
    return state;
}

std::int64_t seal_of(const Row& row) {
    std::string bytes;
    for (const Cell& cell : row.cells()) {
        append(bytes, std::uint64_t{cell.index()});
        if (const auto* number = std::get_if<std::int64_t>(&cell)) {
            append(bytes, static_cast<std::uint64_t>(*number));
        } else if (const auto* real = std::get_if<double>(&cell)) {
            append(bytes, std::bit_cast<std::uint64_t>(*real));
        } else if (const auto* text = std::get_if<std::string>(&cell)) {
            append(bytes, std::uint64_t{text->size()});  // so that "ab", "c" is not "a", "bc"
            bytes += *text;
        }
    }
    return std::bit_cast<std::int64_t>(fingerprint(bytes));
}

const Cell& RowReader::next() {
    if (position_ >= cells_.size()) fail();
    return cells_[position_++];
}

bool RowReader::next_is_empty() {
    if (!std::holds_alternative<std::monostate>(next())) {
        --position_;
        return false;
    }
    return true;
}

void RowReader::fail() const {
    throw BookError(Trouble::damaged,
                    "The book is damaged: a value is not of the kind it should be", path_,
                    "Keep a copy of the file as it is, and restore a backup.");
}

std::string RowReader::text() {
    const auto* found = std::get_if<std::string>(&next());
    if (found == nullptr) fail();
    return *found;
}

std::int64_t RowReader::integer() {
    const auto* found = std::get_if<std::int64_t>(&next());
    if (found == nullptr) fail();
    return *found;
}

double RowReader::real() {
    const auto* found = std::get_if<double>(&next());
    if (found == nullptr) fail();
    return *found;
}

measure::Date RowReader::date() {
    try {
        return measure::parse_date(text());
    } catch (const measure::InputError&) {
        fail();
    }
}

std::optional<std::int64_t> RowReader::optional_integer() {
    if (next_is_empty()) return std::nullopt;
    return integer();
}

std::optional<double> RowReader::optional_real() {
    if (next_is_empty()) return std::nullopt;
    return real();
}

std::optional<bool> RowReader::optional_flag() {
    if (next_is_empty()) return std::nullopt;
    return flag();
}

std::optional<std::string> RowReader::optional_text() {
    if (next_is_empty()) return std::nullopt;
    return text();
}

std::optional<measure::Date> RowReader::optional_date() {
    if (next_is_empty()) return std::nullopt;
    return date();
}

}  // namespace ashtriage::book
