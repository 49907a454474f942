// labels check: whether every label card can be used, and what would be better looked at again.
#include <iostream>
#include <string>

#include "knowledge.hpp"
#include "labels_command.hpp"
#include "packs/problem.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "triage/tables.hpp"

namespace ashtriage::cli {

namespace {

struct Remark {
    std::string card;
    std::string id;
    std::string text;
};

constexpr int days_until_checked_again = 365;

// A method that no rule gives is a slip of the pen: the card would never be found.
std::vector<Remark> remarks_on(const treat::LabelCard& card, const present::Knowledge& knowledge,
                               const measure::Date& as_of) {
    std::vector<Remark> remarks;
    const packs::RuleSet& rules = knowledge.judge.rules();
    const auto& methods = rules.model.tables[*rules.model.find_table(triage::table::method)].gives;
    if (std::ranges::find(methods, card.method) == methods.end()) {
        const std::string near = packs::nearest_hint(card.method, methods);
        remarks.push_back({card.key, "unknown-method",
                           "No rule gives the method \"" + card.method +
                               "\", so this card is never used" +
                               (near.empty() ? "." : ": " + near + ".")});
    }
    if (card.from_label &&
        measure::days_between(card.from_label->checked_on, as_of) > days_until_checked_again) {
        remarks.push_back({card.key, "card-not-checked",
                           "Last held against the label on " +
                               measure::long_text(card.from_label->checked_on) +
                               ", more than a year ago: labels change."});
    }
    if (card.from_label && as_of < card.from_label->checked_on) {
        remarks.push_back({card.key, "checked-in-the-future",
                           "Held against the label on " +
                               measure::long_text(card.from_label->checked_on) +
                               ", which is still to come."});
    }
    return remarks;
}

// Reading the cards refuses all that is wrong with them; what is left are remarks.
ExitCode check(const Options& options) {
    const present::Knowledge knowledge = load_knowledge(options);
    std::vector<Remark> remarks;
    std::size_t examples = 0;
    for (const treat::LabelCard& card : knowledge.cards) {
        examples += card.example ? 1 : 0;
        for (Remark& remark : remarks_on(card, knowledge, options.date())) {
            remarks.push_back(std::move(remark));
        }
    }
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"card", "id", "remark"});
    std::string text;
    for (const Remark& remark : remarks) {
        json.push_back({{"card", remark.card}, {"id", remark.id}, {"remark", remark.text}});
        csv += present::csv_row({present::csv_plain_field(remark.card), remark.id,
                                 present::csv_text_field(remark.text)});
        text += present::paragraph(remark.text, remark.card + ": ");
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << csv;
    } else {
        std::cout << text
                  << present::paragraph(std::to_string(knowledge.cards.size()) + " cards read, " +
                                        std::to_string(examples) +
                                        " of them examples. That a card can be read does not make "
                                        "it right: hold it against the label in your hand.");
    }
    return remarks.empty() ? ExitCode::done : ExitCode::finding;
}

}  // namespace

void add_labels_check(CLI::App& labels, Selection& selection) {
    CLI::App* command = labels.add_subcommand(
        "check", "Refuse cards that make no sense, and name those to be looked at again");
    command->fallthrough();
    command->callback([&selection] { selection.action = check; });
}

}  // namespace ashtriage::cli
