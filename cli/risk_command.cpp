// risk: the published two-matrix rating for what a qualified assessor found.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "packs/value_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"
#include "triage/reasons.hpp"
#include "triage/tables.hpp"

namespace ashtriage::cli {

namespace {

struct RiskOptions {
    std::string likelihood_of_failure;
    std::string likelihood_of_impact;
    std::string consequences;
};

// Takes one of the assessor's classes into the observation.
void enter(const packs::RuleSet& rules, reason::Observation& values, std::string_view fact,
           const std::string& text, const std::string& option) {
    const auto index = rules.model.find_fact(fact);
    if (!index) throw measure::InputError("The rules have no fact \"" + std::string(fact) + "\"");
    values[*index] = value_of(option, [&] {
        return packs::parse_value(rules.model.facts[*index], rules.facts[*index], text);
    });
}

std::string outcome_name(const present::Knowledge& knowledge, const reason::Observation& values,
                         std::string_view name) {
    const auto& model = knowledge.judge.rules().model;
    const auto table = model.find_table(name);
    if (!table) throw measure::InputError("The rules have no table \"" + std::string(name) + "\"");
    const auto outcome = knowledge.judge.engine().decide(*table, values).outcome();
    return outcome ? model.tables[*table].gives[*outcome] : "not known";
}

ExitCode run(const Options& options, const RiskOptions& risk) {
    const present::Knowledge knowledge = load_knowledge(options);
    const packs::RuleSet& rules = knowledge.judge.rules();
    reason::Observation values = knowledge.judge.engine().nothing_known();
    enter(rules, values, "likelihood_of_failure", risk.likelihood_of_failure, "--failure");
    enter(rules, values, "likelihood_of_impact", risk.likelihood_of_impact, "--impact");
    enter(rules, values, "consequences", risk.consequences, "--consequences");

    const std::string both = outcome_name(knowledge, values, triage::table::failure_and_impact);
    const std::string rating = outcome_name(knowledge, values, triage::table::risk_rating);
    if (options.output_format() == Format::json) {
        std::cout << present::Json{{"failure_and_impact", both}, {"risk_rating", rating}}.dump(2)
                  << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << "failure_and_impact,risk_rating\r\n" << both << "," << rating << "\r\n";
    } else {
        std::cout << present::paragraph("Likelihood of failure and impact: " +
                                        present::outcome_words(both))
                  << present::paragraph("Risk rating: " + present::outcome_words(rating))
                  << present::paragraph(
                         "The rating is the assessor's: it holds for the stated part, target and "
                         "time frame, and only as far as the level of assessment reached.");
        for (const auto& reason :
             triage::deciding_reasons(rules, knowledge.judge.engine(), values,
                                      *rules.model.find_table(triage::table::risk_rating))) {
            for (const std::string& key : reason.sources) {
                if (const packs::Source* source = rules.find_source(key)) {
                    std::cout << present::paragraph("Source: " + source->citation);
                }
            }
            break;
        }
    }
    return ExitCode::done;
}

}  // namespace

void add_risk_command(CLI::App& app, Selection& selection) {
    auto risk = std::make_shared<RiskOptions>();
    CLI::App* command = app.add_subcommand(
        "risk", "The two-matrix risk rating for what a qualified assessor found");
    command
        ->add_option("--failure", risk->likelihood_of_failure,
                     "Likelihood of failure: improbable, possible, probable, imminent")
        ->required();
    command
        ->add_option("--impact", risk->likelihood_of_impact,
                     "Likelihood of impact: very low, low, medium, high")
        ->required();
    command
        ->add_option("--consequences", risk->consequences,
                     "Consequences: negligible, minor, significant, severe")
        ->required();
    command->callback([&selection, risk] {
        selection.action = [risk](const Options& options) { return run(options, *risk); };
    });
}

}  // namespace ashtriage::cli
