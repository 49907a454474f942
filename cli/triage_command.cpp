// triage: recommendations for the trees of a site, or straight from a sheet without a book.
#include <csignal>
#include <fstream>
#include <iostream>
#include <memory>
#include <optional>

#include "command.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "present/listing.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/triage_stream.hpp"
#include "sheet_file.hpp"

namespace ashtriage::cli {

namespace {

struct TriageOptions {
    std::string sheet;
    std::string site;
    std::optional<std::filesystem::path> rejects;
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

// From a CSV sheet to CSV nothing has to wait for the rest of the sheet.
bool can_be_streamed(const Options& options, const TriageOptions& triage) {
    return !triage.sheet.empty() && !is_yaml_sheet(triage.sheet) &&
           options.output_format() == Format::csv;
}

std::string rows_text(std::size_t rows) {
    return std::to_string(rows) + (rows == 1 ? " row" : " rows");
}

void tell_end(const TriageOptions& triage, const present::TriageStreamEnd& end) {
    if (end.left_out > 0) {
        std::string text = std::to_string(end.left_out) + " of " + rows_text(end.rows) +
                           (end.left_out == 1 ? " was" : " were") + " left out";
        if (end.left_out > present::rows_told_in_full) {
            text += ", of which the first " + std::to_string(present::rows_told_in_full) +
                    " are told above";
        }
        text += triage.rejects ? ". They stand in " + triage.rejects->string() +
                                     " with what is wrong; mend them there and give that file next."
                               : ". With --rejects FILE they are set aside, to be mended.";
        std::cerr << present::paragraph(text);
    }
    if (end.labels_kept > 0) {
        std::cerr << present::paragraph("Only the first " + std::to_string(end.labels_kept) +
                                        " labels were kept to compare with. Whether two later "
                                        "trees have the same label was not looked at.");
    }
}

ExitCode stream(const Options& options, const TriageOptions& triage,
                const present::Knowledge& knowledge) {
    // Whoever reads the lines may stop reading; the program then ends without a word.
    std::signal(SIGPIPE, SIG_DFL);
    const bool from_standard_input = triage.sheet == "-";
    std::ifstream file;
    if (!from_standard_input) file = open_file(triage.sheet);
    std::optional<NewFile> rejects;
    if (triage.rejects) rejects.emplace(*triage.rejects);

    const auto end = present::stream_triage(
        from_standard_input ? std::cin : file,
        from_standard_input ? "standard input" : triage.sheet, knowledge, options.date(),
        {std::cout, std::cerr, rejects ? &rejects->stream() : nullptr}, present::usual_threads());
    std::cout.flush();
    if (rejects) rejects->keep();
    tell_end(triage, end);
    return end.left_out > 0 ? ExitCode::bad_input : ExitCode::done;
}

ExitCode run(const Options& options, const TriageOptions& triage) {
    const bool streamed = can_be_streamed(options, triage);
    if (triage.rejects && !streamed) {
        throw measure::InputError("Rows are left out of a CSV sheet on its way to CSV only",
                                  "--rejects", "Give it with --from SHEET.csv --format csv.");
    }
    const present::Knowledge knowledge = load_knowledge(options);
    if (streamed) return stream(options, triage, knowledge);
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
    command->add_option(
        "--from", triage->sheet,
        "A sheet of trees (.csv, .yaml; - for CSV from standard input); no book is "
        "needed and none is touched. With --format csv a CSV sheet may be of any length: "
        "rows are answered as they are read, and those that cannot be used are "
        "left out, told of on standard error, and make the exit code 3");
    command->add_option("--rejects", triage->rejects,
                        "With --from a CSV sheet and --format csv: where to write the rows that "
                        "had to be left out, each with its problem, to be mended and given again");
    command->add_option("--site", triage->site, "The site, if the book has more than one");
    command->callback([&selection, triage] {
        selection.action = [triage](const Options& options) { return run(options, *triage); };
    });
}

}  // namespace ashtriage::cli
