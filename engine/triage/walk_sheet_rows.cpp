#include "triage/walk_sheet_rows.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "observe/check_records.hpp"
#include "observe/stem_text.hpp"
#include "packs/words.hpp"
#include "triage/sheet_entries.hpp"

namespace ashtriage::triage {

namespace {

using packs::CsvHeader;
using packs::CsvRow;

constexpr std::array own_columns = {column::tree,     column::place,    column::date,
                                    column::observer, column::latitude, column::longitude,
                                    column::notes,    column::stems,    column::dbh,
                                    column::girth,    column::problem};

// One row being read: its cells by column, and where its problems go.
class RowReader {
 public:
    RowReader(const CsvHeader& header, const CsvRow& row, const std::string& file,
              packs::Problems& problems)
        : header_(header), row_(row), file_(file), problems_(problems) {}

    // Empty when there is no such column or nothing in the cell.
    std::string_view cell(std::string_view column) const {
        const auto index = header_.find(column);
        return index ? packs::trimmed(row_.fields[*index]) : std::string_view{};
    }

    // Takes a cell that is not empty; what it throws becomes a problem of the cell.
    template <class Take>
    void read(std::string_view column, Take&& take) {
        const std::string_view text = cell(column);
        if (text.empty()) return;
        try {
            take(text);
        } catch (const measure::InputError& error) {
            refuse(column, error.what(), error.hint());
        }
    }

    void refuse(std::string_view column, const std::string& message, const std::string& hint) {
        const auto index = header_.find(column);
        const std::string in_column =
            column.empty() ? "" : ", column \"" + std::string(column) + "\"";
        problems_.add({"bad-cell",
                       file_,
                       {row_.line, index ? *index + 1 : 0},
                       "Row " + std::to_string(row_.number) + in_column + ": " + message,
                       hint,
                       {}});
    }

 private:
    const CsvHeader& header_;
    const CsvRow& row_;
    const std::string& file_;
    packs::Problems& problems_;
};

void read_stems(RowReader& row, observe::WalkAround& walk_around) {
    for (const std::string_view column : {column::stems, column::dbh, column::girth}) {
        row.read(column, [&](std::string_view text) {
            const auto stems = stems_in(column, text);
            if (!walk_around.stems.empty()) {
                throw measure::InputError("The tree has its stems in another column already", {},
                                          "Use one of the columns stems, dbh and girth.");
            }
            walk_around.stems = stems;
        });
    }
}

void read_position(RowReader& row, observe::Tree& tree) {
    const bool latitude = !row.cell(column::latitude).empty();
    const bool longitude = !row.cell(column::longitude).empty();
    if (!latitude && !longitude) return;
    if (latitude != longitude) {
        row.refuse(latitude ? column::longitude : column::latitude,
                   "Latitude and longitude go together", "Give both or neither.");
        return;
    }
    observe::Position position;
    row.read(column::latitude,
             [&](std::string_view text) { position.latitude = parse_degrees(text, 90); });
    row.read(column::longitude,
             [&](std::string_view text) { position.longitude = parse_degrees(text, 180); });
    tree.position = position;
}

}  // namespace

WalkSheetRows::WalkSheetRows(const CsvHeader& header, std::string file, const packs::RuleSet& rules,
                             measure::Date default_date)
    : header_(header), file_(std::move(file)), rules_(rules), default_date_(default_date) {
    header.require(column::tree);
    std::vector<std::string> known(own_columns.begin(), own_columns.end());
    for (const reason::Fact& fact : rules.model.facts) {
        if (std::ranges::find(known, fact.name) != known.end()) continue;
        known.push_back(fact.name);
        if (header.find(fact.name)) facts_.push_back(fact.name);
    }
    header.refuse_unknown(known);
}

observe::SheetTree WalkSheetRows::read(const CsvRow& fields, packs::Problems& problems) const {
    RowReader row(header_, fields, file_, problems);
    observe::SheetTree read;
    read.place = file_ + ":" + std::to_string(fields.line);
    if (!fields.fault.empty()) {
        row.refuse({}, fields.fault, {});
        return read;
    }
    read.tree.label = row.cell(column::tree);
    if (read.tree.label.empty()) {
        row.refuse(column::tree, "The tree has no label", "Give each tree a label of its own.");
    }
    read.tree.place = row.cell(column::place);
    read.walk_around.date = default_date_;
    row.read(column::date,
             [&](std::string_view text) { read.walk_around.date = measure::parse_date(text); });
    read.walk_around.observer = row.cell(column::observer);
    read.walk_around.notes = row.cell(column::notes);
    read_stems(row, read.walk_around);
    read_position(row, read.tree);
    for (const std::string& fact : facts_) {
        row.read(fact, [&](std::string_view text) {
            read.walk_around.findings.push_back(finding_of(rules_, fact, text));
        });
    }
    return read;
}

void WalkSheetRows::refuse_repeated(const CsvRow& fields, packs::Problems& problems) const {
    RowReader row(header_, fields, file_, problems);
    row.refuse(column::tree,
               "The tree \"" + std::string(row.cell(column::tree)) + "\" stands here twice",
               "Each tree of a sheet needs a label of its own.");
}

std::vector<observe::Stem> stems_in(std::string_view column, std::string_view text) {
    if (column == column::stems) return observe::parse_stems(text);
    const auto length = measure::parse_length(text, measure::units::inch);
    if (length.ticks() <= 0) {
        throw measure::InputError("A stem of no size", {},
                                  "Leave the cell empty if it was not measured.");
    }
    return {{column == column::girth ? observe::StemMeasure::girth : observe::StemMeasure::diameter,
             length}};
}

void check(const observe::SheetTree& entry, const measure::Date& as_of) {
    observe::check(entry.tree);
    const measure::Date& date = entry.walk_around.date;
    if (date <= as_of) return;
    throw measure::InputError("The walk-around of tree \"" + entry.tree.label + "\" is dated " +
                                  measure::text(date) + ", after " + measure::text(as_of),
                              {}, "Check the year and the month, or give the day with --as-of.");
}

}  // namespace ashtriage::triage
