// schedule: the trees to be treated, in the order of their windows.
#include "schedule_command.hpp"

#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "known_year.hpp"
#include "packs/words.hpp"
#include "plan/schedule.hpp"
#include "present/schedule_listing.hpp"

namespace ashtriage::cli {

namespace {

struct ScheduleOptions {
    std::string site;
    KnownYearOptions year;
};

ExitCode run(const Options& options, const ScheduleOptions& asked) {
    const present::Knowledge knowledge = load_knowledge_of_year(options, asked.year);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    std::vector<observe::Site> sites = book.sites();
    if (!asked.site.empty()) sites = {find_site(book, asked.site)};

    std::vector<present::PropertyAssessment> properties;
    for (const observe::Site& site : sites) {
        properties.push_back(present::assess_property(book, knowledge, site, options.date()));
    }
    const auto scheduled = plan::schedule(present::trees_to_treat(properties), knowledge.seasons,
                                          knowledge.cards, options.date(), knowledge.year);
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
    const auto asked = std::make_shared<ScheduleOptions>();
    CLI::App* command =
        app.add_subcommand("schedule", "The trees to be treated, in the order of their windows");
    command->add_option("--site", asked->site, "Only this site (default: all)");
    add_known_year_options(*command, asked->year);
    command->require_subcommand(0, 1);
    add_schedule_crews(*command, selection, {asked, &asked->year});
    command->callback([&selection, command, asked] {
        if (!command->get_subcommands().empty()) return;
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
