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

const SealedTable& applications_table() {
    static const SealedTable table{"applications",
                                   "application",
                                   {"id",
                                    "site",
                                    "written_on",
                                    "supersedes",
                                    "corrected_by",
                                    "corrected_on",
                                    "corrected_because",
                                    "withdraws",
                                    "work_date",
                                    "started_minutes",
                                    "finished_minutes",
                                    "utc_offset_minutes",
                                    "customer_name",
                                    "customer_address",
                                    "site_address",
                                    "location",
                                    "latitude",
                                    "longitude",
                                    "elevation_nm",
                                    "map_reference",
                                    "crop",
                                    "target_pest",
                                    "number_of_trees",
                                    "dbh_sum_nm",
                                    "area_hundredth_mm2",
                                    "length_nm",
                                    "extent_unit",
                                    "product_name",
                                    "registration_number",
                                    "establishment_number",
                                    "lot_number",
                                    "label_company",
                                    "restricted_use",
                                    "label_card",
                                    "label_card_text",
                                    "rate_amount",
                                    "rate_per",
                                    "dilution_product_tenth_pl",
                                    "dilution_product_ng",
                                    "dilution_water_tenth_pl",
                                    "planned_product_tenth_pl",
                                    "planned_product_ng",
                                    "total_product_tenth_pl",
                                    "total_product_ng",
                                    "mixed_tenth_pl",
                                    "total_mix_tenth_pl",
                                    "method",
                                    "counted_as",
                                    "equipment",
                                    "mix_load_place",
                                    "air_temperature_18000th_k",
                                    "wind_speed_mm_per_hour",
                                    "wind_from",
                                    "soil_state",
                                    "rain_forecast",
                                    "bloom_state",
                                    "assistant_training",
                                    "firm_name",
                                    "firm_address",
                                    "firm_license",
                                    "permit_number",
                                    "customer_copy_given_on",
                                    "notes"}};
    return table;
}

const SealedTable& other_uses_table() {
    static const SealedTable table{
        "other_uses",
        "other use",
        {"id", "site", "active_ingredient", "mass_ng", "used_on", "what", "counted_as",
         "supersedes", "corrected_by", "corrected_on", "corrected_because", "withdraws"}};
    return table;
}

const SealedTable& raised_allowances_table() {
    static const SealedTable table{
        "raised_allowances",
        "raised allowance",
        {"id", "site", "active_ingredient", "per_acre_ng", "reference", "jurisdiction", "expires",
         "confirmed_by", "confirmed_on", "supersedes", "corrected_by", "corrected_on",
         "corrected_because", "withdraws"}};
    return table;
}

const SealedTable& drafts_table() {
    static const SealedTable table{"drafts", "draft", {"site", "label", "answers", "updated_on"}};
    return table;
}

}  // namespace ashtriage::book
