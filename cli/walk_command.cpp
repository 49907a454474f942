// walk: the walk-around, asked at the terminal or taken from a sheet.
#include <filesystem>
#include <iostream>
#include <memory>

#include "book/filing.hpp"
#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "sheet_file.hpp"
#include "triage/tree_facts.hpp"
#include "walk_interview.hpp"

namespace ashtriage::cli {

namespace {

struct WalkOptions {
    std::string site;
    std::string tree;
    std::string observer;
    std::string sheet;
    bool with_assessor = false;
    bool afresh = false;
};

// The book, made on first use; by a dry run in memory alone.
book::Book opened_book(const Options& options) {
    const std::filesystem::path path = options.book_path();
    std::error_code error;
    if (std::filesystem::exists(path, error)) return book::Book::open(path);
    if (options.dry_run) return book::Book::in_memory(path);
    if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), error);
    std::cerr << "A new book: " << path.string() << "\n";
    return book::Book::create(path);
}

// Whether every tree of the sheet can be reasoned about, before any of it is kept. Doubtful stem
// diameters are asked about but kept as they are: nobody is there to answer.
void check(const observe::WalkSheet& sheet, const packs::RuleSet& rules) {
    for (const observe::SheetTree& entry : sheet.trees) {
        try {
            const triage::TreeFacts facts =
                triage::tree_facts(rules, sheet.site ? &*sheet.site : nullptr, entry.walk_around);
            for (const std::string& doubt : triage::doubtful_entries(facts, nullptr)) {
                std::cerr << entry.place << ": tree " << entry.tree.label << ": " << doubt << "\n";
            }
        } catch (const measure::InputError& error) {
            throw error.at(entry.place);
        }
    }
}

ExitCode take_sheet(const Options& options, const WalkOptions& walk) {
    const present::Knowledge knowledge = load_knowledge(options);
    observe::WalkSheet sheet = read_sheet_file(walk.sheet, knowledge.judge.rules(), options.date());
    for (observe::SheetTree& entry : sheet.trees) {
        if (entry.walk_around.observer.empty()) entry.walk_around.observer = walk.observer;
    }
    check(sheet, knowledge.judge.rules());

    auto book = opened_book(options);
    const auto file = [&] { return book::file_sheet(book, sheet, walk.site, options.date()); };
    const book::Filed filed = options.dry_run ? book.rehearse(file) : book.in_transaction(file);
    std::cout << (options.dry_run ? "Would be filed: " : "Filed: ") << filed.trees_added
              << " new trees, " << filed.walk_arounds_added << " walk-arounds, "
              << filed.walk_arounds_corrected << " corrections; " << filed.walk_arounds_unchanged
              << " were there already.\n";
    const int described = filed.clients_changed + filed.sites_changed + filed.trees_changed;
    if (described > 0) {
        std::cout << "Descriptions of clients, sites or trees changed: " << described << ".\n";
    }
    return ExitCode::done;
}

ExitCode ask(const Options& options, const WalkOptions& walk) {
    if (walk.site.empty() || walk.tree.empty()) {
        throw measure::InputError("A walk-around needs a site and a tree", {},
                                  "ashtriage walk --site NAME --tree LABEL, or --from SHEET");
    }
    const present::Knowledge knowledge = load_knowledge(options);
    auto book = opened_book(options);
    Prompt prompt(std::cin, std::cout);
    auto site = book.find_site(walk.site);
    if (!site) {
        site = set_up_site(prompt, book, knowledge.judge.rules(), walk.site, options.dry_run);
        if (!site) return ExitCode::done;
    }
    WalkRequest request;
    request.site = *site;
    request.tree = walk.tree;
    request.observer = walk.observer;
    request.date = options.date();
    request.with_assessor = walk.with_assessor;
    request.afresh = walk.afresh;
    request.dry_run = options.dry_run;
    walk_round(prompt, book, knowledge, request);
    return ExitCode::done;
}

}  // namespace

void add_walk_command(CLI::App& app, Selection& selection) {
    auto walk = std::make_shared<WalkOptions>();
    CLI::App* command = app.add_subcommand(
        "walk", "The walk-around of a tree, asked at the terminal or taken from a sheet");
    command->add_option("--site", walk->site, "The site's name; a new one is set up on the spot");
    command->add_option("--tree", walk->tree, "The tree's label");
    command->add_option("--observer", walk->observer, "Who walks round the tree");
    command->add_option("--from", walk->sheet,
                        "A sheet of walk-arounds (.yaml, .csv; - for CSV from standard input)");
    command->add_flag("--assessor", walk->with_assessor,
                      "Also ask for what a qualified tree-risk assessor rates");
    command->add_flag("--afresh", walk->afresh, "Forget an unfinished walk-around of this tree");
    command->callback([&selection, walk] {
        selection.action = [walk](const Options& options) {
            return walk->sheet.empty() ? ask(options, *walk) : take_sheet(options, *walk);
        };
    });
}

}  // namespace ashtriage::cli
