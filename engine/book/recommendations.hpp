// The recommendations in a book, which are added and read and never changed. Each holds what it
// rested on, so that it can be worked out again years later.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "book/database.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

using RecommendationId = std::int64_t;  // 0: not stored yet

struct StoredRecommendation {
    RecommendationId id = 0;
    observe::TreeId tree = 0;
    observe::WalkAroundId walk_around = 0;
    measure::Date date{};  // not before that of the walk-around
    std::string edition;   // of the rule set
    std::string hash;      // of the rule set
    std::string preset;
    std::vector<std::string> possible;                       // outcomes, at least one
    bool firm = false;                                       // only with one outcome
    std::vector<std::pair<std::string, std::string>> facts;  // name and value as text
    std::string reasons_json = "[]";
    std::string flags_json = "[]";

    friend bool operator==(const StoredRecommendation&, const StoredRecommendation&) = default;
};

// Throws measure::InputError when the walk-around is not one of the tree, or when something is
// missing that the recommendation could not be worked out again without.
RecommendationId add_recommendation(Database& database, const StoredRecommendation& recommendation);

// Oldest first.
std::vector<StoredRecommendation> read_recommendations(const Database& database,
                                                       observe::TreeId tree);
std::optional<StoredRecommendation> find_recommendation(const Database& database,
                                                        RecommendationId id);
// The one of the latest date; of one day the one stored last.
std::optional<StoredRecommendation> find_latest_recommendation(const Database& database,
                                                               observe::TreeId tree);

}  // namespace ashtriage::book
