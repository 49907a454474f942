// book: making, looking at, checking and copying the book.
#include <iostream>
#include <memory>

#include "book/backup.hpp"
#include "book_check.hpp"
#include "command.hpp"
#include "knowledge.hpp"
#include "packs/words.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

ExitCode make(const Options& options) {
    const auto path = options.book_path();
    if (options.dry_run) {
        std::cout << "Would make " << path.string() << "\n";
        return ExitCode::done;
    }
    std::error_code error;
    if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), error);
    book::Book::create(path);
    std::cout << "Made " << path.string() << "\n";
    return ExitCode::done;
}

ExitCode info(const Options& options) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const book::BookInfo info = book.info();
    const std::vector<std::pair<std::string, std::string>> lines{
        {"file", info.path.string()},
        {"edition", std::to_string(info.edition)},
        {"bytes", std::to_string(info.size_in_bytes)},
        {"clients", std::to_string(info.clients)},
        {"sites", std::to_string(info.sites)},
        {"trees", std::to_string(info.trees)},
        {"walk_arounds", std::to_string(info.walk_arounds)},
        {"recommendations", std::to_string(info.recommendations)},
        {"applications", std::to_string(info.applications)},
        {"other_uses", std::to_string(info.other_uses)},
        {"raised_allowances", std::to_string(info.raised_allowances)},
        {"unfinished_walk_arounds", std::to_string(info.drafts)}};
    if (options.output_format() == Format::json) {
        present::Json json;
        for (const auto& [name, value] : lines) json[name] = value;
        std::cout << json.dump(2) << "\n";
        return ExitCode::done;
    }
    if (options.output_format() == Format::csv) {
        std::cout << "what,value\r\n";
        for (const auto& [name, value] : lines) std::cout << name << "," << value << "\r\n";
        return ExitCode::done;
    }
    present::TextTable table({"Book", ""});
    for (const auto& [name, value] : lines) table.add({packs::plain_name(name), value});
    std::cout << table.text();
    for (const observe::Site& site : book.sites()) {
        std::cout << present::paragraph(site.name + ": " +
                                        std::to_string(book.trees(site.id).size()) + " trees");
    }
    return ExitCode::done;
}

ExitCode check(const Options& options) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    std::vector<std::string> problems = book.check();
    const RecommendationCheck recommendations = check_recommendations(options, book);
    problems.insert(problems.end(), recommendations.problems.begin(),
                    recommendations.problems.end());
    for (const std::string& problem : problems) std::cout << present::paragraph(problem, "- ");
    std::cout << present::paragraph(
        std::to_string(recommendations.same) + " recommendations came out the same again" +
        (recommendations.other_rules == 0
             ? std::string(".")
             : "; " + std::to_string(recommendations.other_rules) +
                   " were made by other rules than those at hand and were not run again (use "
                   "--rules and --preset)."));
    std::cout << (problems.empty() ? "The book is in order.\n" : "The book is not in order.\n");
    return problems.empty() ? ExitCode::done : ExitCode::finding;
}

ExitCode backup(const Options& options, const std::string& to) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    if (options.dry_run) {
        std::cout << "Would copy the book to " << to << "\n";
        return ExitCode::done;
    }
    book.backup_to(to);
    std::cout << "Copied the book to " << to << "\n";
    return ExitCode::done;
}

ExitCode restore(const Options& options, const std::string& from, bool overwrite) {
    const auto path = options.book_path();
    if (options.dry_run) {
        std::cout << "Would make " << path.string() << " the same as " << from << "\n";
        return ExitCode::done;
    }
    book::restore(from, path, overwrite ? book::IfThere::overwrite : book::IfThere::refuse);
    std::cout << "The book " << path.string() << " is now the same as " << from << "\n";
    return ExitCode::done;
}

}  // namespace

void add_book_command(CLI::App& app, Selection& selection) {
    CLI::App* command = app.add_subcommand("book", "Make, look at, check and copy the book");
    command->require_subcommand(1);
    const auto add = [&](const char* name, const char* about) {
        CLI::App* part = command->add_subcommand(name, about);
        part->fallthrough();
        return part;
    };
    add("new", "Make an empty book")->callback([&selection] { selection.action = make; });
    add("info", "What is in the book")->callback([&selection] { selection.action = info; });
    add("check", "Check the file and run every recommendation again; exit code 1 if one differs")
        ->callback([&selection] { selection.action = check; });

    auto file = std::make_shared<std::string>();
    CLI::App* copy = add("backup", "Copy the book to a new file");
    copy->add_option("to", *file, "The file to make")->required();
    copy->callback([&selection, file] {
        selection.action = [file](const Options& options) { return backup(options, *file); };
    });

    auto overwrite = std::make_shared<bool>(false);
    CLI::App* back = add("restore", "Make the book the same as a backup");
    back->add_option("from", *file, "The backup")->required();
    back->add_flag("--overwrite", *overwrite, "Replace a book that is there");
    back->callback([&selection, file, overwrite] {
        selection.action = [file, overwrite](const Options& options) {
            return restore(options, *file, *overwrite);
        };
    });
}

}  // namespace ashtriage::cli
