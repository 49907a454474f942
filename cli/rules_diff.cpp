// rules diff: which trees get another answer under another edition of the rules.
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>

#include "knowledge.hpp"
#include "packs/compare_rules.hpp"
#include "present/diff_report.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

constexpr std::string_view built_in = "built-in";

struct DiffOptions {
    std::string before;
    std::string after;
    std::string before_preset;
    std::string after_preset;
};

present::Knowledge edition(const Options& options, const std::string& rules,
                           const std::string& preset) {
    Options chosen = options;
    chosen.rules = rules == built_in ? std::nullopt : std::optional<std::filesystem::path>(rules);
    chosen.preset = preset;
    return load_knowledge(chosen);
}

std::optional<present::BookComparison> compare_book(const Options& options,
                                                    const present::Knowledge& before,
                                                    const present::Knowledge& after) {
    if (!options.book && !std::filesystem::exists(options.book_path())) return std::nullopt;
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    present::BookComparison result;
    for (const observe::Site& site : book.sites()) {
        const auto was = present::assess_property(book, before, site, options.date());
        const auto is = present::assess_property(book, after, site, options.date());
        result.trees += was.trees.size();
        for (present::AffectedTree& tree : present::affected_trees(was, is)) {
            result.affected.push_back(std::move(tree));
        }
    }
    return result;
}

ExitCode diff(const Options& options, const DiffOptions& editions) {
    const auto before = edition(options, editions.before, editions.before_preset);
    const auto after = edition(options, editions.after, editions.after_preset);
    const auto comparison = packs::compare_rules(before.judge.rules(), after.judge.rules());
    const auto book = compare_book(options, before, after);
    const present::BookComparison* trees = book ? &*book : nullptr;
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::diff_text(comparison, trees);
            break;
        case Format::csv:
            std::cout << present::diff_csv(comparison, trees);
            break;
        case Format::json:
            std::cout << present::diff_json(comparison, trees).dump(2) << "\n";
            break;
    }
    return present::differs(comparison) ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_rules_diff(CLI::App& rules, Selection& selection) {
    auto editions = std::make_shared<DiffOptions>();
    CLI::App* command = add_rules_part(
        rules, selection, "diff",
        "Which kinds of trees get another answer under another edition, and which trees of the "
        "book; exit code 1 if anything differs",
        [editions](const Options& options) { return diff(options, *editions); });
    command->add_option("before", editions->before, "A folder of rule files, or built-in")
        ->required();
    command->add_option("after", editions->after, "A folder of rule files, or built-in")
        ->required();
    command->add_option("--before-preset", editions->before_preset, "A preset for the first");
    command->add_option("--after-preset", editions->after_preset, "A preset for the second");
}

}  // namespace ashtriage::cli
