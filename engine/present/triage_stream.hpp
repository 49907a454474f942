// A CSV sheet of any length to CSV recommendations, row by row in the order of the sheet, in memory
// that does not grow with its length.
//
// Rows are read and written by the calling thread, and judged by others, some hundreds at a time.
// A row that cannot be used is left out, told of, and can be set aside in a table of its own, to be
// mended and given again. A file that no further row can be trusted of is an end: the rows before
// have been written then.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>

#include "measure/date.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

struct TriageStreamOutput {
    std::ostream& lines;     // as triage_csv() writes them
    std::ostream& problems;  // what is wrong with the rows left out, of the first twenty in full
    std::ostream* left_out;  // those rows with a column `problem`; may be null
};

struct TriageStreamEnd {
    std::size_t rows = 0;  // with those left out, without the header
    std::size_t left_out = 0;
    // When not 0: labels were compared with the first so many only, since no more are kept.
    std::size_t labels_kept = 0;
};

// Of how many rows that were left out the problems are told in full.
inline constexpr std::size_t rows_told_in_full = 20;

// How many threads judge when nobody says: one for each core, within reason.
unsigned usual_threads();

// `file` is named in messages; `threads` judge, at least one. Throws measure::InputError for a file
// that is no table of this kind: no header, an unknown column, broken quotation marks, no UTF-8
// text; and when an output cannot be written.
TriageStreamEnd stream_triage(std::istream& sheet, const std::string& file,
                              const Knowledge& knowledge, const measure::Date& as_of,
                              const TriageStreamOutput& output, unsigned threads);

}  // namespace ashtriage::present
