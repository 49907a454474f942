// labels list: the label cards at hand.
#include <iostream>

#include "knowledge.hpp"
#include "labels_command.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

ExitCode list(const Options& options) {
    const present::Knowledge knowledge = load_knowledge(options);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"card", "method", "active_ingredient", "example", "title"});
    present::TextTable table({"Card", "What it is"});
    for (const treat::LabelCard& card : knowledge.cards) {
        json.push_back({{"card", card.key},
                        {"method", card.method},
                        {"active_ingredient", card.active_ingredient},
                        {"example", card.example},
                        {"title", card.title}});
        csv += present::csv_row({present::csv_plain_field(card.key),
                                 present::csv_plain_field(card.method),
                                 present::csv_plain_field(card.active_ingredient),
                                 card.example ? "yes" : "no", present::csv_text_field(card.title)});
        table.add({card.key, (card.example ? "EXAMPLE: " : "") + card.title});
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << csv;
    } else {
        std::cout
            << table.text() << "\n"
            << present::paragraph(
                   "An example card shows how a card is filled in; nothing may be applied by "
                   "it. Copy your own label onto a card of your own: \"ashtriage labels new\" "
                   "begins one.");
    }
    return ExitCode::done;
}

}  // namespace

void add_labels_list(CLI::App& labels, Selection& selection) {
    CLI::App* command = labels.add_subcommand("list", "Every label card, examples marked");
    command->fallthrough();
    command->callback([&selection] { selection.action = list; });
}

}  // namespace ashtriage::cli
