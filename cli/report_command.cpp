// report: the page for the client.
#include <iostream>
#include <memory>

#include "book/site_history.hpp"
#include "command.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "present/intended_use.hpp"
#include "present/property_page.hpp"

namespace ashtriage::cli {

namespace {

struct ReportOptions {
    std::string site;
    std::string output;
};

ExitCode run(const Options& options, const ReportOptions& report) {
    const present::Knowledge knowledge = load_knowledge(options);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    auto property =
        present::assess_property(book, knowledge, find_site(book, report.site), options.date());
    const treat::SiteHistory before = book::site_history(book, property.site.id);
    for (present::TreeAssessment& tree : property.trees) {
        present::hold_against_the_label(tree, knowledge, before, options.date());
    }
    const std::string page = present::property_page(property, knowledge);
    if (report.output.empty() || report.output == "-") {
        std::cout << page;
    } else if (options.dry_run) {
        std::cerr << "Would write " << page.size() << " bytes to " << report.output << "\n";
    } else {
        write_file(report.output, page);
        std::cerr << "Wrote " << report.output << "\n";
    }
    return ExitCode::done;
}

}  // namespace

void add_report_command(CLI::App& app, Selection& selection) {
    auto report = std::make_shared<ReportOptions>();
    CLI::App* command =
        app.add_subcommand("report", "The page for the client: one HTML file for a property");
    command->add_option("--site", report->site, "The site, if the book has more than one");
    command->add_option("-o,--output", report->output,
                        "The file to write (default: standard output)");
    command->callback([&selection, report] {
        selection.action = [report](const Options& options) { return run(options, *report); };
    });
}

}  // namespace ashtriage::cli
