// demo: an invented property, walked through the whole job.
#include <filesystem>
#include <iostream>
#include <memory>

#include "book/filing.hpp"
#include "command.hpp"
#include "demo_sheet.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "plan/schedule.hpp"
#include "present/explain_text.hpp"
#include "present/listing.hpp"
#include "present/property_page.hpp"
#include "present/recommendation_json.hpp"
#include "present/schedule_listing.hpp"
#include "present/text_layout.hpp"
#include "triage/tables.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::cli {

namespace {

// The day on which the invented property is looked back upon: shortly after its walk-arounds, so
// that the demonstration comes out the same on any day it is run.
measure::Date demo_date(const Options& options) {
    return options.as_of.empty() ? measure::parse_date("2026-07-10") : options.date();
}

void heading(const std::string& text) {
    std::cout << "\n=== " << text << " " << std::string(75 - text.size(), '=') << "\n\n";
}

void keep_answers(book::Book& book, const present::PropertyAssessment& property,
                  const packs::RuleSet& rules) {
    book.in_transaction([&] {
        for (const present::TreeAssessment& tree : property.trees) {
            if (tree.recommendation.possible.empty()) continue;
            book.add(present::to_be_stored(tree, rules, property.as_of));
        }
    });
}

// The first tree that came to be treated, or null.
const present::TreeAssessment* first_to_treat(const present::PropertyAssessment& property) {
    for (const present::TreeAssessment& tree : property.trees) {
        if (tree.treatment) return &tree;
    }
    return nullptr;
}

ExitCode run(const Options& options, const std::filesystem::path& folder) {
    const present::Knowledge knowledge = load_knowledge(options);
    const packs::RuleSet& rules = knowledge.judge.rules();
    const measure::Date date = demo_date(options);
    const observe::WalkSheet sheet =
        triage::read_walk_sheet_yaml(demo_sheet(), "the demonstration sheet", rules, date);

    std::error_code error;
    if (std::filesystem::exists(folder, error) && !std::filesystem::is_empty(folder, error)) {
        throw measure::InputError("The folder is not empty", folder.string(),
                                  "Name a new folder for the demonstration.");
    }
    if (options.dry_run) {
        std::cout << "Would make a book and three pages in " << folder.string() << "\n";
        return ExitCode::done;
    }
    std::filesystem::create_directories(folder, error);
    if (error) throw measure::InputError("The folder cannot be made", folder.string());

    const auto book_path = folder / "demo.book";
    auto book = book::Book::create(book_path);
    const book::Filed filed =
        book.in_transaction([&] { return book::file_sheet(book, sheet, {}, date); });
    const observe::Site site = *book.find_site(filed.site);
    const auto property = present::assess_property(book, knowledge, site, date);
    keep_answers(book, property, rules);

    std::cout << present::paragraph(
        "An invented property, \"" + site.name + "\", as of " + measure::long_text(date) + ". " +
        std::to_string(filed.trees_added) + " trees were walked round and filed in a book.");
    heading("What must not be overlooked (ashtriage flags)");
    std::cout << present::flags_text(property.trees, rules);
    heading("Every tree at a glance (ashtriage triage)");
    std::cout << present::triage_text(property.trees);
    if (const present::TreeAssessment* tree = first_to_treat(property)) {
        heading("One tree in full (ashtriage explain " + tree->tree.label + ")");
        std::cout << present::explanation(*tree, rules);
    }
    heading("When to treat (ashtriage schedule)");
    const auto scheduled = plan::schedule(present::trees_to_treat({property}), knowledge.seasons,
                                          knowledge.cards, date, knowledge.year);
    std::cout << present::schedule_text(scheduled);

    write_file(folder / "property.html", present::property_page(property, knowledge));
    write_file(folder / "trees.csv", present::triage_csv(property.trees));
    write_file(folder / "schedule.csv", present::schedule_csv(scheduled));
    write_file(folder / "walk-sheet.yaml", demo_sheet());
    heading("Left behind in " + folder.filename().string());
    std::cout << "  demo.book        the book\n"
              << "  property.html    the page for the client; open it in a browser or print it\n"
              << "  trees.csv        every tree with its recommendation\n"
              << "  schedule.csv     what to treat when\n"
              << "  walk-sheet.yaml  the walk-arounds as they were written down\n\n"
              << "To ask about one of the trees:\n"
              << "  ashtriage --book " << book_path.string() << " explain LABEL --as-of "
              << measure::text(date) << "\n";
    return ExitCode::done;
}

}  // namespace

void add_demo_command(CLI::App& app, Selection& selection) {
    auto folder = std::make_shared<std::string>();
    CLI::App* command = app.add_subcommand(
        "demo", "Run the whole job on an invented property and leave its book and pages behind");
    command->add_option("folder", *folder, "A new folder for the book and the pages")->required();
    command->callback([&selection, folder] {
        selection.action = [folder](const Options& options) { return run(options, *folder); };
    });
}

}  // namespace ashtriage::cli
