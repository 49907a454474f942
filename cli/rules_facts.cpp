// rules facts: every fact and the values it can have.
#include <iostream>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

using present::csv_plain_field;
using present::csv_text_field;

ExitCode facts(const Options& options) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"fact", "expects", "worked_out", "ask"});
    present::TextTable table({"Fact", "Expects"});
    for (reason::FactIndex index = 0; index < rules.model.facts.size(); ++index) {
        const reason::Fact& fact = rules.model.facts[index];
        const packs::FactText& text = rules.facts[index];
        const std::string expected = packs::expected_text(fact, text);
        const std::string worked_out = text.asked ? "no" : "yes";
        json.push_back({{"fact", fact.name},
                        {"expects", expected},
                        {"unit", text.unit},
                        {"levels", fact.levels},
                        {"worked_out", !text.asked},
                        {"group", text.group},
                        {"ask", text.ask},
                        {"sources", text.sources}});
        csv += present::csv_row({csv_plain_field(fact.name), csv_text_field(expected), worked_out,
                                 csv_text_field(text.ask)});
        table.add({fact.name, expected + (text.asked ? "" : " (worked out, not asked)")});
    }
    if (options.output_format() == Format::json) {
        std::cout << json.dump(2) << "\n";
    } else {
        std::cout << (options.output_format() == Format::csv ? csv : table.text());
    }
    return ExitCode::done;
}

}  // namespace

void add_rules_facts(CLI::App& rules, Selection& selection) {
    add_rules_part(rules, selection, "facts",
                   "Every fact and the values it can have: the columns of a sheet", facts);
}

}  // namespace ashtriage::cli
