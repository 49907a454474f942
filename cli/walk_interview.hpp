// The walk-around of one tree as a conversation at the terminal.
#pragma once

#include <string>

#include "book/book.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"
#include "present/assessment.hpp"
#include "prompt.hpp"
#include "walk_draft.hpp"

namespace ashtriage::cli {

struct WalkRequest {
    observe::Site site;
    std::string tree;      // label
    std::string observer;  // may be empty: it is asked
    measure::Date date{};
    bool with_assessor = false;
    bool afresh = false;  // forget an unfinished walk-around of this tree
    bool dry_run = false;
};

enum class WalkEnd { finished, stopped };

// Asks what matters, keeps a draft in the book after every answer, and files the walk-around when
// nothing that matters is left to ask. Stopped: the draft stays.
WalkEnd walk_round(Prompt& prompt, book::Book& book, const present::Knowledge& knowledge,
                   const WalkRequest& request);

// Asks for what a site needs and files it with its client; nothing when the person stops.
std::optional<observe::Site> set_up_site(Prompt& prompt, book::Book& book,
                                         const packs::RuleSet& rules, const std::string& name,
                                         bool dry_run);

}  // namespace ashtriage::cli
