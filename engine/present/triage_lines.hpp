// Row by row from a CSV sheet to the lines of triage_csv(): the same answers as reading the sheet
// as a whole gives, found without the words that a line does not show.
//
// What a row says is read by column: each knows its readers and remembers the texts it met. A row
// for which that does not suffice, because something in it may have to be refused, is read again by
// the code that reads whole sheets; so there is one meaning, and one set of messages.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "packs/csv_blocks.hpp"
#include "packs/text_memory.hpp"
#include "packs/value_reader.hpp"
#include "present/assessment.hpp"
#include "present/because_words.hpp"
#include "triage/verdict.hpp"
#include "triage/walk_sheet_rows.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::present {

class TriageLines {
 public:
    // All three must outlive the object, which is not for several threads at once. A row without a
    // date is taken to be of `as_of`.
    TriageLines(const Knowledge& knowledge, const triage::WalkSheetRows& rows,
                const measure::Date& as_of);

    // Adds the line of a row. When the row cannot be used adds nothing, except what is wrong with
    // it to the problems, and gives false. `repeated`: its label stood in a row before.
    bool append(const packs::CsvBlock& block, const packs::CsvBlock::Row& row, bool repeated,
                std::string& lines, packs::Problems& problems);

 private:
    struct DbhCell {
        measure::Length dbh;
        std::string text;
    };
    using DbhMemory = packs::TextMemory<DbhCell>;

    enum class Kind { tree, place, date, latitude, longitude, stems, fact, passed_over };
    struct Column {
        Kind kind = Kind::passed_over;
        std::string_view name;   // stems: which of the columns
        std::size_t reader = 0;  // stems and facts: in dbh_readers_ or value_readers_
        reason::FactIndex fact = 0;
    };

    // What was found in the cells of a row besides the values.
    struct Cells {
        std::string_view tree;
        std::string_view date;
        std::string_view latitude;
        std::string_view longitude;
        const DbhCell* dbh = nullptr;
    };

    Column column_for(const std::string& name);
    bool read_cells(const packs::CsvBlock& block, const packs::CsvBlock::Row& row, Cells& cells);
    bool read_date(std::string_view text, Cells& cells);
    bool read_dbh(const Column& column, std::string_view text, Cells& cells);
    bool position_can_be_used(const Cells& cells) const;
    bool complete_values(const Cells& cells);
    bool append_at_once(const packs::CsvBlock& block, const packs::CsvBlock::Row& row,
                        std::string& lines);
    bool append_in_general(const packs::CsvRow& row, bool repeated, std::string& lines,
                           packs::Problems& problems) const;
    const std::string& outcomes_text(reason::LevelSet possible);
    const std::string& within_text(reason::LevelSet outcomes);
    const std::string& flags_text(reason::LevelSet flags);

    const Knowledge* knowledge_;
    const triage::WalkSheetRows* rows_;
    measure::Date as_of_{};
    std::string as_of_text_;
    const reason::Table* recommendation_;
    const reason::Table* evidence_;
    const reason::Table* hazard_;
    triage::WorkingOut working_out_;
    triage::Verdicts verdicts_;
    BecauseWords because_;

    std::vector<Column> columns_;
    std::vector<packs::ValueReader> value_readers_;
    std::vector<DbhMemory> dbh_readers_;
    packs::TextMemory<bool> dates_;  // texts that are a day not after as_of_
    std::map<reason::LevelSet, std::string> outcomes_texts_;
    std::map<reason::LevelSet, std::string> within_texts_;
    std::map<reason::LevelSet, std::string> flags_texts_;

    reason::Observation nothing_known_;
    // Of the row at hand.
    reason::Observation values_;
    DbhCell dbh_;
};

}  // namespace ashtriage::present
