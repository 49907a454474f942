#include "book/tables.hpp"

namespace ashtriage::book {

const SealedTable& clients_table() {
    static const SealedTable table{
        "clients", "client", {"id", "name", "address", "telephone", "email"}};
    return table;
}

const SealedTable& sites_table() {
    static const SealedTable table{
        "sites",
        "site",
        {"id", "client", "name", "address", "area_hundredth_mm2", "soil", "distance_to_water_nm",
         "infestation_distance_nm", "in_quarantined_county", "latitude", "longitude",
         "elevation_nm"}};
    return table;
}

const SealedTable& trees_table() {
    static const SealedTable table{
        "trees", "tree", {"id", "site", "label", "place", "latitude", "longitude", "elevation_nm"}};
    return table;
}

const SealedTable& earlier_descriptions_table() {
    static const SealedTable table{"earlier_descriptions",
                                   "earlier description",
                                   {"id", "kind", "record", "changed_on", "description"}};
    return table;
}

const SealedTable& walk_arounds_table() {
    static const SealedTable table{"walk_arounds",
                                   "walk-around",
                                   {"id", "tree", "seen_on", "observer", "notes", "supersedes"}};
    return table;
}

const SealedTable& recommendations_table() {
    static const SealedTable table{
        "recommendations",
        "recommendation",
        {"id", "tree", "walk_around", "made_on", "rules_edition", "rules_hash", "preset",
         "possible", "firm", "facts", "reasons", "flags"}};
    return table;
}

const SealedTable& drafts_table() {
    static const SealedTable table{"drafts", "draft", {"site", "label", "answers", "updated_on"}};
    return table;
}

}  // namespace ashtriage::book
