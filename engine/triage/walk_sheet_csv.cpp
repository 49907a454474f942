#include <istream>
#include <set>

#include "packs/csv_rows.hpp"
#include "packs/problem.hpp"
#include "triage/walk_sheet.hpp"
#include "triage/walk_sheet_rows.hpp"

namespace ashtriage::triage {

observe::WalkSheet read_walk_sheet_csv(std::istream& stream, const std::string& file,
                                       const packs::RuleSet& rules, measure::Date default_date) {
    packs::CsvReader reader(stream, file);
    const WalkSheetRows rows(reader.header(), file, rules, default_date);

    observe::WalkSheet sheet;
    packs::Problems problems;
    std::set<std::string> labels;
    packs::CsvRow fields;
    while (reader.next(fields)) {
        observe::SheetTree tree = rows.read(fields, problems);
        if (!tree.tree.label.empty() && !labels.insert(tree.tree.label).second) {
            rows.refuse_repeated(fields, problems);
        }
        sheet.trees.push_back(std::move(tree));
    }
    problems.throw_if_any();
    return sheet;
}

}  // namespace ashtriage::triage
