// The walk-arounds in a book, which are added and read and never changed.
#pragma once

#include <optional>
#include <vector>

#include "book/database.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

// A walk-around as it lies in the book, with the correction that took its place, if there is one.
struct FiledWalkAround {
    observe::WalkAround seen;
    std::optional<observe::WalkAroundId> superseded_by;

    friend bool operator==(const FiledWalkAround&, const FiledWalkAround&) = default;
};

// Throws measure::InputError when the tree is not in the book, or when the walk-around that is
// corrected is not one of the same tree or has been corrected before.
observe::WalkAroundId add_walk_around(Database& database, const observe::WalkAround& walk_around);

// Oldest first, superseded ones among them.
std::vector<FiledWalkAround> read_walk_arounds(const Database& database, observe::TreeId tree);
std::optional<FiledWalkAround> find_walk_around(const Database& database, observe::WalkAroundId id);
// The one of the latest date that no other has superseded; of one day the one recorded last.
std::optional<observe::WalkAround> find_latest_walk_around(const Database& database,
                                                           observe::TreeId tree);

}  // namespace ashtriage::book
