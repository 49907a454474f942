// The list of trees as CSV: its columns, and how each is written.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

struct TriageRow {
    std::string_view tree;  // label
    std::string_view date;
    std::string_view dbh_inches;
    std::string_view recommendation;
    std::string_view standing;
    std::string_view within_eye_error;  // outcomes
    std::string_view evidence;
    std::string_view flags;
    std::string_view deciding_rule;
    std::string_view because;
};

// The first row, which names the columns.
std::string triage_csv_header();

void append_triage_row(std::string& text, const TriageRow& row);
void append_triage_row(std::string& text, const TreeAssessment& tree);

// The cell for these outcomes, the names of those possible: "remove or treat", "no rule".
std::string outcome_cell(const std::vector<std::string>& possible);
// "remove treat".
std::string within_cell(const std::vector<std::string>& within_error);
// One decimal; empty when the stem was not measured.
std::string dbh_cell(const std::optional<measure::Length>& dbh);

}  // namespace ashtriage::present
