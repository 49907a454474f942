// triage: recommendations for the trees of a site, or straight from a sheet without a book.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "present/listing.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::cli {

namespace {

struct TriageOptions {
    std::string sheet;
    std::string site;
};

// Keeps what was answered, unless the book already says just that of the same walk-around.
int store(const Options& options, const present::Knowledge& knowledge,
          const std::vector<present::TreeAssessment>& trees) {
    auto book = book::Book::open(options.book_path());
    return book.in_transaction([&] {
        int stored = 0;
        for (const present::TreeAssessment& tree : trees) {
            if (tree.recommendation.possible.empty()) continue;
            const auto answer =
                present::to_be_stored(tree, knowledge.judge.rules(), options.date());
            const auto latest = book.latest_recommendation(tree.tree.id);
            if (latest && present::same_answer(*latest, answer)) continue;
            book.add(answer);
            ++stored;
        }
        return stored;
    });
}

ExitCode run(const Options& options, const TriageOptions& triage) {
    const present::Knowledge knowledge = load_knowledge(options);
    const auto trees = assessed_trees(options, knowledge, triage.sheet, triage.site);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::triage_text(trees);
            break;
        case Format::csv:
            std::cout << present::triage_csv(trees);
            break;
        case Format::json:
            std::cout << present::triage_json(trees, knowledge.judge.rules());
            break;
    }
    if (triage.sheet.empty() && !options.dry_run) {
        const int stored = store(options, knowledge, trees);
        std::cerr << stored << (stored == 1 ? " recommendation" : " recommendations")
                  << " added to the book.\n";
    }
    return ExitCode::done;
}

}  // namespace

void add_triage_command(CLI::App& app, Selection& selection) {
    auto triage = std::make_shared<TriageOptions>();
    CLI::App* command =
        app.add_subcommand("triage", "Treat, monitor or remove: a line for each tree");
    command->add_option("--from", triage->sheet,
                        "A sheet of trees (.csv, .yaml; - for CSV from standard input); no book is "
                        "needed and none is touched");
    command->add_option("--site", triage->site, "The site, if the book has more than one");
    command->callback([&selection, triage] {
        selection.action = [triage](const Options& options) { return run(options, *triage); };
    });
}

}  // namespace ashtriage::cli
