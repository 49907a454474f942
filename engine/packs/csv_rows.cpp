#include "packs/csv_rows.hpp"

#include <utility>

namespace ashtriage::packs {

CsvRow row_of(const CsvBlock& block, const CsvBlock::Row& row, const CsvHeader& header) {
    CsvRow read{row.number, row.line, {}, width_fault(row.fields, header)};
    read.fields.reserve(row.fields);
    for (std::size_t i = 0; i < row.fields; ++i) read.fields.emplace_back(block.field(row, i));
    return read;
}

CsvReader::CsvReader(std::istream& stream, std::string file) : blocks_(stream, std::move(file)) {}

bool CsvReader::next(CsvRow& row) {
    if (given_ == block_.rows().size()) {
        given_ = 0;
        if (!blocks_.next(block_)) return false;
    }
    row = row_of(block_, block_.rows()[given_++], header());
    return true;
}

}  // namespace ashtriage::packs
