// rules check: what can be proved of the rules before any tree is judged by them.
#include <iostream>
#include <memory>

#include "packs/check_rules.hpp"
#include "packs/rule_files.hpp"
#include "present/check_report.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

ExitCode check(const Options& options, bool list_overlaps) {
    const auto preset =
        options.preset.empty() ? std::nullopt : std::optional<std::string>(options.preset);
    const auto result = packs::check_rules(packs::rule_files(options.rules), preset);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::check_text(result, list_overlaps);
            break;
        case Format::csv:
            std::cout << present::check_csv(result);
            break;
        case Format::json:
            std::cout << present::check_json(result).dump(2) << "\n";
            break;
    }
    return result.passed() ? ExitCode::done : ExitCode::finding;
}

}  // namespace

void add_rules_check(CLI::App& rules, Selection& selection) {
    auto list_overlaps = std::make_shared<bool>(false);
    CLI::App* command = add_rules_part(
        rules, selection, "check",
        "Prove the rules complete, free of conflicts and dead rules, and never milder for a worse "
        "tree, under every preset (or only --preset); exit code 1 if something is found",
        [list_overlaps](const Options& options) { return check(options, *list_overlaps); });
    command->add_flag("--overlaps", *list_overlaps,
                      "List the pairs of rules that can hold together, with an example each");
}

}  // namespace ashtriage::cli
