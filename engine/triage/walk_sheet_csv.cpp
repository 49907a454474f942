#include <algorithm>
#include <istream>
#include <set>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "packs/csv_rows.hpp"
#include "packs/problem.hpp"
#include "triage/sheet_entries.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::triage {

namespace {

using packs::CsvHeader;
using packs::CsvRow;

// The columns that are not facts.
const std::vector<std::string>& own_columns() {
    static const std::vector<std::string> columns{"tree",     "place",     "date",  "observer",
                                                  "latitude", "longitude", "notes", "stems",
                                                  "dbh",      "girth"};
    return columns;
}

// One row being read: its cells by column, and where its problems go.
class RowReader {
 public:
    RowReader(const CsvHeader& header, const CsvRow& row, const std::string& file,
              packs::Problems& problems)
        : header_(header), row_(row), file_(file), problems_(problems) {}

    // Empty when there is no such column or nothing in the cell.
    std::string_view cell(std::string_view column) const {
        const auto index = header_.find(column);
        if (!index) return {};
        std::string_view text = row_.fields[*index];
        const std::size_t first = text.find_first_not_of(" \t");
        if (first == std::string_view::npos) return {};
        return text.substr(first, text.find_last_not_of(" \t") - first + 1);
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
    row.read("stems",
             [&](std::string_view text) { walk_around.stems = observe::parse_stems(text); });
    for (const auto& [column, measured] : {std::pair{"dbh", observe::StemMeasure::diameter},
                                           std::pair{"girth", observe::StemMeasure::girth}}) {
        row.read(column, [&, measured = measured](std::string_view text) {
            const auto length = measure::parse_length(text, measure::units::inch);
            if (length.ticks() <= 0) {
                throw measure::InputError("A stem of no size", {},
                                          "Leave the cell empty if it was not measured.");
            }
            if (!walk_around.stems.empty()) {
                throw measure::InputError("The tree has its stems in another column already", {},
                                          "Use one of the columns stems, dbh and girth.");
            }
            walk_around.stems.push_back({measured, length});
        });
    }
}

void read_position(RowReader& row, observe::Tree& tree) {
    const bool latitude = !row.cell("latitude").empty();
    const bool longitude = !row.cell("longitude").empty();
    if (!latitude && !longitude) return;
    if (latitude != longitude) {
        row.refuse(latitude ? "longitude" : "latitude", "Latitude and longitude go together",
                   "Give both or neither.");
        return;
    }
    observe::Position position;
    row.read("latitude",
             [&](std::string_view text) { position.latitude = parse_degrees(text, 90); });
    row.read("longitude",
             [&](std::string_view text) { position.longitude = parse_degrees(text, 180); });
    tree.position = position;
}

observe::SheetTree read_row(RowReader& row, const CsvRow& fields, const std::string& file,
                            const std::vector<std::string>& facts, const packs::RuleSet& rules,
                            measure::Date default_date) {
    observe::SheetTree read;
    read.place = file + ":" + std::to_string(fields.line);
    read.tree.label = row.cell("tree");
    if (read.tree.label.empty()) {
        row.refuse("tree", "The tree has no label", "Give each tree a label of its own.");
    }
    read.tree.place = row.cell("place");
    read.walk_around.date = default_date;
    row.read("date",
             [&](std::string_view text) { read.walk_around.date = measure::parse_date(text); });
    read.walk_around.observer = row.cell("observer");
    read.walk_around.notes = row.cell("notes");
    read_stems(row, read.walk_around);
    read_position(row, read.tree);
    for (const std::string& fact : facts) {
        row.read(fact, [&](std::string_view text) {
            read.walk_around.findings.push_back(finding_of(rules, fact, text));
        });
    }
    return read;
}

// The facts that have a column. Throws for a column that is neither a fact nor one of our own.
std::vector<std::string> fact_columns(const CsvHeader& header, const packs::RuleSet& rules) {
    std::vector<std::string> known = own_columns();
    std::vector<std::string> facts;
    for (const reason::Fact& fact : rules.model.facts) {
        if (std::ranges::find(known, fact.name) != known.end()) continue;
        known.push_back(fact.name);
        if (header.find(fact.name)) facts.push_back(fact.name);
    }
    header.refuse_unknown(known);
    return facts;
}

}  // namespace

observe::WalkSheet read_walk_sheet_csv(std::istream& stream, const std::string& file,
                                       const packs::RuleSet& rules, measure::Date default_date) {
    packs::CsvReader reader(stream, file);
    reader.header().require("tree");
    const std::vector<std::string> facts = fact_columns(reader.header(), rules);

    observe::WalkSheet sheet;
    packs::Problems problems;
    std::set<std::string> labels;
    CsvRow fields;
    while (reader.next(fields)) {
        RowReader row(reader.header(), fields, file, problems);
        if (!fields.fault.empty()) {
            row.refuse({}, fields.fault, {});
            continue;
        }
        observe::SheetTree tree = read_row(row, fields, file, facts, rules, default_date);
        if (!tree.tree.label.empty() && !labels.insert(tree.tree.label).second) {
            row.refuse("tree", "The tree \"" + tree.tree.label + "\" stands here twice",
                       "Each tree of a sheet needs a label of its own.");
        }
        sheet.trees.push_back(std::move(tree));
    }
    problems.throw_if_any();
    return sheet;
}

}  // namespace ashtriage::triage
