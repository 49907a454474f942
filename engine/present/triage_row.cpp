#include "present/triage_row.hpp"

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

std::string triage_csv_header() {
    return csv_row({"tree", "date", "dbh_inches", "recommendation", "standing", "within_eye_error",
                    "evidence", "flags", "deciding_rule", "because"});
}

void append_triage_row(std::string& text, const TriageRow& row) {
    append_csv_text(text, row.tree);
    for (const std::string_view code :
         {row.date, row.dbh_inches, row.recommendation, row.standing, row.within_eye_error,
          row.evidence, row.flags, row.deciding_rule}) {
        text += ',';
        append_csv_plain(text, code);
    }
    text += ',';
    append_csv_text(text, row.because);
    text += csv_row_end;
}

void append_triage_row(std::string& text, const TreeAssessment& tree) {
    const triage::Recommendation& recommended = tree.recommendation;
    const bool reasoned = !recommended.reasons.empty();
    const std::string date = measure::text(tree.walk_around.date);
    const std::string dbh = dbh_cell(tree.facts.dbh);
    const std::string outcomes = outcome_cell(recommended.possible);
    const std::string stands = standing(recommended);
    const std::string within = within_cell(recommended.within_error);
    const std::string flags = flag_list(recommended, "; ");
    append_triage_row(text,
                      TriageRow{.tree = tree.tree.label,
                                .date = date,
                                .dbh_inches = dbh,
                                .recommendation = outcomes,
                                .standing = stands,
                                .within_eye_error = within,
                                .evidence = recommended.evidence,
                                .flags = flags,
                                .deciding_rule = reasoned ? recommended.reasons.front().rule : "",
                                .because = reasoned ? recommended.reasons.front().because : ""});
}

std::string outcome_cell(const std::vector<std::string>& possible) {
    if (possible.empty()) return "no rule";
    std::vector<std::string> words;
    for (const std::string& outcome : possible) words.push_back(packs::plain_name(outcome));
    return packs::joined(words);
}

std::string within_cell(const std::vector<std::string>& within_error) {
    std::string within;
    for (const std::string& outcome : within_error) {
        if (!within.empty()) within += ' ';
        within += outcome;
    }
    return within;
}

std::string dbh_cell(const std::optional<measure::Length>& dbh) {
    return dbh ? dbh->text(measure::units::inch, 1) : std::string{};
}

}  // namespace ashtriage::present
