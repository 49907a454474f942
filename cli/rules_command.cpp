// rules: what the rule packs ask, and whether their own cases come out right.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "packs/cases.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

using present::csv_plain_field;
using present::csv_text_field;

ExitCode facts(const Options& options) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"fact", "expects", "worked_out", "ask"});
    present::TextTable table({"Fact", "Expects"});
    for (reason::FactIndex index = 0; index < rules.model.facts.size(); ++index) {
        const reason::Fact& fact = rules.model.facts[index];
        const packs::FactText& text = rules.facts[index];
        const std::string expected = packs::expected_text(fact, text);
        const std::string worked_out = text.asked ? "no" : "yes";
        json.push_back({{"fact", fact.name},
                        {"expects", expected},
                        {"unit", text.unit},
                        {"levels", fact.levels},
                        {"worked_out", !text.asked},
                        {"group", text.group},
                        {"ask", text.ask},
                        {"sources", text.sources}});
        csv += present::csv_row({csv_plain_field(fact.name), csv_text_field(expected), worked_out,
                                 csv_text_field(text.ask)});
        table.add({fact.name, expected + (text.asked ? "" : " (worked out, not asked)")});
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv : table.text());
    }
    return ExitCode::done;
}

ExitCode presets(const Options& options) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"preset", "about"});
    std::string text;
    for (const packs::Preset& preset : rules.presets) {
        json.push_back({{"preset", preset.name}, {"about", preset.about}});
        csv += present::csv_row({csv_plain_field(preset.name), csv_text_field(preset.about)});
        text += preset.name + "\n" + present::paragraph(preset.about, "    ");
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv : text);
    }
    return ExitCode::done;
}

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

void add_rules_command(CLI::App& app, Selection& selection) {
    CLI::App* command = app.add_subcommand("rules", "The rule packs: facts, presets, cases");
    command->require_subcommand(1);
    const auto add = [&](const char* name, const char* about, ExitCode (*action)(const Options&)) {
        CLI::App* part = command->add_subcommand(name, about);
        part->fallthrough();
        part->callback([&selection, action] { selection.action = action; });
    };
    add("facts", "Every fact and the values it can have: the columns of a sheet", facts);
    add("presets", "The named sets of thresholds for --preset", presets);
    add("test", "Run the packs' own cases; exit code 1 if one comes out otherwise", test);
}

}  // namespace ashtriage::cli
