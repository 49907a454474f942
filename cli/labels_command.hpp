// The commands of `labels`, one file each.
#pragma once

#include "command.hpp"

namespace ashtriage::cli {

void add_labels_check(CLI::App& labels, Selection& selection);
void add_labels_list(CLI::App& labels, Selection& selection);
void add_labels_new(CLI::App& labels, Selection& selection);
void add_labels_show(CLI::App& labels, Selection& selection);

}  // namespace ashtriage::cli
