// flags: hazardous trees and trees too far gone, the most urgent first.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "present/listing.hpp"

namespace ashtriage::cli {

namespace {

struct FlagsOptions {
    std::string sheet;
    std::string site;
};

ExitCode run(const Options& options, const FlagsOptions& flags) {
    const present::Knowledge knowledge = load_knowledge(options);
    const packs::RuleSet& rules = knowledge.judge.rules();
    const auto trees = assessed_trees(options, knowledge, flags.sheet, flags.site);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::flags_text(trees, rules);
            break;
        case Format::csv:
            std::cout << present::flags_csv(trees, rules);
            break;
        case Format::json:
            std::cout << present::flags_json(trees, rules);
            break;
    }
    return ExitCode::done;
}

}  // namespace

void add_flags_command(CLI::App& app, Selection& selection) {
    auto flags = std::make_shared<FlagsOptions>();
    CLI::App* command = app.add_subcommand(
        "flags", "Hazardous trees and trees too far gone, the most urgent first");
    command->add_option("--from", flags->sheet, "Take the trees from a sheet instead of the book");
    command->add_option("--site", flags->site, "The site, if the book has more than one");
    command->callback([&selection, flags] {
        selection.action = [flags](const Options& options) { return run(options, *flags); };
    });
}

}  // namespace ashtriage::cli
