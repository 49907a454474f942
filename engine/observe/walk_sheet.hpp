// Walk-arounds written down elsewhere and read in one go: whose trees, where, and what was seen.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "observe/records.hpp"

namespace ashtriage::observe {

struct SheetTree {
    Tree tree;
    WalkAround walk_around;
    std::string place;  // in the sheet, "trees.csv:4", for messages about this tree
};

struct WalkSheet {
    std::optional<Client> client;
    std::optional<Site> site;
    std::vector<SheetTree> trees;
};

}  // namespace ashtriage::observe
