// labels show: one label card in words.
#include <iostream>
#include <memory>
#include <string>

#include "knowledge.hpp"
#include "labels_command.hpp"
#include "present/label_words.hpp"

namespace ashtriage::cli {

void add_labels_show(CLI::App& labels, Selection& selection) {
    const auto name = std::make_shared<std::string>();
    CLI::App* command = labels.add_subcommand("show", "One card in words, as it was typed in");
    command->fallthrough();
    command->add_option("card", *name, "The label card (\"ashtriage labels list\")")->required();
    command->callback([&selection, name] {
        selection.action = [name](const Options& options) {
            const present::Knowledge knowledge = load_knowledge(options);
            std::cout << present::label_text(find_card(knowledge, *name));
            return ExitCode::done;
        };
    });
}

}  // namespace ashtriage::cli
