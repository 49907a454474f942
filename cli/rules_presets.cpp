// rules presets: the named sets of thresholds.
#include <iostream>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

using present::csv_plain_field;
using present::csv_text_field;

ExitCode presets(const Options& options) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"preset", "about"});
    std::string text;
    for (const packs::Preset& preset : rules.presets) {
        json.push_back({{"preset", preset.name}, {"about", preset.about}});
        csv += present::csv_row({csv_plain_field(preset.name), csv_text_field(preset.about)});
        text += preset.name + "\n" + present::paragraph(preset.about, "    ");
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv : text);
    }
    return ExitCode::done;
}

}  // namespace

void add_rules_presets(CLI::App& rules, Selection& selection) {
    add_rules_part(rules, selection, "presets", "The named sets of thresholds for --preset",
                   presets);
}

}  // namespace ashtriage::cli
