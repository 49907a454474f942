// A walk-around that is not finished: what has been answered so far, kept in the book so that an
// interrupted interview goes on where it stopped.
#pragma once

#include <string>
#include <vector>

#include "observe/records.hpp"

namespace ashtriage::cli {

struct WalkDraft {
    std::string place;
    std::string observer;
    std::vector<observe::Stem> stems;
    std::vector<observe::Finding> findings;
};

std::string to_json(const WalkDraft& draft);

// Throws measure::InputError when the text is not such a draft.
WalkDraft walk_draft_from_json(const std::string& text);

}  // namespace ashtriage::cli
