// due: which trees are due for treatment, overdue, too soon or missed.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "due_properties.hpp"
#include "known_year.hpp"
#include "present/due_listing.hpp"

namespace ashtriage::cli {

namespace {

struct DueOptions {
    std::string site;
    std::string wave;
    KnownYearOptions year;
};

ExitCode run(const Options& options, const DueOptions& asked) {
    const present::Knowledge knowledge = load_knowledge_of_year(options, asked.year);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const present::DueReport report =
        present::due_report(properties_due(options, book, knowledge, asked.site), knowledge,
                            wave_named(asked.wave), options.date());
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::due_text(report, knowledge);
            break;
        case Format::csv:
            std::cout << present::due_csv(report);
            break;
        case Format::json:
            std::cout << present::due_json(report);
            break;
    }
    return present::any_late(report) ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_due_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<DueOptions>();
    CLI::App* command =
        app.add_subcommand("due", "Which trees are due for treatment, overdue, too soon or missed");
    command->add_option("--site", asked->site, "Only this site (default: all)");
    add_wave_option(*command, asked->wave);
    add_known_year_options(*command, asked->year);
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
