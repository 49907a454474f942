// rules copy: the rule files in use, written into a folder where they can be changed.
#include <fmt/format.h>

#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "files.hpp"
#include "measure/input_error.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/words.hpp"
#include "present/text_layout.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

namespace fs = std::filesystem;

struct Copy {
    std::string folder;
    bool replace = false;
};

void refuse_to_overwrite(const std::vector<NamedText>& files, const fs::path& folder) {
    std::vector<std::string> present;
    std::error_code error;
    for (const NamedText& file : files) {
        if (fs::exists(fs::symlink_status(file.name, error))) {
            present.push_back(file.name.lexically_relative(folder).generic_string());
        }
    }
    if (present.empty()) return;
    throw measure::InputError(
        "There are rule files here already: " + packs::joined(present, "and"), folder.string(),
        "Name another folder, or say --replace to write over them. Nothing was written.");
}

// The rules in use are read as a whole first: what cannot be read is not worth a copy.
ExitCode copy(const Options& options, const Copy& wanted) {
    const auto rules = packs::rule_files(options.rules);
    const std::string hash = packs::read_rule_set(rules).hash;
    const fs::path folder = wanted.folder;
    if (folder.empty()) {
        throw measure::InputError("The folder has no name", {},
                                  "For the folder you are in say \".\".");
    }
    std::error_code error;
    if (fs::exists(folder, error) && !fs::is_directory(folder, error)) {
        throw measure::InputError("This is a file, not a folder", wanted.folder);
    }
    std::vector<NamedText> files;
    for (const packs::RuleFile& rule : rules) files.push_back({folder / rule.name, rule.text});
    if (!wanted.replace) refuse_to_overwrite(files, folder);
    // A file there that no rules folder may hold is named before anything is written.
    if (fs::exists(folder, error)) static_cast<void>(packs::rule_files(folder));
    if (options.dry_run) {
        std::cout << present::paragraph(fmt::format(
            "{} rule files would be written into \"{}\":", files.size(), wanted.folder));
        for (const packs::RuleFile& rule : rules) std::cout << "  " << rule.name << "\n";
        return ExitCode::done;
    }
    write_files(files);
    std::cout << present::paragraph(
        fmt::format("{} rule files were written into \"{}\".", files.size(), wanted.folder));
    if (packs::read_rule_set(packs::rule_files(folder)).hash != hash) {
        std::cout << present::paragraph(
            "The folder held other rule files as well. They were left as they are, and they count "
            "too when the folder is used.");
    }
    std::cout << "\nNext: change a file with any plain-text editor, then\n"
              << fmt::format(
                     "  ashtriage rules check --rules {0}\n"
                     "  ashtriage rules test --rules {0}\n"
                     "  ashtriage rules diff built-in {0}\n",
                     shell_word(wanted.folder));
    return ExitCode::done;
}

}  // namespace

void add_rules_copy(CLI::App& rules, Selection& selection) {
    const auto wanted = std::make_shared<Copy>();
    CLI::App* part = add_rules_part(
        rules, selection, "copy", "Write the rule files in use into a folder, to change them there",
        [wanted](const Options& options) { return copy(options, *wanted); });
    part->add_option("folder", wanted->folder, "The folder; it is made if it is not there")
        ->required();
    part->add_flag("--replace", wanted->replace, "Write over rule files that are there already");
}

}  // namespace ashtriage::cli
