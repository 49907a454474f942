#include "book/drafts.hpp"

#include <nlohmann/json.hpp>

#include "book/statement.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "measure/input_error.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

Draft read_draft(RowReader& row) {
    return {.site = row.integer(),
            .label = row.text(),
            .answers_json = row.text(),
            .updated = row.date()};
}

}  // namespace

void save_draft(Database& database, const Draft& draft) {
    observe::Tree tree;
    tree.label = draft.label;
    observe::check(tree);
    if (!draft.updated.ok()) throw measure::InputError("The date of a draft is not a date");
    if (!nlohmann::json::accept(draft.answers_json)) {
        throw measure::InputError("The answers of a draft are not valid JSON");
    }
    Transaction transaction{database};
    require_id(database, sites_table(), draft.site);
    delete_draft(database, draft.site, draft.label);
    Row row;
    row.add(draft.site).add(draft.label).add(draft.answers_json).add(draft.updated);
    insert(database, drafts_table(), row);
    transaction.keep();
}

std::optional<Draft> find_draft(const Database& database, observe::SiteId site,
                                std::string_view label) {
    return read_one(database, drafts_table(), "WHERE site = ? AND label = ?",
                    Row{}.add(site).add(label), read_draft);
}

std::vector<Draft> read_drafts(const Database& database) {
    return read_all(database, drafts_table(), "ORDER BY updated_on DESC, site, label", {},
                    read_draft);
}

void delete_draft(Database& database, observe::SiteId site, std::string_view label) {
    Transaction transaction{database};
    Statement{database, "DELETE FROM drafts WHERE site = ? AND label = ?"}.run(
        Row{}.add(site).add(label));
    transaction.keep();
}

}  // namespace ashtriage::book
