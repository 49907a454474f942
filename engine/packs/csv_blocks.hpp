// Reading comma-separated tables (RFC 4180) block by block: many whole rows at a time, whose fields
// lie in the bytes as they were read, so that a row costs no memory of its own. For tables of any
// length; csv_rows.hpp gives the same rows one by one as strings.
//
//     CsvBlocks blocks(stream, "trees.csv");
//     CsvBlock block;
//     while (blocks.next(block)) {
//         for (const CsvBlock::Row& row : block.rows()) { ... block.field(row, column) ... }
//     }
#pragma once

#include <cstddef>
#include <cstdint>
#include <istream>
#include <string>
#include <string_view>
#include <vector>

#include "packs/csv_header.hpp"

namespace ashtriage::packs {

inline constexpr std::size_t longest_csv_field = std::size_t{64} << 10U;  // bytes
inline constexpr std::size_t most_csv_columns = 1000;

// Whole rows that follow each other. To be filled again and again, so that it grows only once.
class CsvBlock {
 public:
    struct Row {
        std::size_t number = 0;  // from 1, the header being row 1; blank lines are not counted
        std::size_t line = 0;    // in the file, where the row begins
        std::size_t first_field = 0;
        std::size_t fields = 0;
    };

    const std::vector<Row>& rows() const { return rows_; }

    // Valid until the block is filled again. A row may have any number of fields.
    std::string_view field(const Row& row, std::size_t index) const {
        const Field& field = fields_[row.first_field + index];
        return {bytes_.data() + field.begin, field.size};
    }

 private:
    friend class CsvBlocks;

    struct Field {
        std::uint32_t begin = 0;  // in bytes_
        std::uint32_t size = 0;
    };

    void clear();

    std::vector<char> bytes_;
    std::vector<Field> fields_;
    std::vector<Row> rows_;
};

// What is wrong with a row of so many fields; empty when each column has one.
std::string width_fault(std::size_t fields, const CsvHeader& header);

class CsvBlocks {
 public:
    // Reads the header. `file` is named in messages; the stream must outlive the object, and should
    // be opened as binary. Both this and next() throw measure::InputError for what no further row
    // can be trusted after: no header, a byte 0, text that is not UTF-8, a field over
    // longest_csv_field, more than most_csv_columns, a quotation mark out of place or never closed.
    // A field that is too long is noticed before the rest of it is read.
    CsvBlocks(std::istream& stream, std::string file);

    const CsvHeader& header() const { return header_; }

    // The next rows, at least one; false at the end. The rows before a failure are given before it
    // is thrown.
    bool next(CsvBlock& block);

 private:
    // What the byte that comes next stands in.
    enum class State { between_rows, field_begins, plain, quoted, quotation_mark_in_quoted };

    void scan_block(CsvBlock& block);
    void read_chunk(CsvBlock& block);
    void scan(CsvBlock& block);
    void begin_row(std::size_t at);
    void begin_field(std::size_t at, State state);
    void end_field(CsvBlock& block, std::size_t end);
    void end_row(CsvBlock& block);
    void end_input(CsvBlock& block);
    void note_line_end(const CsvBlock& block, std::size_t at);
    void take_up(CsvBlock& block);
    void put_aside(const CsvBlock& block);
    void note_failure(std::string what, std::string hint);
    void note_field_too_long();
    void note_out_of_place(char c);
    [[noreturn]] void fail() const;

    std::istream& stream_;
    std::string file_;
    CsvHeader header_;
    CsvBlock with_header_;  // the rows that were read along with the header
    bool with_header_given_ = false;
    bool at_start_ = true;
    bool ended_ = false;
    std::string failure_;  // not empty: thrown once the rows before it have been given
    std::string failure_hint_;

    State state_ = State::between_rows;
    std::size_t rows_ = 0;         // completed
    std::size_t line_ = 1;         // of the byte that comes next
    bool return_before_ = false;   // the last byte of the block before was a carriage return
    std::size_t scanned_ = 0;      // bytes of the block
    std::size_t row_begin_ = 0;    // of the row being read, in the bytes of its block
    std::size_t row_line_ = 1;     // in the file
    std::size_t row_fields_ = 0;   // completed fields of it
    std::size_t field_begin_ = 0;  // of the field being read
    std::size_t doubled_ = 0;      // doubled quotation marks in it so far
    bool only_ascii_ = true;       // it, so far
    CsvBlock aside_;               // what was read of a row that its block did not reach the end of
};

}  // namespace ashtriage::packs
