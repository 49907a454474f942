// labels: cards on which the labels in the user's hand are written down.
#include "labels_command.hpp"

namespace ashtriage::cli {

void add_labels_command(CLI::App& app, Selection& selection) {
    CLI::App* labels = app.add_subcommand(
        "labels", "Label cards: what a label allows, typed in from the label in hand");
    labels->require_subcommand(1);
    add_labels_list(*labels, selection);
    add_labels_show(*labels, selection);
    add_labels_new(*labels, selection);
    add_labels_check(*labels, selection);
}

}  // namespace ashtriage::cli
