// doctor: everything that someone helping would ask for.
#include <fmt/core.h>
#include <sqlite3.h>

#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "packs/cases.hpp"
#include "packs/rule_files.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

void say(const std::string& what, const std::string& answer) {
    std::cout << present::paragraph(answer, what + ": ");
}

// Runs one look; what goes wrong is an answer too.
template <class Look>
bool look(const std::string& what, Look&& take) {
    try {
        say(what, take());
        return true;
    } catch (const measure::InputError& error) {
        say(what, std::string("NOT IN ORDER. ") + error.what());
        return false;
    }
}

ExitCode run(const Options& options) {
    say("Program", "ashtriage 0.1.0");
    say("Libraries", fmt::format("SQLite {}, fmt {}", sqlite3_libversion(), FMT_VERSION));
    say("Date", options.as_of.empty() ? "today, " + measure::text(options.date())
                                      : options.as_of + " (--as-of)");
    bool well = look("Rules", [&] {
        const present::Knowledge knowledge = load_knowledge(options);
        const packs::RuleSet& rules = knowledge.judge.rules();
        std::string text = options.rules ? options.rules->string() : "built in";
        text += fmt::format("; {} facts, {} tables, {} label cards; hash {}",
                            rules.model.facts.size(), rules.model.tables.size(),
                            knowledge.cards.size(), rules.hash.substr(0, 12));
        return text;
    });
    well = look("Cases of the rules",
                [&] {
                    std::size_t failed = 0;
                    const auto results = packs::run_cases(packs::rule_files(options.rules));
                    for (const packs::CaseResult& result : results)
                        failed += result.passed() ? 0U : 1U;
                    if (failed > 0)
                        throw measure::InputError(fmt::format("{} came out otherwise", failed));
                    return fmt::format("all {} as expected", results.size());
                }) &&
           well;
    std::error_code error;
    if (!std::filesystem::exists(options.book_path(), error)) {
        say("Book", options.book_path().string() + " is not there yet");
    } else {
        well = look("Book",
                    [&] {
                        const auto book =
                            book::Book::open(options.book_path(), book::Mode::read_only);
                        const auto problems = book.check();
                        if (!problems.empty()) throw measure::InputError(problems.front());
                        const book::BookInfo info = book.info();
                        return fmt::format("{}; edition {}, {} trees, {} walk-arounds; in order",
                                           info.path.string(), info.edition, info.trees,
                                           info.walk_arounds);
                    }) &&
               well;
    }
    return well ? ExitCode::done : ExitCode::finding;
}

}  // namespace

void add_doctor_command(CLI::App& app, Selection& selection) {
    CLI::App* command =
        app.add_subcommand("doctor", "Everything that someone helping would ask for");
    command->callback(
        [&selection] { selection.action = [](const Options& options) { return run(options); }; });
}

}  // namespace ashtriage::cli
