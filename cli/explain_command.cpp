// explain: one tree, with its reasons.
#include <algorithm>
#include <iostream>
#include <memory>

#include "book/site_history.hpp"
#include "command.hpp"
#include "knowledge.hpp"
#include "present/explain_text.hpp"
#include "present/intended_use.hpp"
#include "present/listing.hpp"
#include "sheet_file.hpp"

namespace ashtriage::cli {

namespace {

struct ExplainOptions {
    std::string tree;
    std::string sheet;
    std::string site;
    bool client = false;
};

present::TreeAssessment assessed_tree(const Options& options, const present::Knowledge& knowledge,
                                      const ExplainOptions& explain) {
    if (explain.sheet.empty()) {
        const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
        const observe::Site site = find_site(book, explain.site);
        present::TreeAssessment tree = present::assess_stored_tree(
            book, knowledge, site, find_tree(book, site, explain.tree), options.date());
        present::hold_against_the_label(tree, knowledge, book::site_history(book, site.id),
                                        options.date());
        return tree;
    }
    auto trees = assessed_trees(options, knowledge, explain.sheet, {});
    std::vector<std::string> labels;
    for (const present::TreeAssessment& tree : trees) {
        if (tree.tree.label == explain.tree) return tree;
        labels.push_back(tree.tree.label);
    }
    throw not_in_sheet(explain.sheet, explain.tree, labels);
}

ExitCode run(const Options& options, const ExplainOptions& explain) {
    const present::Knowledge knowledge = load_knowledge(options);
    const present::TreeAssessment tree = assessed_tree(options, knowledge, explain);
    if (options.output_format() == Format::csv) {
        std::cout << present::triage_csv({tree});
    } else if (options.output_format() == Format::json) {
        std::cout << present::triage_json({tree}, knowledge.judge.rules());
    } else if (explain.client) {
        std::cout << present::explanation_for_client(tree);
    } else {
        std::cout << present::explanation(tree, knowledge.judge.rules());
    }
    return ExitCode::done;
}

}  // namespace

void add_explain_command(CLI::App& app, Selection& selection) {
    auto explain = std::make_shared<ExplainOptions>();
    CLI::App* command = app.add_subcommand(
        "explain", "One tree: hazards, recommendation, reasons, what would change it");
    command->add_option("tree", explain->tree, "The tree's label")->required();
    command->add_option("--site", explain->site, "The site, if the book has more than one");
    command->add_option("--from", explain->sheet, "Take the tree from a sheet instead of the book");
    command->add_flag("--client", explain->client, "In plain words for the owner");
    command->callback([&selection, explain] {
        selection.action = [explain](const Options& options) { return run(options, *explain); };
    });
}

}  // namespace ashtriage::cli
