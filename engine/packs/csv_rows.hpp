// Reading comma-separated tables (RFC 4180) row by row, however long they are. The first row names
// the columns.
//
//     CsvReader reader(stream, "trees.csv");
//     const std::size_t dbh = reader.header().require("dbh");
//     CsvRow row;
//     while (reader.next(row)) { ... row.fields[dbh] ... }
#pragma once

#include <cstddef>
#include <istream>
#include <string>
#include <vector>

#include "packs/csv_blocks.hpp"
#include "packs/csv_header.hpp"

namespace ashtriage::packs {

struct CsvRow {
    std::size_t number = 0;  // from 1, the header being row 1; blank lines are not counted
    std::size_t line = 0;    // in the file, where the row begins
    std::vector<std::string> fields;
    std::string fault;  // not empty: the row does not have one field for each column
};

// The row of a block as strings of its own, with its fault.
CsvRow row_of(const CsvBlock& block, const CsvBlock::Row& row, const CsvHeader& header);

class CsvReader {
 public:
    // As CsvBlocks: throws the same, here and in next().
    CsvReader(std::istream& stream, std::string file);

    const CsvHeader& header() const { return blocks_.header(); }

    // The next row; false at the end. A row with too few or too many fields is given with its
    // `fault`, and reading goes on.
    bool next(CsvRow& row);

 private:
    CsvBlocks blocks_;
    CsvBlock block_;
    std::size_t given_ = 0;  // rows of the block
};

}  // namespace ashtriage::packs
