// rules show: the tables of the rules in words.
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "present/rule_tables.hpp"
#include "present/rule_tables_json.hpp"
#include "present/rule_tables_markdown.hpp"
#include "present/rule_tables_page.hpp"
#include "present/rule_tables_text.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

ExitCode show(const Options& options, const std::vector<std::string>& names) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    const present::RuleTables shown = present::rule_tables(rules, names);
    if (options.format == "json") {
        std::cout << present::rule_tables_json(shown).dump(2) << "\n";
    } else if (options.format == "markdown") {
        std::cout << present::rule_tables_markdown(shown);
    } else if (options.format == "html") {
        std::cout << present::rule_tables_page(shown);
    } else {
        std::cout << present::rule_tables_text(shown);
    }
    return ExitCode::done;
}

}  // namespace

void add_rules_show(CLI::App& rules, Selection& selection) {
    CLI::App* part = rules.add_subcommand(
        "show", "The tables of the rules in words (--format text, markdown, html or json)");
    part->fallthrough();
    const auto names = std::make_shared<std::vector<std::string>>();
    part->add_option("table", *names,
                     "The tables to show, e.g. recommendation (default: all, each after those "
                     "that feed it)");
    part->callback([&selection, names] {
        selection.formats = {"text", "markdown", "html", "json"};
        selection.action = [names](const Options& options) { return show(options, *names); };
    });
}

}  // namespace ashtriage::cli
