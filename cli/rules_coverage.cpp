// rules test --coverage: what the cases of the rule packs exercise, and what none does.
#include <iostream>

#include "packs/cases.hpp"
#include "packs/coverage.hpp"
#include "packs/rule_files.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

using packs::Aim;
using packs::CoverageItem;
using packs::Share;
using packs::TableCoverage;
using present::csv_plain_field;
using present::csv_text_field;

const char* aim_name(Aim aim) {
    switch (aim) {
        case Aim::held:
            return "held";
        case Aim::decided:
            return "decided";
        case Aim::met:
            return "met";
        case Aim::not_met:
            return "not met";
    }
    return "";
}

std::string out_of(const Share& share) {
    return std::to_string(share.reached) + " of " + std::to_string(share.all);
}

std::string missing_text(const CoverageItem& item) {
    switch (item.aim) {
        case Aim::held:
            return item.rule + ": no case makes it hold.";
        case Aim::decided:
            return item.rule + ": no case is decided by it.";
        case Aim::met:
            return item.rule + ": no case meets \"" + item.test + "\".";
        case Aim::not_met:
            return item.rule + ": no case fails \"" + item.test + "\".";
    }
    return {};
}

std::string text_of(const std::vector<TableCoverage>& tables) {
    present::TextTable shares({"Table", "Rules reached", "Sides of conditions reached"});
    std::string missing;
    for (const TableCoverage& table : tables) {
        shares.add({table.table, out_of(table.rules()), out_of(table.sides())});
        if (table.complete()) continue;
        missing += "\n" + present::paragraph(packs::plain_name(table.table) + " (" + table.file +
                                             "): what no case shows");
        for (const CoverageItem& item : table.items) {
            if (item.reached()) continue;
            missing +=
                present::paragraph(missing_text(item) + " Line " + std::to_string(item.line) +
                                       ". Needed: " + item.case_needed + ".",
                                   "  - ");
        }
    }
    return shares.text() + missing + "\n" +
           present::paragraph(
               missing.empty()
                   ? "Every rule decides a case, and every test in a condition comes out both ways."
                   : "A case counts for the tables that it expects something of and for those that "
                     "these rest on, under its own preset.");
}

std::string csv_of(const std::vector<TableCoverage>& tables) {
    std::string csv = present::csv_row({"table", "rule", "condition", "aim", "file", "line",
                                        "reached", "first_case", "case_needed"});
    for (const TableCoverage& table : tables) {
        for (const CoverageItem& item : table.items) {
            csv += present::csv_row(
                {csv_plain_field(table.table), csv_plain_field(item.rule),
                 csv_text_field(item.test), aim_name(item.aim), csv_text_field(table.file),
                 std::to_string(item.line), item.reached() ? "yes" : "no",
                 csv_plain_field(item.reached_by), csv_text_field(item.case_needed)});
        }
    }
    return csv;
}

present::Json json_of(const Share& share) {
    return {{"reached", share.reached}, {"all", share.all}};
}

present::Json json_of(const std::vector<TableCoverage>& tables) {
    present::Json json = present::Json::array();
    for (const TableCoverage& table : tables) {
        present::Json missing = present::Json::array();
        for (const CoverageItem& item : table.items) {
            if (item.reached()) continue;
            missing.push_back({{"rule", item.rule},
                               {"condition", item.test},
                               {"aim", aim_name(item.aim)},
                               {"line", item.line},
                               {"case_needed", item.case_needed}});
        }
        json.push_back({{"table", table.table},
                        {"file", table.file},
                        {"rules", json_of(table.rules())},
                        {"sides", json_of(table.sides())},
                        {"not_reached", missing}});
    }
    return json;
}

// A case that comes out otherwise shows nothing about the rules, whatever it reaches.
bool all_come_out_as_expected(const std::vector<packs::RuleFile>& files) {
    std::size_t failed = 0;
    for (const packs::CaseResult& result : packs::run_cases(files)) {
        failed += result.passed() ? 0U : 1U;
    }
    if (failed == 0) return true;
    std::cerr << present::paragraph(std::to_string(failed) +
                                    " cases did not come out as expected. \"ashtriage rules "
                                    "test\" shows which.");
    return false;
}

}  // namespace

ExitCode show_case_coverage(const Options& options) {
    const auto files = packs::rule_files(options.rules);
    const auto tables = packs::case_coverage(files);
    if (options.output_format() == Format::json) {
        std::cout << json_of(tables).dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv_of(tables) : text_of(tables));
    }
    bool complete = all_come_out_as_expected(files);
    for (const TableCoverage& table : tables) complete = complete && table.complete();
    return complete ? ExitCode::done : ExitCode::finding;
}

}  // namespace ashtriage::cli
