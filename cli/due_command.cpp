// due: which trees are due for treatment, overdue, too soon or missed.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "present/due_listing.hpp"

namespace ashtriage::cli {

namespace {

struct DueOptions {
    std::string site;
    std::string wave;
};

std::optional<plan::Wave> wave_named(const std::string& name) {
    if (name.empty()) return std::nullopt;
    if (name == "coming") return plan::Wave::coming;
    return name == "here" ? plan::Wave::here : plan::Wave::past;
}

ExitCode run(const Options& options, const DueOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    std::vector<observe::Site> sites = book.sites();
    if (!asked.site.empty()) sites = {find_site(book, asked.site)};
    const present::DueReport report =
        present::due_report(book, knowledge, sites, wave_named(asked.wave), options.date());
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
    command
        ->add_option("--wave", asked->wave,
                     "Where the wave of borers has got to: coming, here or past (default: by what "
                     "each walk-around says of the borer pressure)")
        ->check(CLI::IsMember({"coming", "here", "past"}));
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
