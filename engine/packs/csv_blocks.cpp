#include "packs/csv_blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/utf8.hpp"

namespace ashtriage::packs {

namespace {

using measure::InputError;

constexpr std::size_t chunk_size = std::size_t{128} << 10U;

constexpr unsigned char first_not_ascii = 0x80;

bool is_line_end(char c) {
    return c == '\r' || c == '\n';
}

// The bytes that mean something in a field without quotation marks.
constexpr std::array<bool, 256> ends_plain_text = [] {
    std::array<bool, 256> ends{};
    for (const char c : {',', '"', '\r', '\n', '\0'}) ends[static_cast<unsigned char>(c)] = true;
    return ends;
}();

// Those that do in a field within quotation marks.
constexpr std::array<bool, 256> ends_quoted_text = [] {
    std::array<bool, 256> ends{};
    for (const char c : {'"', '\r', '\n', '\0'}) ends[static_cast<unsigned char>(c)] = true;
    return ends;
}();

// The first place from `at` on where a byte is one of `ends`; `joined` gathers the bits of all
// bytes before it.
std::size_t skip_text(const std::vector<char>& bytes, std::size_t at,
                      const std::array<bool, 256>& ends, unsigned char& joined) {
    const char* const text = bytes.data();
    const std::size_t size = bytes.size();
    for (; at < size; ++at) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (ends[byte]) break;
        joined |= byte;
    }
    return at;
}

// Leaves one of every two quotation marks that stand together; gives the new end.
char* with_single_marks(char* begin, char* end) {
    char* to = begin;
    for (const char* from = begin; from != end; ++from) {
        *to++ = *from;
        if (*from == '"') ++from;
    }
    return to;
}

}  // namespace

void CsvBlock::clear() {
    bytes_.clear();
    fields_.clear();
    rows_.clear();
}

std::string width_fault(std::size_t fields, const CsvHeader& header) {
    const std::size_t columns = header.names().size();
    if (fields == columns) return {};
    return fmt::format("the row has {} field{}, but there are {} columns", fields,
                       fields == 1 ? "" : "s", columns);
}

CsvBlocks::CsvBlocks(std::istream& stream, std::string file)
    : stream_(stream), file_(std::move(file)) {
    scan_block(with_header_);
    if (with_header_.rows_.empty()) {
        if (!failure_.empty()) fail();
        throw InputError("the table is empty", file_, "the first row must name the columns");
    }
    std::vector<std::string> names;
    const CsvBlock::Row& first = with_header_.rows_.front();
    for (std::size_t i = 0; i < first.fields; ++i) names.emplace_back(with_header_.field(first, i));
    header_ = CsvHeader(std::move(names), file_);
    with_header_.rows_.erase(with_header_.rows_.begin());
}

bool CsvBlocks::next(CsvBlock& block) {
    if (!with_header_given_) {
        with_header_given_ = true;
        std::swap(block, with_header_);
        if (!block.rows_.empty()) return true;
    }
    scan_block(block);
    if (!block.rows_.empty()) return true;
    if (!failure_.empty()) fail();
    return false;
}

void CsvBlocks::scan_block(CsvBlock& block) {
    block.clear();
    take_up(block);
    while (block.rows_.empty() && !ended_ && failure_.empty()) {
        read_chunk(block);
        scan(block);
        if (failure_.empty() && stream_.eof()) end_input(block);
    }
    put_aside(block);
}

void CsvBlocks::read_chunk(CsvBlock& block) {
    const std::size_t before = block.bytes_.size();
    block.bytes_.resize(before + chunk_size);
    stream_.read(block.bytes_.data() + before, static_cast<std::streamsize>(chunk_size));
    block.bytes_.resize(before + static_cast<std::size_t>(stream_.gcount()));
    if (stream_.bad() || (stream_.fail() && !stream_.eof())) {
        note_failure("the file cannot be read further", "check the disk or the connection");
    }
    if (at_start_ &&
        std::string_view(block.bytes_.data(), block.bytes_.size()).starts_with(byte_order_mark)) {
        scanned_ = byte_order_mark.size();
    }
    at_start_ = false;
}

void CsvBlocks::scan(CsvBlock& block) {
    const std::vector<char>& bytes = block.bytes_;
    std::size_t at = scanned_;
    unsigned char joined = only_ascii_ ? 0 : first_not_ascii;
    while (at < bytes.size() && failure_.empty()) {
        const char c = bytes[at];
        switch (state_) {
            case State::between_rows:
                if (is_line_end(c)) {
                    note_line_end(block, at++);
                } else {
                    begin_row(at);
                }
                break;
            case State::field_begins:
                joined = 0;
                if (c == '"') {
                    begin_field(++at, State::quoted);
                } else {
                    begin_field(at, State::plain);
                }
                break;
            case State::plain:
            case State::quotation_mark_in_quoted: {
                if (state_ == State::plain) {
                    at = skip_text(bytes, at, ends_plain_text, joined);
                    only_ascii_ = joined < first_not_ascii;
                    if (at == bytes.size()) break;
                } else if (c == '"') {
                    ++doubled_;
                    state_ = State::quoted;
                    ++at;
                    break;
                }
                const char end = bytes[at];
                if (end != ',' && !is_line_end(end)) {
                    note_out_of_place(end);
                    break;
                }
                end_field(block, state_ == State::plain ? at : at - 1);
                state_ = State::field_begins;
                if (is_line_end(end) && failure_.empty()) {
                    end_row(block);
                    note_line_end(block, at);
                }
                ++at;
                break;
            }
            case State::quoted:
                at = skip_text(bytes, at, ends_quoted_text, joined);
                only_ascii_ = joined < first_not_ascii;
                if (at == bytes.size()) break;
                if (bytes[at] == '\0') {
                    note_out_of_place('\0');
                } else if (bytes[at] == '"') {
                    state_ = State::quotation_mark_in_quoted;
                } else {
                    note_line_end(block, at);
                }
                ++at;
                break;
        }
    }
    scanned_ = at;
    const bool in_field = state_ == State::plain || state_ == State::quoted;
    if (failure_.empty() && in_field && at - field_begin_ - doubled_ > longest_csv_field) {
        note_field_too_long();
    }
}

void CsvBlocks::begin_row(std::size_t at) {
    row_begin_ = at;
    row_line_ = line_;
    row_fields_ = 0;
    state_ = State::field_begins;
}

void CsvBlocks::begin_field(std::size_t at, State state) {
    field_begin_ = at;
    doubled_ = 0;
    only_ascii_ = true;
    state_ = state;
}

void CsvBlocks::end_field(CsvBlock& block, std::size_t end) {
    char* const begin = block.bytes_.data() + field_begin_;
    char* last = block.bytes_.data() + end;
    if (doubled_ > 0) last = with_single_marks(begin, last);
    const std::string_view text(begin, static_cast<std::size_t>(last - begin));
    if (text.size() > longest_csv_field) {
        note_field_too_long();
    } else if (!only_ascii_ && first_invalid_utf8(text)) {
        note_failure("this is not UTF-8 text", "save the table as CSV, encoded as UTF-8");
    } else if (row_fields_ == most_csv_columns) {
        note_failure(fmt::format("the row has more than {} fields", most_csv_columns),
                     "make sure that this is the right file");
    } else {
        block.fields_.push_back(
            {static_cast<std::uint32_t>(field_begin_), static_cast<std::uint32_t>(text.size())});
        ++row_fields_;
    }
}

void CsvBlocks::end_row(CsvBlock& block) {
    block.rows_.push_back({++rows_, row_line_, block.fields_.size() - row_fields_, row_fields_});
    row_fields_ = 0;
    state_ = State::between_rows;
}

void CsvBlocks::end_input(CsvBlock& block) {
    ended_ = true;
    const std::size_t end = block.bytes_.size();
    switch (state_) {
        case State::between_rows:
            return;
        case State::quoted:
            note_failure(
                "a quotation mark (\") is never closed",
                fmt::format("the row that begins on line {} is the one to look at", row_line_));
            return;
        case State::field_begins:
            begin_field(end, State::plain);
            end_field(block, end);
            break;
        case State::plain:
            end_field(block, end);
            break;
        case State::quotation_mark_in_quoted:
            end_field(block, end - 1);
            break;
    }
    if (failure_.empty()) end_row(block);
}

// A carriage return with a line feed is one line end.
void CsvBlocks::note_line_end(const CsvBlock& block, std::size_t at) {
    const bool after_return = at > 0 ? block.bytes_[at - 1] == '\r' : return_before_;
    if (block.bytes_[at] == '\r' || !after_return) ++line_;
}

// Begins a block with what was put aside.
void CsvBlocks::take_up(CsvBlock& block) {
    scanned_ = aside_.bytes_.size();
    row_begin_ = 0;
    std::swap(block.bytes_, aside_.bytes_);
    std::swap(block.fields_, aside_.fields_);
    aside_.clear();
}

// Keeps what was read of the row that the block did not reach the end of.
void CsvBlocks::put_aside(const CsvBlock& block) {
    return_before_ = !block.bytes_.empty() && block.bytes_.back() == '\r';
    if (state_ == State::between_rows) return;
    const auto bytes = static_cast<std::ptrdiff_t>(row_begin_);
    aside_.bytes_.assign(block.bytes_.begin() + bytes, block.bytes_.end());
    const auto fields = static_cast<std::ptrdiff_t>(block.fields_.size() - row_fields_);
    aside_.fields_.assign(block.fields_.begin() + fields, block.fields_.end());
    for (CsvBlock::Field& field : aside_.fields_) {
        field.begin -= static_cast<std::uint32_t>(row_begin_);
    }
    field_begin_ -= std::min(field_begin_, row_begin_);
}

void CsvBlocks::note_failure(std::string what, std::string hint) {
    failure_ = std::move(what);
    failure_hint_ = std::move(hint);
}

void CsvBlocks::note_field_too_long() {
    note_failure(fmt::format("a field is longer than {} KiB", longest_csv_field >> 10U),
                 "a quotation mark that is never closed may be the reason");
}

// What neither belongs to the text of a field nor ends it.
void CsvBlocks::note_out_of_place(char c) {
    if (c == '\0') {
        note_failure("a byte 0 stands here: this is not a text file",
                     "save the table as CSV, encoded as UTF-8");
        return;
    }
    note_failure("a quotation mark (\") stands where none can be",
                 "put the whole field in quotation marks and double every one inside it");
}

void CsvBlocks::fail() const {
    const std::string column_name = row_fields_ < header_.names().size()
                                        ? fmt::format("column '{}'", header_.names()[row_fields_])
                                        : fmt::format("column {}", row_fields_ + 1);
    throw InputError(fmt::format("row {}, {}: {}", rows_ + 1, column_name, failure_),
                     fmt::format("{}:{}", file_, row_line_), failure_hint_);
}

}  // namespace ashtriage::packs
