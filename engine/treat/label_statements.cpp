// What a label card says beside its amounts: conditions, distances, mixing, protection, and the
// label's own statements.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "treat/label_reading.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

MonthDay parse_month_day(std::string_view text) {
    try {
        // A leap year has every day that a month may have.
        const measure::Date date = measure::parse_date("2028-" + std::string(text));
        return {static_cast<int>(static_cast<unsigned>(date.month())),
                static_cast<int>(static_cast<unsigned>(date.day()))};
    } catch (const measure::InputError&) {
        throw measure::InputError(fmt::format("'{}' is not a day of the year", text), {},
                                  "write month and day with two digits each, such as 04-15");
    }
}

void read_weather_and_soil(LabelReading& reading) {
    const Node* node = reading.top().mapping_or_null("conditions");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "conditions");
    Conditions& conditions = reading.card().conditions;
    if (const Node* season = fields.mapping_or_null("season")) {
        Fields ends = reading.block(*season, "season");
        conditions.season = LabelSeason{ends.parsed("from", parse_month_day).value_or(MonthDay()),
                                        ends.parsed("to", parse_month_day).value_or(MonthDay())};
        ends.refuse_others();
    }
    conditions.wind_to = fields.parsed_if_present(
        "wind_to", [](std::string_view text) { return measure::parse_speed(text); });
    if (const Node* temperature = fields.mapping_or_null("temperature")) {
        Fields ends = reading.block(*temperature, "temperature");
        const auto parse = [](std::string_view text) { return measure::parse_temperature(text); };
        conditions.temperature_from = ends.parsed_if_present("from", parse);
        conditions.temperature_to = ends.parsed_if_present("to", parse);
        ends.refuse_others();
    }
    constexpr int most_hours = 240;
    conditions.rain_free_hours = reading.whole_number(fields, "rain_free_hours", most_hours);
    conditions.dry_bark = fields.yes_no_or("dry_bark", false);
    if (const Node* list = fields.list_or_null("soil")) {
        for (const Node& item : list->items) {
            const auto choice =
                packs::read_choice(item, "a state in 'soil'",
                                   {"dry", "moist", "saturated", "frozen"}, fields.source());
            if (choice) conditions.soil.insert(static_cast<SoilState>(*choice));
        }
    }
    conditions.not_in_bloom = fields.yes_no_or("not_in_bloom", false);
    conditions.sources = reading.sources(fields);
    fields.refuse_others();
}

void read_buffers(LabelReading& reading) {
    const Node* list = reading.top().list_or_null("buffers");
    if (list == nullptr) return;
    for (const Node& item : list->items) {
        Fields fields(item, "a buffer of the label card", reading.top().source());
        if (!fields.is_mapping()) continue;
        Buffer buffer;
        buffer.from_what = fields.text("from");
        buffer.at_least =
            fields.parsed("at_least", parse_length_above_zero).value_or(measure::Length());
        buffer.sources = reading.sources(fields);
        fields.refuse_others();
        reading.card().buffers.push_back(std::move(buffer));
    }
}

void read_placing(LabelReading& reading) {
    if (const Node* node = reading.top().mapping_or_null("spray")) {
        Fields fields = reading.block(*node, "spray");
        const auto up_to = fields.parsed("up_to", parse_length_above_zero);
        reading.card().spray =
            SprayedBark{up_to.value_or(measure::Length()), reading.sources(fields)};
        fields.refuse_others();
    }
    if (const Node* node = reading.top().mapping_or_null("holes")) {
        Fields fields = reading.block(*node, "holes");
        Holes holes;
        holes.spacing =
            fields.parsed("spacing", parse_length_above_zero).value_or(measure::Length());
        holes.depth = fields.parsed_if_present("depth", parse_length_above_zero);
        holes.width = fields.parsed_if_present("width", parse_length_above_zero);
        holes.sources = reading.sources(fields);
        fields.refuse_others();
        reading.card().holes = std::move(holes);
    }
    if (const Node* node = reading.top().mapping_or_null("dbh")) {
        Fields fields = reading.block(*node, "dbh");
        DbhRange& dbh = reading.card().dbh;
        dbh.from = fields.parsed_if_present("from", parse_length_above_zero);
        dbh.to = fields.parsed_if_present("to", parse_length_above_zero);
        dbh.sources = reading.sources(fields);
        fields.refuse_others();
    }
}

void read_cautions(LabelReading& reading) {
    const Node* list = reading.top().list("cautions");
    if (list == nullptr) return;
    for (const Node& item : list->items) {
        Fields fields(item, "a caution of the label card", reading.top().source());
        if (!fields.is_mapping()) continue;
        Caution caution;
        caution.text = fields.text("text");
        caution.sources = reading.sources(fields);
        fields.refuse_others();
        reading.card().cautions.push_back(std::move(caution));
    }
}

// Company, product and perhaps distributor, in digits; or, in Canada, one number.
bool is_registration_number(std::string_view text) {
    std::size_t parts = 0;
    while (true) {
        const std::size_t end = std::min(text.find('-'), text.size());
        const std::string_view part = text.substr(0, end);
        if (part.empty() || part.find_first_not_of("0123456789") != std::string_view::npos) {
            return false;
        }
        ++parts;
        if (end == text.size()) return parts <= 3;
        text.remove_prefix(end + 1);
    }
}

std::string parse_registration_number(std::string_view text) {
    if (is_registration_number(text)) return std::string(text);
    throw measure::InputError(fmt::format("'{}' is not a registration number", text), {},
                              "copy the digits and hyphens after \"Reg. No.\" on the label, such "
                              "as 00000-00");
}

std::optional<SpecialNeed> special_need_of(Fields& label, const LabelReading& reading) {
    const Node* node = label.mapping_or_null("special_need");
    if (node == nullptr) return std::nullopt;
    Fields fields = reading.block(*node, "special_need");
    SpecialNeed need;
    need.jurisdiction = fields.text("jurisdiction");
    need.reference = fields.text("reference");
    need.expires = fields.parsed("expires", measure::parse_date).value_or(measure::Date());
    fields.refuse_others();
    return need;
}

}  // namespace

void read_conditions(LabelReading& reading) {
    read_placing(reading);
    read_weather_and_soil(reading);
    read_buffers(reading);
    LabelCard& card = reading.card();
    Fields& top = reading.top();
    card.never_food_trees = top.yes_no_or("never_food_trees", false);
    card.never_mix_with = top.texts_or_none("never_mix_with");
    card.mixing_order = top.texts_or_none("mixing_order");
    card.pollinators = top.texts_or_none("pollinators");
    card.protective_equipment = top.texts("protective_equipment");
    read_cautions(reading);
}

void read_label_itself(LabelReading& reading) {
    if (reading.card().example) {
        if (reading.top().optional("from_label") != nullptr) {
            reading.top().refuse("from_label", "example-without-label",
                                 "an example card has no label behind it",
                                 "leave 'from_label' out, or write 'example: no'");
        }
        return;
    }
    const Node* node = reading.top().mapping("from_label");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "from_label");
    FromLabel label;
    label.product_name = fields.text("product_name");
    label.registration_number =
        fields.parsed("registration_number", parse_registration_number).value_or("");
    label.signal_word = static_cast<SignalWord>(
        fields.choice("signal_word", {"danger", "warning", "caution", "none"}));
    label.restricted_use = fields.yes_no("restricted_use");
    label.re_entry = fields.text("re_entry");
    label.first_aid = fields.text("first_aid");
    label.sites = fields.texts("sites");
    label.sites_cover_ash = fields.yes_no("sites_cover_ash");
    label.pests = fields.texts("pests");
    label.pests_cover_borer = fields.yes_no("pests_cover_borer");
    label.other_pests_allowed = fields.yes_no_or("other_pests_allowed", false);
    label.mandatory = fields.texts_or_none("mandatory");
    label.advisory = fields.texts_or_none("advisory");
    label.storage_and_disposal = fields.text_or("storage_and_disposal", "");
    label.label_date = fields.text_or("label_date", "");
    label.special_need = special_need_of(fields, reading);
    if (const auto date = fields.parsed("checked_on", measure::parse_date)) {
        label.checked_on = *date;
    }
    fields.refuse_others();
    reading.card().from_label = std::move(label);
}

}  // namespace ashtriage::treat
