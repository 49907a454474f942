// rules: the rule packs. Each of its commands has a file of its own, rules_*.cpp.
#include "rules_command.hpp"

#include <utility>

namespace ashtriage::cli {

CLI::App* add_rules_part(CLI::App& rules, Selection& selection, const char* name, const char* about,
                         Action action) {
    CLI::App* part = rules.add_subcommand(name, about);
    part->fallthrough();
    part->callback([&selection, action = std::move(action)] { selection.action = action; });
    return part;
}

void add_rules_command(CLI::App& app, Selection& selection) {
    CLI::App* command =
        app.add_subcommand("rules", "The rule packs: show, check, compare, copy, test them");
    command->require_subcommand(1);
    add_rules_check(*command, selection);
    add_rules_copy(*command, selection);
    add_rules_diff(*command, selection);
    add_rules_facts(*command, selection);
    add_rules_presets(*command, selection);
    add_rules_show(*command, selection);
    add_rules_test(*command, selection);
}

}  // namespace ashtriage::cli
