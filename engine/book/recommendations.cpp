#include "book/recommendations.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "book/book_error.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "book/walk_arounds.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {

namespace {

using StoredJson = nlohmann::json;

// Held to the same rule as every other text in the book: UTF-8 without zero bytes.
StoredJson checked(const std::string& text) {
    Row{}.add(text);
    return StoredJson(text);
}

std::string possible_text(const StoredRecommendation& recommendation) {
    StoredJson list = StoredJson::array();
    for (const std::string& outcome : recommendation.possible) list.push_back(checked(outcome));
    return list.dump();
}

std::string facts_text(const StoredRecommendation& recommendation) {
    StoredJson list = StoredJson::array();
    for (const auto& [name, value] : recommendation.facts) {
        list.push_back(StoredJson::array({checked(name), checked(value)}));
    }
    return list.dump();
}

Row cells_of(const StoredRecommendation& recommendation) {
    Row row;
    row.add(recommendation.id).add(recommendation.tree).add(recommendation.walk_around);
    row.add(recommendation.date).add(recommendation.edition).add(recommendation.hash);
    row.add(recommendation.preset).add(possible_text(recommendation)).add(recommendation.firm);
    row.add(facts_text(recommendation));
    row.add(recommendation.reasons_json).add(recommendation.flags_json);
    return row;
}

template <class List>
List list_from(const std::string& text, const Database& database) {
    try {
        return StoredJson::parse(text).get<List>();
    } catch (const StoredJson::exception&) {
        throw_damaged(database, recommendations_table().record, "");
    }
}

auto reader_of(const Database& database) {
    return [&database](RowReader& row) {
        using Facts = std::vector<std::pair<std::string, std::string>>;
        return StoredRecommendation{
            .id = row.integer(),
            .tree = row.integer(),
            .walk_around = row.integer(),
            .date = row.date(),
            .edition = row.text(),
            .hash = row.text(),
            .preset = row.text(),
            .possible = list_from<std::vector<std::string>>(row.text(), database),
            .firm = row.flag(),
            .facts = list_from<Facts>(row.text(), database),
            .reasons_json = row.text(),
            .flags_json = row.text()};
    };
}

[[noreturn]] void refuse(const std::string& what) {
    throw measure::InputError(fmt::format("A recommendation cannot be stored: {}", what));
}

void check(const StoredRecommendation& recommendation) {
    if (recommendation.possible.empty()) refuse("it names no outcome");
    if (recommendation.firm && recommendation.possible.size() != 1) {
        refuse("it is called firm and names more than one outcome");
    }
    if (recommendation.edition.empty() || recommendation.hash.empty()) {
        refuse("the edition or the hash of its rules is missing");
    }
    if (!recommendation.date.ok()) refuse("its date is not a date");
    if (!StoredJson::accept(recommendation.reasons_json)) refuse("its reasons are not valid JSON");
    if (!StoredJson::accept(recommendation.flags_json))
        refuse("its hazard flags are not valid JSON");
}

void check_walk_around(const Database& database, const StoredRecommendation& recommendation) {
    const std::optional<FiledWalkAround> walk_around =
        find_walk_around(database, recommendation.walk_around);
    if (!walk_around || walk_around->seen.tree != recommendation.tree) {
        refuse(fmt::format("there is no walk-around number {} of tree number {} in the book",
                           recommendation.walk_around, recommendation.tree));
    }
    if (recommendation.date < walk_around->seen.date) {
        refuse(fmt::format("it is dated {}, before the walk-around of {} that it rests on",
                           measure::text(recommendation.date),
                           measure::text(walk_around->seen.date)));
    }
}

}  // namespace

RecommendationId add_recommendation(Database& database,
                                    const StoredRecommendation& recommendation) {
    check(recommendation);
    Transaction transaction{database};
    check_walk_around(database, recommendation);
    StoredRecommendation stored = recommendation;
    stored.id = next_id(database, recommendations_table().name);
    insert(database, recommendations_table(), cells_of(stored));
    transaction.keep();
    return stored.id;
}

std::vector<StoredRecommendation> read_recommendations(const Database& database,
                                                       observe::TreeId tree) {
    return read_all(database, recommendations_table(), "WHERE tree = ? ORDER BY made_on, id",
                    Row{}.add(tree), reader_of(database));
}

std::optional<StoredRecommendation> find_recommendation(const Database& database,
                                                        RecommendationId id) {
    return read_one(database, recommendations_table(), "WHERE id = ?", Row{}.add(id),
                    reader_of(database));
}

std::optional<StoredRecommendation> find_latest_recommendation(const Database& database,
                                                               observe::TreeId tree) {
    return read_one(database, recommendations_table(),
                    "WHERE tree = ? ORDER BY made_on DESC, id DESC LIMIT 1", Row{}.add(tree),
                    reader_of(database));
}

}  // namespace ashtriage::book
