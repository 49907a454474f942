// dose: what to measure out, for a DBH and a card, for trees of the book, or for all of a site.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/plausibility.hpp"
#include "observe/stem_text.hpp"
#include "present/card_remarks.hpp"
#include "present/text_layout.hpp"
#include "present/work_listing.hpp"
#include "treat/acre_account.hpp"
#include "treat/permission.hpp"
#include "triage/tree_facts.hpp"
#include "work_options.hpp"

namespace ashtriage::cli {

namespace {

struct DoseOptions {
    WorkOptions work;
    std::string stems;
    std::string amount;
};

ExitCode print(const Options& options, const present::PlannedWork& work) {
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::work_text(work);
            break;
        case Format::csv:
            std::cout << present::work_csv(work);
            break;
        case Format::json:
            std::cout << present::work_json(work).dump(2) << "\n";
            break;
    }
    // A tree that was asked for by name and is not dosed is a finding; of a whole site some trees
    // are never treated.
    return work.any_stop() || work.trees.empty() ? ExitCode::finding : ExitCode::done;
}

// The product that somebody means to use, held against the label.
std::optional<treat::Amount> amount_meant(const treat::LabelCard& card, const std::string& text) {
    if (text.empty()) return std::nullopt;
    return value_of("--amount", [&]() -> treat::Amount {
        if (card.product == treat::ProductForm::dry) return measure::parse_mass(text);
        return measure::parse_volume(text);
    });
}

// A slip that puts three times too much into a tree: asked about, never mended silently.
void ask_about(measure::Length dbh, const std::string& typed) {
    const auto questions = measure::questions_about_dbh(dbh, std::nullopt);
    for (const measure::DbhQuestion& question : questions) {
        std::cerr << present::paragraph(question.text, "Is this right? ");
    }
    const bool as_girth = typed.find("girth") != std::string::npos;
    if (!questions.empty() || as_girth) return;
    if (const auto question = measure::girth_question(dbh)) {
        std::cerr << present::paragraph(*question, "Is this right? ");
    }
}

ExitCode dose_for_stems(const Options& options, const DoseOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    if (asked.work.card.empty()) {
        throw measure::InputError("A dose for a DBH needs a label card", "--card",
                                  "\"ashtriage labels list\" lists them.");
    }
    const present::WorkAsked work_for = work_asked(asked.work);
    present::PlannedWork work;
    work.on = options.date();
    present::PlannedTree planned;
    planned.tree.label = asked.stems;
    planned.card = value_of("--card", [&] { return find_card(knowledge, asked.work.card); });
    const auto diameters =
        value_of("--dbh", [&] { return triage::diameters_of(observe::parse_stems(asked.stems)); });
    planned.dose = treat::dose_for(planned.card, {diameters, work_for.rate, work_for.treated_area});
    if (planned.dose.dbh) ask_about(*planned.dose.dbh, asked.stems);
    treat::IntendedUse use;
    use.on = options.date();
    use.product = amount_meant(planned.card, asked.amount);
    use.mixed_with = work_for.mixed_with;
    use.certified = work_for.certified;
    use.may_yield_food = work_for.may_yield_food;
    planned.findings = treat::findings_about(planned.card, planned.dose, use);
    for (treat::Finding& stop : present::stops_by_method(planned.card, knowledge)) {
        planned.findings.push_back(std::move(stop));
    }
    if (const auto of_the_acre = treat::acre_not_counted(planned.card)) {
        planned.findings.push_back(*of_the_acre);
    }
    work.trees.push_back(std::move(planned));
    return print(options, work);
}

ExitCode run(const Options& options, const DoseOptions& asked) {
    if (!asked.stems.empty() && !asked.work.trees.empty()) {
        throw measure::InputError("A tree and a DBH were both given", "--dbh",
                                  "Leave one out: a tree is dosed by its own measured stems.");
    }
    if (asked.stems.empty() && !asked.amount.empty()) {
        throw measure::InputError(
            "An amount is held against the label for a DBH", "--amount",
            "Give the DBH and the card with it: --dbh \"14 in\" --card CARD.");
    }
    if (!asked.stems.empty()) return dose_for_stems(options, asked);
    const present::PlannedWork work = planned_work(options, asked.work);
    const ExitCode code = print(options, work);
    return !asked.work.trees.empty() && !work.left_out.empty() ? ExitCode::finding : code;
}

}  // namespace

void add_dose_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<DoseOptions>();
    CLI::App* command = app.add_subcommand(
        "dose",
        "What to measure out: for trees of the book, for a whole site, or for a DBH and a card");
    add_work_options(*command, asked->work);
    command->add_option("--dbh", asked->stems,
                        "Stems instead of a tree: \"14 in\", \"girth 44 in\", \"10 in + 8 in\"");
    command->add_option("--amount", asked->amount,
                        "With --dbh: product that is meant to be used, held against the label");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
