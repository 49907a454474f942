// labels check: whether every label card can be used, and what would be better looked at again.
#include <iostream>
#include <string>

#include "knowledge.hpp"
#include "labels_command.hpp"
#include "present/card_remarks.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

// Reading the cards refuses all that is wrong with them; what is left are remarks.
ExitCode check_labels(const Options& options) {
    const present::Knowledge knowledge = load_knowledge(options);
    std::vector<present::CardRemark> remarks;
    std::size_t examples = 0;
    for (const treat::LabelCard& card : knowledge.cards) {
        examples += card.example ? 1 : 0;
        for (present::CardRemark& remark : present::remarks_on(card, knowledge, options.date())) {
            remarks.push_back(std::move(remark));
        }
    }
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"card", "id", "remark"});
    std::string text;
    for (const present::CardRemark& remark : remarks) {
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
    command->callback([&selection] { selection.action = check_labels; });
}

}  // namespace ashtriage::cli
