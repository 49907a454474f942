// schedule: the trees to be treated, in the order of their windows.
#include "schedule_command.hpp"

#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "packs/words.hpp"
#include "plan/schedule.hpp"
#include "present/schedule_listing.hpp"

namespace ashtriage::cli {

namespace {

ExitCode run(const Options& options, const std::string& site_name) {
    const present::Knowledge knowledge = load_knowledge(options);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    std::vector<observe::Site> sites = book.sites();
    if (!site_name.empty()) sites = {find_site(book, site_name)};

    std::vector<present::PropertyAssessment> properties;
    for (const observe::Site& site : sites) {
        properties.push_back(present::assess_property(book, knowledge, site, options.date()));
    }
    const auto scheduled = plan::schedule(present::trees_to_treat(properties), knowledge.seasons,
                                          knowledge.cards, options.date());
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::schedule_text(scheduled);
            break;
        case Format::csv:
            std::cout << present::schedule_csv(scheduled);
            break;
        case Format::json:
            std::cout << present::schedule_json(scheduled);
            break;
    }
    return ExitCode::done;
}

}  // namespace

void add_schedule_command(CLI::App& app, Selection& selection) {
    auto site = std::make_shared<std::string>();
    CLI::App* command =
        app.add_subcommand("schedule", "The trees to be treated, in the order of their windows");
    command->add_option("--site", *site, "Only this site (default: all)");
    command->require_subcommand(0, 1);
    add_schedule_crews(*command, selection);
    command->callback([&selection, command, site] {
        if (!command->get_subcommands().empty()) return;
        selection.action = [site](const Options& options) { return run(options, *site); };
    });
}

}  // namespace ashtriage::cli
