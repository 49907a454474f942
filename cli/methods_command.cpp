// methods: every method of treatment for a tree, ranked, with what speaks for and against each.
#include <algorithm>
#include <iostream>
#include <memory>
#include <utility>

#include "command.hpp"
#include "knowledge.hpp"
#include "known_year.hpp"
#include "measure/input_error.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "present/method_comparison.hpp"
#include "sheet_file.hpp"
#include "triage/tables.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::cli {

namespace {

struct MethodsOptions {
    std::string tree;
    std::string site;
    std::string sheet;
    std::vector<std::string> known;
    bool client = false;
    KnownYearOptions year;
};

// "soil_state: frozen". Throws measure::InputError for a fact or a value that there is not.
observe::Finding read_known(const packs::RuleSet& rules, const std::string& text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) {
        throw measure::InputError("\"" + text + "\" is not a fact and its value", {},
                                  "Write it as \"soil_state: moist\".");
    }
    observe::Finding finding{std::string(packs::trimmed(text.substr(0, colon))),
                             std::string(packs::trimmed(text.substr(colon + 1)))};
    const reason::FactIndex fact = triage::fact_named(rules, finding.fact);
    if (finding.fact == triage::fact::dbh) {
        throw measure::InputError("The DBH comes from the stems as they were measured", {},
                                  "Walk round the tree again, or correct the sheet.");
    }
    static_cast<void>(
        packs::parse_value(rules.model.facts[fact], rules.facts[fact], finding.value));
    return finding;
}

// What was not recorded is added; what was, stays.
void add_known(const packs::RuleSet& rules, const std::vector<observe::Finding>& known,
               const std::string& label, observe::WalkAround& walk_around) {
    for (const observe::Finding& finding : known) {
        auto& findings = walk_around.findings;
        const auto recorded = std::ranges::find(findings, finding.fact, &observe::Finding::fact);
        if (recorded == findings.end()) {
            findings.push_back(finding);
            continue;
        }
        const reason::FactIndex fact = *rules.model.find_fact(finding.fact);
        const reason::Value value =
            packs::parse_value(rules.model.facts[fact], rules.facts[fact], recorded->value);
        if (!value.is_unknown()) {
            throw measure::InputError("\"" + finding.fact + "\" was recorded of the tree \"" +
                                          label + "\" as \"" + recorded->value + "\"",
                                      "--know",
                                      "Say here only what was not recorded. What is wrong is "
                                      "corrected by another walk-around.");
        }
        recorded->value = finding.value;
    }
}

class Comparison {
 public:
    Comparison(const Options& options, const MethodsOptions& asked)
        : options_(options),
          asked_(asked),
          knowledge_(load_knowledge_of_year(options, asked.year)) {
        for (const std::string& text : asked.known) {
            known_.push_back(value_of("--know", [&] { return read_known(rules(), text); }));
        }
    }

    const packs::RuleSet& rules() const { return knowledge_.judge.rules(); }

    std::vector<present::ComparedTree> trees() const {
        return asked_.sheet.empty() ? trees_of_book() : trees_of_sheet();
    }

 private:
    // What was recorded of the site is no more overruled here than what was of the tree.
    void refuse_what_is_known_of_the_site(const observe::Site* site, const observe::Tree& tree,
                                          const observe::WalkAround& walk_around) const {
        if (known_.empty()) return;
        const triage::TreeFacts facts =
            present::assess_tree(knowledge_, site, tree, walk_around, nullptr, options_.date())
                .facts;
        for (const observe::Finding& finding : known_) {
            const reason::Value& value = facts.values[*rules().model.find_fact(finding.fact)];
            const bool of_the_tree =
                std::ranges::find(walk_around.findings, finding.fact, &observe::Finding::fact) !=
                walk_around.findings.end();
            if (of_the_tree || value.is_unknown() || value.is_not_applicable()) continue;
            throw measure::InputError(
                "\"" + finding.fact + "\" was recorded of the site of \"" + tree.label + "\"",
                "--know",
                "Say here only what was not recorded. What is wrong is "
                "corrected where it was recorded.");
        }
    }

    present::ComparedTree compared(const observe::Site* site, const observe::Tree& tree,
                                   observe::WalkAround walk_around) const {
        refuse_what_is_known_of_the_site(site, tree, walk_around);
        add_known(rules(), known_, tree.label, walk_around);
        return present::compare_methods_for(
            knowledge_, site,
            present::assess_tree(knowledge_, site, tree, walk_around, nullptr, options_.date()),
            options_.date());
    }

    std::vector<present::ComparedTree> trees_of_book() const {
        const auto book = book::Book::open(options_.book_path(), book::Mode::read_only);
        const observe::Site site = find_site(book, asked_.site);
        std::vector<present::TreeAssessment> assessed;
        if (asked_.tree.empty()) {
            assessed = assessed_trees(options_, knowledge_, {}, site.name);
        } else {
            assessed.push_back(present::assess_stored_tree(
                book, knowledge_, site, find_tree(book, site, asked_.tree), options_.date()));
        }
        std::vector<present::ComparedTree> trees;
        for (const present::TreeAssessment& tree : assessed) {
            trees.push_back(compared(&site, tree.tree, tree.walk_around));
        }
        return trees;
    }

    std::vector<present::ComparedTree> trees_of_sheet() const {
        const observe::WalkSheet sheet = read_sheet_file(asked_.sheet, rules(), options_.date());
        std::vector<present::ComparedTree> trees;
        std::vector<std::string> labels;
        for (const observe::SheetTree& entry : sheet.trees) {
            labels.push_back(entry.tree.label);
            if (!asked_.tree.empty() && entry.tree.label != asked_.tree) continue;
            try {
                trees.push_back(
                    compared(sheet.site ? &*sheet.site : nullptr, entry.tree, entry.walk_around));
            } catch (const measure::InputError& error) {
                throw error.at(entry.place);
            }
        }
        if (trees.empty() && !asked_.tree.empty())
            throw not_in_sheet(asked_.sheet, asked_.tree, labels);
        return trees;
    }

    const Options& options_;
    const MethodsOptions& asked_;
    present::Knowledge knowledge_;
    std::vector<observe::Finding> known_;
};

ExitCode run(const Options& options, const MethodsOptions& asked) {
    const Comparison comparison(options, asked);
    const auto trees = comparison.trees();
    if (options.output_format() == Format::csv) {
        std::cout << present::methods_csv(trees);
    } else if (options.output_format() == Format::json) {
        std::cout << present::methods_json(trees, comparison.rules()).dump(2) << "\n";
    } else if (asked.client) {
        std::cout << present::methods_for_owner(trees);
    } else {
        std::cout << present::methods_text(trees, comparison.rules());
    }
    // A tree that was asked for by name and for which no method is left is a finding.
    const bool found =
        !asked.tree.empty() && std::ranges::none_of(trees, present::has_ranked_method);
    return found ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_methods_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<MethodsOptions>();
    CLI::App* command = app.add_subcommand(
        "methods",
        "Every method of treatment for a tree, ranked: what speaks for it, against it, or rules it "
        "out; exit code 1 if none is left for the tree named");
    command->add_option("tree", asked->tree, "The tree's label; without it all trees");
    command->add_option("--site", asked->site, "The site, if the book has more than one");
    command->add_option("--from", asked->sheet, "Take the trees from a sheet instead of the book");
    add_known_year_options(*command, asked->year);
    command
        ->add_option("--know", asked->known,
                     "What was not recorded, such as \"soil_state: moist\"; may be repeated")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    command->add_flag("--client", asked->client, "In plain words for the owner");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
