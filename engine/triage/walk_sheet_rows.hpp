// The rows of a CSV file of walk-arounds, read one by one: what one row tells, and everything that
// is wrong with it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "observe/walk_sheet.hpp"
#include "packs/csv_rows.hpp"
#include "packs/problem.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::triage {

// The columns that are not facts.
namespace column {
inline constexpr std::string_view tree = "tree";
inline constexpr std::string_view place = "place";
inline constexpr std::string_view date = "date";
inline constexpr std::string_view observer = "observer";
inline constexpr std::string_view latitude = "latitude";
inline constexpr std::string_view longitude = "longitude";
inline constexpr std::string_view notes = "notes";
inline constexpr std::string_view stems = "stems";
inline constexpr std::string_view dbh = "dbh";
inline constexpr std::string_view girth = "girth";
// What was wrong with the row when it was left out of another run; tells nothing of the tree.
inline constexpr std::string_view problem = "problem";
}  // namespace column

class WalkSheetRows {
 public:
    // Throws measure::InputError when there is no column for the tree, or one that is neither a
    // fact of the rule set nor one of ours. `file` is named in messages. Header and rule set must
    // outlive the object.
    WalkSheetRows(const packs::CsvHeader& header, std::string file, const packs::RuleSet& rules,
                  measure::Date default_date);

    const packs::CsvHeader& header() const { return header_; }
    const std::string& file() const { return file_; }
    // The facts that have a column, by name.
    const std::vector<std::string>& facts() const { return facts_; }

    // What the row tells. What cannot be read of it is left out and added to the problems.
    observe::SheetTree read(const packs::CsvRow& row, packs::Problems& problems) const;

    // The same label stands in a row before.
    void refuse_repeated(const packs::CsvRow& row, packs::Problems& problems) const;

 private:
    const packs::CsvHeader& header_;
    std::string file_;
    const packs::RuleSet& rules_;
    measure::Date default_date_{};
    std::vector<std::string> facts_;
};

// The stems that a cell of the columns stems, dbh or girth tells. Throws measure::InputError.
std::vector<observe::Stem> stems_in(std::string_view column, std::string_view text);

// Throws measure::InputError for a walk-around dated after `as_of`, which would hide it until that
// day, and for a tree whose label, place or position could not be recorded.
void check(const observe::SheetTree& entry, const measure::Date& as_of);

}  // namespace ashtriage::triage
