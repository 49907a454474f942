// rules facts: every fact and the values it can have.
#include <iostream>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "present/fact_listing.hpp"
#include "rules_command.hpp"

namespace ashtriage::cli {

namespace {

ExitCode facts(const Options& options) {
    const auto rules = packs::read_rule_set(packs::rule_files(options.rules), options.preset);
    if (options.output_format() == Format::json) {
        std::cout << present::facts_json(rules).dump(2) << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << present::facts_csv(rules);
    } else {
        std::cout << present::facts_text(rules);
    }
    return ExitCode::done;
}

}  // namespace

void add_rules_facts(CLI::App& rules, Selection& selection) {
    add_rules_part(rules, selection, "facts",
                   "Every fact and the values it can have: the columns of a sheet", facts);
}

}  // namespace ashtriage::cli
