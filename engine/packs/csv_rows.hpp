// Reading comma-separated tables (RFC 4180) row by row, however long they are. The first row names
// the columns.
//
//     CsvReader reader(stream, "trees.csv");
//     const std::size_t dbh = reader.header().require("dbh");
//     CsvRow row;
//     while (reader.next(row)) { ... row.fields[dbh] ... }
#pragma once

#include <csv.h>

#include <cstddef>
#include <deque>
#include <istream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::packs {

inline constexpr std::size_t longest_csv_field = std::size_t{64} << 10U;  // bytes
inline constexpr std::size_t most_csv_columns = 1000;

struct CsvRow {
    std::size_t number = 0;  // from 1, the header being row 1; blank lines are not counted
    std::size_t line = 0;    // in the file, where the row begins
    std::vector<std::string> fields;
    std::string fault;  // not empty: the row does not have one field for each column
};

// The names of the columns. Capital and small letters, blanks, hyphens and underscores count as
// alike.
class CsvHeader {
 public:
    CsvHeader() = default;
    // Throws measure::InputError when a name is empty or stands twice.
    CsvHeader(std::vector<std::string> names, std::string file);

    const std::vector<std::string>& names() const { return names_; }

    std::optional<std::size_t> find(std::string_view name) const;
    // Throws measure::InputError, with the nearest name that is there, when the column is missing.
    std::size_t require(std::string_view name) const;
    // Throws measure::InputError for the first column that is none of `known`, with the nearest.
    void refuse_unknown(const std::vector<std::string>& known) const;

 private:
    std::vector<std::string> names_;
    std::string file_;
};

class CsvReader {
 public:
    // Reads the header. `file` is named in messages; the stream must outlive the reader, and should
    // be opened as binary. Both this and next() throw measure::InputError for what no further row
    // can be trusted after: no header, a byte 0, text that is not UTF-8, a field over
    // longest_csv_field, more than most_csv_columns, a quotation mark out of place or never closed.
    // A field that is too long is noticed before the rest of it is read.
    CsvReader(std::istream& stream, std::string file);
    ~CsvReader();
    CsvReader(const CsvReader&) = delete;
    CsvReader& operator=(const CsvReader&) = delete;

    const CsvHeader& header() const { return header_; }

    // The next row; false at the end. A row with too few or too many fields is given with its
    // `fault`, and reading goes on.
    bool next(CsvRow& row);

 private:
    static void field_ended(void* bytes, std::size_t size, void* reader);
    static void row_ended(int terminator, void* reader);

    void take_field(std::string_view field);
    void take_row();
    void check_width(CsvRow& row) const;
    bool fill();
    void feed(std::string_view chunk);
    void feed_piece(std::string_view piece);
    void finish();
    void note_failure(std::string what, std::string hint);
    [[noreturn]] void fail(const std::string& what, const std::string& hint) const;

    std::istream& stream_;
    std::string file_;
    csv_parser parser_{};
    CsvHeader header_;

    std::vector<char> buffer_;
    bool first_chunk_ = true;
    bool ended_ = false;
    std::deque<CsvRow> ready_;

    std::size_t line_ = 1;          // of the bytes that come next
    bool last_was_return_ = false;  // the last byte was a carriage return
    bool between_rows_ = true;
    CsvRow row_;            // being read
    std::size_t rows_ = 0;  // completed
    bool failed_ = false;   // found inside a callback, thrown outside it
    std::string failure_;
    std::string failure_hint_;
};

}  // namespace ashtriage::packs
