// labels new: a blank label card with every entry explained.
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>

#include "files.hpp"
#include "labels_command.hpp"
#include "measure/input_error.hpp"
#include "present/text_layout.hpp"
#include "treat/blank_card.hpp"

namespace ashtriage::cli {

namespace {

ExitCode make(const Options& options, const std::string& name) {
    const std::string text = treat::blank_card(name);
    if (!options.rules) {
        std::cout << text;
        std::cerr << present::paragraph(
            "This is the blank card. With --rules FOLDER it is written to "
            "FOLDER/labels/" +
            name + ".yaml.");
        return ExitCode::done;
    }
    const std::filesystem::path file = *options.rules / "labels" / (name + ".yaml");
    std::error_code error;
    if (std::filesystem::exists(file, error)) {
        throw measure::InputError("There is a label card of this name already", file.string(),
                                  "Choose another name, or change that card.");
    }
    if (options.dry_run) {
        std::cerr << "Would write " << file.string() << "\n";
        return ExitCode::done;
    }
    write_files({{file, text}});
    std::cout << present::paragraph("Wrote " + file.string() +
                                    ". Fill it in from the label in your hand, then:")
              << "  ashtriage labels check --rules " << shell_word(options.rules->string()) << "\n";
    return ExitCode::done;
}

}  // namespace

void add_labels_new(CLI::App& labels, Selection& selection) {
    const auto name = std::make_shared<std::string>();
    CLI::App* command = labels.add_subcommand(
        "new", "A blank card, every entry explained: into the folder of --rules, or printed");
    command->fallthrough();
    command->add_option("name", *name, "A name for the card, such as my-basal-spray")->required();
    command->callback([&selection, name] {
        selection.action = [name](const Options& options) { return make(options, *name); };
    });
}

}  // namespace ashtriage::cli
