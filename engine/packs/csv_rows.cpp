#include "packs/csv_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/utf8.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

using measure::InputError;

constexpr std::size_t chunk_size = std::size_t{64} << 10U;
// No more is given to the parser at a time, so that a field too long is noticed soon.
constexpr std::size_t piece_size = std::size_t{16} << 10U;

// Blanks belong to the field (RFC 4180, section 2.4).
int no_character_is_a_space(unsigned char /*character*/) {
    return 0;
}

}  // namespace

CsvHeader::CsvHeader(std::vector<std::string> names, std::string file)
    : names_(std::move(names)), file_(std::move(file)) {
    if (names_.size() == 1 && names_.front().find_first_of(";\t") != std::string::npos) {
        throw InputError("the columns are not separated by commas", file_,
                         "save the table as CSV with commas between the columns");
    }
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const std::string name = normalised(names_[i]);
        if (name.empty()) {
            throw InputError(fmt::format("column {} has no name", i + 1), file_,
                             "the first row must name every column");
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (normalised(names_[j]) != name) continue;
            throw InputError(fmt::format("the column '{}' stands twice, as column {} and column {}",
                                         names_[i], j + 1, i + 1),
                             file_, "give every column a name of its own");
        }
    }
}

std::optional<std::size_t> CsvHeader::find(std::string_view name) const {
    const std::string wanted = normalised(name);
    for (std::size_t i = 0; i < names_.size(); ++i) {
        if (normalised(names_[i]) == wanted) return i;
    }
    return std::nullopt;
}

std::size_t CsvHeader::require(std::string_view name) const {
    if (const auto found = find(name)) return *found;
    const std::string near = nearest(name, names_);
    throw InputError(fmt::format("the column '{}' is missing", name), file_,
                     near.empty() ? fmt::format("the columns are: {}", fmt::join(names_, ", "))
                                  : fmt::format("is the column '{}' meant to be it?", near));
}

void CsvHeader::refuse_unknown(const std::vector<std::string>& known) const {
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const std::string name = normalised(names_[i]);
        const bool is_known =
            std::any_of(known.begin(), known.end(),
                        [&](const std::string& other) { return normalised(other) == name; });
        if (is_known) continue;
        throw InputError(
            fmt::format("column {}, '{}', is not one that is expected", i + 1, names_[i]), file_,
            nearest_hint(names_[i], known));
    }
}

CsvReader::CsvReader(std::istream& stream, std::string file)
    : stream_(stream), file_(std::move(file)), buffer_(chunk_size) {
    csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_space_func(&parser_, no_character_is_a_space);
    try {
        CsvRow names;
        if (!next(names)) {
            throw InputError("the table is empty", file_, "the first row must name the columns");
        }
        header_ = CsvHeader(std::move(names.fields), file_);
        // Rows that were read along with the header are compared with it now.
        for (CsvRow& row : ready_) check_width(row);
    } catch (...) {
        csv_free(&parser_);
        throw;
    }
}

CsvReader::~CsvReader() {
    csv_free(&parser_);
}

bool CsvReader::next(CsvRow& row) {
    while (ready_.empty() && fill()) {
    }
    if (ready_.empty()) {
        if (failed_) fail(failure_, failure_hint_);
        return false;
    }
    row = std::move(ready_.front());
    ready_.pop_front();
    return true;
}

// Reads one chunk. False at the end, or after a failure: the rows before it are handed out first.
bool CsvReader::fill() {
    if (ended_ || failed_) return false;
    stream_.read(buffer_.data(), static_cast<std::streamsize>(buffer_.size()));
    if (stream_.bad()) {
        note_failure("the file cannot be read further", "check the disk or the connection");
        return false;
    }
    std::string_view chunk(buffer_.data(), static_cast<std::size_t>(stream_.gcount()));
    if (first_chunk_ && chunk.starts_with(byte_order_mark)) {
        chunk.remove_prefix(byte_order_mark.size());
    }
    first_chunk_ = false;
    feed(chunk);
    if (!failed_ && stream_.eof()) finish();
    return true;
}

// Gives the chunk to the parser in pieces that end where a line ends, so that the line of every row
// is known.
void CsvReader::feed(std::string_view chunk) {
    while (!chunk.empty() && !failed_) {
        const std::size_t line_end = chunk.find_first_of("\r\n");
        const std::size_t length =
            std::min({line_end == std::string_view::npos ? chunk.size() : line_end + 1, piece_size,
                      chunk.size()});
        feed_piece(chunk.substr(0, length));
        chunk.remove_prefix(length);
    }
}

void CsvReader::feed_piece(std::string_view piece) {
    if (between_rows_) row_.line = line_;
    if (piece.find('\0') != std::string_view::npos) {
        note_failure("a byte 0 stands here: this is not a text file",
                     "save the table as CSV, encoded as UTF-8");
        return;
    }
    const char last = piece.back();
    const bool blank = piece.size() == 1 && (last == '\r' || last == '\n');
    if (!blank) between_rows_ = false;

    const std::size_t taken =
        csv_parse(&parser_, piece.data(), piece.size(), field_ended, row_ended, this);
    if (!failed_ && taken < piece.size()) {
        note_failure("a quotation mark (\") stands where none can be",
                     "put the whole field in quotation marks and double every one inside it");
    }
    if (!failed_ && parser_.entry_pos > longest_csv_field) {
        note_failure(fmt::format("a field is longer than {} KiB", longest_csv_field >> 10U),
                     "a quotation mark that is never closed may be the reason");
    }
    // A carriage return with a line feed is one line end.
    if (last == '\r' || (last == '\n' && !(piece.size() == 1 && last_was_return_))) ++line_;
    if (between_rows_) row_.line = line_;
    last_was_return_ = last == '\r';
}

void CsvReader::finish() {
    ended_ = true;
    if (csv_fini(&parser_, field_ended, row_ended, this) != 0 && !failed_) {
        note_failure(
            "a quotation mark (\") is never closed",
            fmt::format("the row that begins on line {} is the one to look at", row_.line));
    }
}

void CsvReader::field_ended(void* bytes, std::size_t size, void* reader) {
    static_cast<CsvReader*>(reader)->take_field(
        size == 0 ? std::string_view() : std::string_view(static_cast<const char*>(bytes), size));
}

void CsvReader::row_ended(int /*terminator*/, void* reader) {
    static_cast<CsvReader*>(reader)->take_row();
}

void CsvReader::take_field(std::string_view field) {
    if (failed_) return;
    if (field.size() > longest_csv_field) {
        note_failure(fmt::format("a field is longer than {} KiB", longest_csv_field >> 10U),
                     "a quotation mark that is never closed may be the reason");
    } else if (first_invalid_utf8(field)) {
        note_failure("this is not UTF-8 text", "save the table as CSV, encoded as UTF-8");
    } else if (row_.fields.size() == most_csv_columns) {
        note_failure(fmt::format("the row has more than {} fields", most_csv_columns),
                     "make sure that this is the right file");
    } else {
        row_.fields.emplace_back(field);
    }
}

void CsvReader::take_row() {
    if (failed_) return;
    row_.number = ++rows_;
    if (rows_ > 1) check_width(row_);
    ready_.push_back(std::move(row_));
    row_ = {};
    between_rows_ = true;
}

void CsvReader::check_width(CsvRow& row) const {
    const std::size_t columns = header_.names().size();
    if (columns == 0 || row.fields.size() == columns) return;
    row.fault = fmt::format("the row has {} field{}, but there are {} columns", row.fields.size(),
                            row.fields.size() == 1 ? "" : "s", columns);
}

void CsvReader::note_failure(std::string what, std::string hint) {
    failed_ = true;
    failure_ = std::move(what);
    failure_hint_ = std::move(hint);
}

void CsvReader::fail(const std::string& what, const std::string& hint) const {
    const std::size_t column = row_.fields.size();
    const std::string column_name = column < header_.names().size()
                                        ? fmt::format("column '{}'", header_.names()[column])
                                        : fmt::format("column {}", column + 1);
    throw InputError(fmt::format("row {}, {}: {}", rows_ + 1, column_name, what),
                     fmt::format("{}:{}", file_, row_.line), hint);
}

}  // namespace ashtriage::packs
