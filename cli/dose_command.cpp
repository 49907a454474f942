// dose: what to measure out, for a DBH and a card or for a tree of the book.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/stems.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "packs/problem.hpp"
#include "present/csv_text.hpp"
#include "present/explain_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::cli {

namespace {

struct DoseOptions {
    std::string tree;
    std::string site;
    std::string stems;
    std::string card;
    std::string rate = "usual";
};

const treat::LabelCard& card_named(const present::Knowledge& knowledge, const std::string& name) {
    std::vector<std::string> names;
    for (const treat::LabelCard& card : knowledge.cards) {
        if (card.key == name) return card;
        names.push_back(card.key);
    }
    const std::string near = packs::nearest(name, names);
    throw measure::InputError(
        "There is no label card \"" + name + "\"", "--card",
        near.empty() ? "\"ashtriage labels list\" lists them." : "Did you mean \"" + near + "\"?");
}

treat::RateLevel rate_named(const std::string& name) {
    if (name == "low") return treat::RateLevel::low;
    return name == "high" ? treat::RateLevel::high : treat::RateLevel::usual;
}

void print(const Options& options, const treat::LabelCard& card, const treat::Dose& dose) {
    present::Json amounts = present::Json::array();
    std::string csv = present::csv_row({"card", "example_card", "what", "amount", "twin"});
    for (const treat::MeasuredAmount& amount : dose.amounts) {
        amounts.push_back({{"what", amount.what}, {"amount", amount.text}, {"twin", amount.twin}});
        csv += present::csv_row({card.key, card.example ? "yes" : "no", amount.what,
                                 present::csv_plain_field(amount.text),
                                 present::csv_plain_field(amount.twin)});
    }
    if (options.output_format() == Format::json) {
        present::Json findings = present::Json::array();
        for (const treat::Finding& finding : dose.findings) {
            findings.push_back({{"id", finding.id},
                                {"stop", finding.severity == treat::Severity::stop},
                                {"text", finding.text}});
        }
        std::cout << present::Json{{"card", card.key},
                                   {"example_card", card.example},
                                   {"amounts", std::move(amounts)},
                                   {"findings", std::move(findings)}}
                         .dump(2)
                  << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << csv;
    } else {
        std::cout << present::dose_text(card, dose);
    }
}

std::vector<measure::Length> diameters_of(const std::string& text) {
    std::vector<measure::Length> diameters;
    for (const observe::Stem& stem : observe::parse_stems(text)) {
        diameters.push_back(stem.measured == observe::StemMeasure::girth
                                ? measure::diameter_from_girth(stem.length)
                                : stem.length);
    }
    return diameters;
}

// A dose is for a tree that is to be treated: for any other the answer is why not.
ExitCode dose_for_tree(const Options& options, const present::Knowledge& knowledge,
                       const DoseOptions& asked) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const observe::Site site = find_site(book, asked.site);
    const auto tree = present::assess_stored_tree(
        book, knowledge, site, find_tree(book, site, asked.tree), options.date());
    if (!tree.treatment) {
        std::string method;
        if (tree.no_method_fits()) method = "; no method fits";
        if (!tree.recommendation.method_questions.empty()) method = "; the method is still open";
        std::cout << present::paragraph("STOP: no dose for tree " + asked.tree +
                                        ". It comes out as " +
                                        present::verdict(tree.recommendation) + method + ".")
                  << present::paragraph("\"ashtriage explain " + asked.tree +
                                        "\" gives the reasons.");
        return ExitCode::finding;
    }
    if (asked.card.empty() && options.output_format() == Format::text) {
        std::cout << present::treatment_text(*tree.treatment);
        return !tree.treatment->dose || tree.treatment->dose->stopped() ? ExitCode::finding
                                                                        : ExitCode::done;
    }
    const treat::LabelCard& card = asked.card.empty() && tree.treatment->card
                                       ? *tree.treatment->card
                                       : card_named(knowledge, asked.card);
    const treat::Dose dose =
        treat::dose_for(card, {tree.facts.diameters, rate_named(asked.rate), {}});
    print(options, card, dose);
    return dose.stopped() ? ExitCode::finding : ExitCode::done;
}

ExitCode run(const Options& options, const DoseOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    if (!asked.tree.empty()) return dose_for_tree(options, knowledge, asked);
    if (asked.stems.empty() || asked.card.empty()) {
        throw measure::InputError("A dose needs a tree of the book, or a DBH and a label card", {},
                                  "For example: ashtriage dose --dbh \"12 in\" --card "
                                  "example-emamectin-trunk-injection");
    }
    const treat::LabelCard& card = card_named(knowledge, asked.card);
    const treat::Dose dose = treat::dose_for(
        card,
        {value_of("--dbh", [&] { return diameters_of(asked.stems); }), rate_named(asked.rate), {}});
    print(options, card, dose);
    return dose.stopped() ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_dose_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<DoseOptions>();
    CLI::App* command = app.add_subcommand(
        "dose", "What to measure out: for a tree of the book, or for a DBH and a label card");
    command->add_option("tree", asked->tree, "The tree's label");
    command->add_option("--site", asked->site, "The site, if the book has more than one");
    command->add_option("--dbh", asked->stems,
                        "Stems instead of a tree: \"14 in\", \"girth 44 in\", \"10 in + 8 in\"");
    command->add_option("--card", asked->card, "The label card (\"ashtriage labels list\")");
    command->add_option("--rate", asked->rate, "low, usual or high, within the card")
        ->check(CLI::IsMember({"low", "usual", "high"}))
        ->capture_default_str();
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
