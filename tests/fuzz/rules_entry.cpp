#include <algorithm>
#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "entries.hpp"
#include "fixed_files.hpp"
#include "judged_tree.hpp"
#include "packs/cases.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "refusal.hpp"
#include "season/read_seasons.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::fuzz {

namespace {

constexpr std::string_view file_mark = "#file ";
constexpr std::string_view first_file = "pack.yaml";

void put(std::vector<packs::RuleFile>& files, std::string_view name, std::string_view text) {
    const auto same = std::find_if(files.begin(), files.end(),
                                   [&](const auto& file) { return file.name == name; });
    if (same != files.end()) {
        same->text = text;
    } else {
        files.push_back({std::string(name), std::string(text), {}});
    }
}

std::vector<packs::RuleFile> files_of(std::string_view bytes) {
    std::vector<packs::RuleFile> files = fixed_files();
    std::string_view name = first_file;
    std::size_t start = 0;
    for (std::size_t line = 0; line < bytes.size();) {
        const std::size_t end = std::min(bytes.find('\n', line), bytes.size());
        const std::string_view text = bytes.substr(line, end - line);
        if (text.starts_with(file_mark)) {
            if (line > start) put(files, name, bytes.substr(start, line - start));
            name = text.substr(file_mark.size());
            if (name.empty()) name = first_file;
            start = std::min(end + 1, bytes.size());
        }
        line = end + 1;
    }
    if (start < bytes.size()) put(files, name, bytes.substr(start));
    return files;
}

bool holds_labels(const std::vector<packs::RuleFile>& files) {
    return std::any_of(files.begin(), files.end(), [](const packs::RuleFile& file) {
        return file.name.starts_with("labels/");
    });
}

}  // namespace

Refusal read_rules(std::string_view bytes) {
    const std::vector<packs::RuleFile> files = files_of(bytes);
    packs::RuleSet rules;
    Refusal refusal = refusal_of(bytes, [&] {
        rules = packs::read_rule_set(files, {}, packs::Reading::rules_and_cases);
        if (packs::find_rule_file(files, "seasons.yaml") != nullptr) {
            season::read_seasons(files, rules.sources);
        }
        if (holds_labels(files)) treat::read_label_cards(files, rules.sources);
    });
    if (refusal) return refusal;

    // Whatever has been read can be used, so that nothing may be refused any more.
    packs::run_cases(files);
    judge_a_tree(rules, bytes.size());
    for (const packs::Preset& preset : rules.presets) {
        judge_a_tree(packs::read_rule_set(files, preset.name), bytes.size());
    }
    return refusal;
}

}  // namespace ashtriage::fuzz
