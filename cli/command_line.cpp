#include "command_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <sstream>
#include <utility>

#include "packs/problem.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

constexpr const char* what_it_is =
    "Ash Triage: for each ash, treat, monitor or remove it, with reasons, hazard flags, amounts "
    "and the right season. It advises; the label, local codes and a qualified person on the spot "
    "decide.";

constexpr const char* exit_codes =
    "Exit codes: 0 done; 1 done, and the answer is a finding; 2 usage; 3 bad data or rules; 4 the "
    "book; 70 a fault in the program.";

// CLI11 leaves long lines as they are; here they are broken to the width of the page, a description
// within its own column.
class PageFormatter : public CLI::Formatter {
 public:
    std::string make_help(const CLI::App* app, std::string name,
                          CLI::AppFormatMode mode) const override {
        std::istringstream lines(CLI::Formatter::make_help(app, std::move(name), mode));
        std::string help;
        for (std::string line; std::getline(lines, line);) {
            if (present::width_of(line) <= present::page_width) {
                help += line + '\n';
                continue;
            }
            const std::size_t gap = line.find("  ", line.find_first_not_of(' '));
            const std::size_t start =
                gap == std::string::npos ? 0 : line.find_first_not_of(' ', gap);
            help += present::paragraph(line.substr(start), line.substr(0, start));
        }
        return help;
    }
};

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
        names.push_back(command->get_name());
    }
    return names;
}

void collect_options(const CLI::App& app, std::vector<std::string>& names) {
    for (const CLI::Option* option : app.get_options()) {
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
}

// The words of the command line that name commands, in order: "walk", then perhaps "sheet".
const CLI::App* innermost_command(const CLI::App& app) {
    const CLI::App* innermost = &app;
    while (!innermost->get_subcommands().empty()) innermost = innermost->get_subcommands().front();
    return innermost;
}

std::string did_you_mean(const std::string& written, const std::vector<std::string>& known) {
    const std::string near = packs::nearest(written, known);
    return near.empty() ? std::string{} : " Did you mean \"" + near + "\"?";
}

}  // namespace

std::unique_ptr<CLI::App> command_line(Options& options, Selection& selection) {
    auto app = std::make_unique<CLI::App>(what_it_is, "ashtriage");
    app->formatter(std::make_shared<PageFormatter>());
    app->set_version_flag("--version", "ashtriage 0.1.0");
    app->footer(exit_codes);
    app->require_subcommand(1);
    app->fallthrough();

    app->add_option("--book", options.book,
                    "The book: one file that holds clients, sites, trees and walk-arounds "
                    "(default: $ASHTRIAGE_BOOK, else your data folder)");
    app->add_option("--rules", options.rules,
                    "A folder of rule files to use in place of the built-in ones");
    app->add_option("--preset", options.preset,
                    "A named set of thresholds (\"ashtriage rules presets\" lists them)");
    app->add_option("--as-of", options.as_of, "The date to answer for (default: today)")
        ->type_name("YYYY-MM-DD");
    app->add_option("--format", options.format,
                    "text, csv or json; \"rules show\" also comes as markdown and html")
        ->capture_default_str();
    app->add_flag("--dry-run", options.dry_run, "Say what would be written, and write nothing");

    add_walk_command(*app, selection);
    add_triage_command(*app, selection);
    add_explain_command(*app, selection);
    add_flags_command(*app, selection);
    add_methods_command(*app, selection);
    add_dose_command(*app, selection);
    add_season_command(*app, selection);
    add_due_command(*app, selection);
    add_schedule_command(*app, selection);
    add_record_command(*app, selection);
    add_report_command(*app, selection);
    add_risk_command(*app, selection);
    add_measure_command(*app, selection);
    add_photo_command(*app, selection);
    add_rules_command(*app, selection);
    add_labels_command(*app, selection);
    add_mix_command(*app, selection);
    add_account_command(*app, selection);
    add_book_command(*app, selection);
    add_doctor_command(*app, selection);
    add_demo_command(*app, selection);
    for (CLI::App* command : app->get_subcommands([](CLI::App*) { return true; })) {
        command->fallthrough();
    }
    // Which formats there are is known only once the whole line has been read.
    app->final_callback([&options, &selection] {
        const std::string refusal = CLI::IsMember(selection.formats)(options.format);
        if (!refusal.empty()) throw CLI::ValidationError("--format", refusal);
    });
    return app;
}

std::string usage_message(const CLI::App& app, const CLI::ParseError& error,
                          const std::vector<std::string>& words) {
    const CLI::App* command = innermost_command(app);
    const bool has_commands = !command_names(*command).empty();

    // CLI11 reports an unknown command as a missing one, so what was written is looked for here.
    for (const std::string& word : words) {
        if (word.starts_with("--") && word.size() > 2) {
            const std::string name = word.substr(0, word.find('='));
            std::vector<std::string> known;
            collect_options(app, known);
            for (const CLI::App* at = command; at != nullptr && at != &app; at = at->get_parent()) {
                collect_options(*at, known);
            }
            if (std::ranges::find(known, name) == known.end()) {
                return "There is no option \"" + name + "\" here." + did_you_mean(name, known);
            }
        }
    }
    if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr && has_commands &&
        command->get_subcommands().empty()) {
        const auto known = command_names(*command);
        for (const std::string& word : words) {
            if (word.starts_with("-") || word == command->get_name()) continue;
            if (std::ranges::find(known, word) != known.end()) continue;
            const std::string suggestion = did_you_mean(word, known);
            if (!suggestion.empty() || word == words.front()) {
                return fmt::format("There is no command \"{}\".{}", word, suggestion);
            }
        }
        return "Name a command.";
    }
    return error.what();
}

}  // namespace ashtriage::cli
