// rules test: whether the cases of the rule packs come out as they say.
#include <iostream>
#include <memory>

#include "packs/cases.hpp"
#include "packs/rule_files.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

using present::csv_plain_field;
using present::csv_text_field;

ExitCode test(const Options& options) {
    const auto results = packs::run_cases(packs::rule_files(options.rules));
    std::size_t failed = 0;
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"case", "passed", "differences"});
    std::string text;
    for (const packs::CaseResult& result : results) {
        failed += result.passed() ? 0U : 1U;
        std::string differences;
        for (const std::string& difference : result.differences) {
            differences += (differences.empty() ? "" : " ") + difference;
        }
        json.push_back({{"case", result.tested.id},
                        {"passed", result.passed()},
                        {"differences", result.differences}});
        csv += present::csv_row({csv_plain_field(result.tested.id), result.passed() ? "yes" : "no",
                                 csv_text_field(differences)});
        if (result.passed()) continue;
        text += present::paragraph(result.tested.id + " (" + result.tested.file + ":" +
                                   std::to_string(result.tested.line) + ")");
        for (const std::string& difference : result.differences) {
            text += present::paragraph(difference, "  - ");
        }
    }
    text += std::to_string(results.size() - failed) + " cases came out as expected, " +
            std::to_string(failed) + " did not.\n";
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv : text);
    }
    return failed == 0 ? ExitCode::done : ExitCode::finding;
}

}  // namespace

void add_rules_test(CLI::App& rules, Selection& selection) {
    const auto coverage = std::make_shared<bool>(false);
    CLI::App* part =
        add_rules_part(rules, selection, "test",
                       "Run the packs' own cases; exit code 1 if one comes out otherwise",
                       [coverage](const Options& options) {
                           return *coverage ? show_case_coverage(options) : test(options);
                       });
    part->add_flag("--coverage", *coverage,
                   "Show which rules and conditions the cases exercise; exit code 1 if one is left "
                   "out");
}

}  // namespace ashtriage::cli
