#include "treat/record_fields.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace ashtriage::treat {

namespace {

using Record = ApplicationRecord;

// The member is not empty: a text or a list with something in it, an optional with a value.
template <auto Member>
bool filled(const Record& record) {
    const auto& value = record.*Member;
    if constexpr (requires { value.has_value(); }) {
        return value.has_value();
    } else {
        return !value.empty();
    }
}

template <auto Of, auto Member>
bool filled_of(const Record& record) {
    const auto& value = (record.*Of).*Member;
    if constexpr (requires { value.has_value(); }) {
        return value.has_value();
    } else {
        return !value.empty();
    }
}

template <auto Member>
bool on_the_calendar(const Record& record) {
    return (record.*Member).ok();
}

bool active_amounts_known(const Record& record) {
    return !record.actives.empty() &&
           std::ranges::all_of(record.actives,
                               [](const AppliedActive& active) { return active.mass.has_value(); });
}

// Air that does not move comes from nowhere.
bool wind_direction_known(const Record& record) {
    return !record.wind_from.empty() || record.wind_speed == measure::Speed{};
}

constexpr bool always = false;
constexpr bool may_not_apply = true;

constexpr std::array every_field{
    RecordField{"written_on", "the day on which the record was written", always,
                on_the_calendar<&Record::written_on>},
    RecordField{"work_date", "the date of the work", always, on_the_calendar<&Record::work_date>},
    RecordField{"start_time", "the time at which the work began", always, filled<&Record::started>},
    RecordField{"end_time", "the time at which the work ended", always, filled<&Record::finished>},
    RecordField{"utc_offset", "how far the local time is from UTC", always,
                filled<&Record::utc_offset>},
    RecordField{"customer_name", "the name of the customer", may_not_apply,
                filled<&Record::customer_name>},
    RecordField{"customer_address", "the address of the customer", may_not_apply,
                filled<&Record::customer_address>},
    RecordField{"site_address", "the address of the place of work", always,
                filled<&Record::site_address>},
    RecordField{"location", "where the trees stand, in words", always, filled<&Record::location>},
    RecordField{"position", "latitude and longitude", always, filled<&Record::position>},
    RecordField{"map_reference", "the reference on a map", may_not_apply,
                filled<&Record::map_reference>},
    RecordField{"crop", "what was treated in the label's sense, such as ornamental ash", always,
                filled<&Record::crop>},
    RecordField{"target_pest", "the pest the treatment was for", always,
                filled<&Record::target_pest>},
    RecordField{"number_of_trees", "the number of trees", always,
                [](const Record& record) { return trees_treated(record).has_value(); }},
    RecordField{"dbh_sum", "the DBH of every tree, or their sum", always,
                [](const Record& record) { return dbh_treated(record).has_value(); }},
    RecordField{"area", "the treated area with its unit", may_not_apply, filled<&Record::extent>},
    RecordField{"product_name", "the name of the product", always, filled<&Record::product_name>},
    RecordField{"registration_number", "the registration number of the product", always,
                filled<&Record::registration_number>},
    RecordField{"establishment_number", "the establishment number of the product", may_not_apply,
                filled<&Record::establishment_number>},
    RecordField{"lot_number", "the lot number of the product", may_not_apply,
                filled<&Record::lot_number>},
    RecordField{"label_company", "the company that the label names", always,
                filled<&Record::label_company>},
    RecordField{"active_ingredient", "the common name of the active ingredient", always,
                filled<&Record::actives>},
    RecordField{"restricted_use", "whether the product is for restricted use", always,
                filled<&Record::restricted_use>},
    RecordField{"rate", "the rate as the label gives it", always, filled<&Record::rate>},
    RecordField{"dilution", "product and water of the dilution", may_not_apply,
                filled<&Record::dilution>},
    RecordField{"total_product", "the total of the undiluted product", always,
                filled<&Record::total_product>},
    RecordField{"total_mix", "the total of the finished mix", may_not_apply,
                filled<&Record::total_mix>},
    RecordField{"total_active", "the total of the active ingredient", always, active_amounts_known},
    RecordField{"method", "the method of application", always, filled<&Record::method>},
    RecordField{"equipment", "the equipment", always, filled<&Record::equipment>},
    RecordField{"mix_load_place", "where the product was mixed and loaded", may_not_apply,
                filled<&Record::mix_load_place>},
    RecordField{"air_temperature", "the air temperature", may_not_apply,
                filled<&Record::air_temperature>},
    RecordField{"wind_speed", "the wind speed", may_not_apply, filled<&Record::wind_speed>},
    RecordField{"wind_direction", "where the wind came from", may_not_apply, wind_direction_known},
    RecordField{"soil_state", "the state of the soil", may_not_apply, filled<&Record::soil_state>},
    RecordField{"rain_forecast", "the forecast of rain", may_not_apply,
                filled<&Record::rain_forecast>},
    RecordField{"bloom_state", "what was in bloom", may_not_apply, filled<&Record::bloom_state>},
    RecordField{"applicator_name", "the name of the applicator", always,
                filled_of<&Record::applicator, &Person::name>},
    RecordField{"applicator_address", "the address of the applicator", may_not_apply,
                filled_of<&Record::applicator, &Person::address>},
    RecordField{"applicator_license", "the applicator's license or certification number",
                may_not_apply, filled_of<&Record::applicator, &Person::license>},
    RecordField{"applicator_license_expiry", "the day the applicator's license ends", may_not_apply,
                filled_of<&Record::applicator, &Person::license_expires>},
    RecordField{"supervisor_name", "the name of the supervisor", may_not_apply,
                filled_of<&Record::supervisor, &Person::name>},
    RecordField{"supervisor_license", "the supervisor's license or certification number",
                may_not_apply, filled_of<&Record::supervisor, &Person::license>},
    RecordField{"assistants", "the names of uncertified assistants", may_not_apply,
                filled<&Record::assistants>},
    RecordField{"assistant_training", "the proof of training of uncertified assistants",
                may_not_apply, filled<&Record::assistant_training>},
    RecordField{"firm_name", "the name of the firm", may_not_apply, filled<&Record::firm_name>},
    RecordField{"firm_address", "the address of the firm", may_not_apply,
                filled<&Record::firm_address>},
    RecordField{"firm_license", "the license of the firm", may_not_apply,
                filled<&Record::firm_license>},
    RecordField{"permit_number", "the number of the permit", may_not_apply,
                filled<&Record::permit_number>},
    RecordField{"photos", "photographs", may_not_apply, filled<&Record::photos>},
};

}  // namespace

std::span<const RecordField> record_fields() {
    return every_field;
}

const RecordField* find_record_field(std::string_view name) {
    const auto found = std::ranges::find(every_field, name, &RecordField::name);
    return found == every_field.end() ? nullptr : &*found;
}

bool said_not_to_apply(const ApplicationRecord& record, const RecordField& field) {
    const auto said = [&](std::string_view name) {
        return std::ranges::find(record.does_not_apply, name) != record.does_not_apply.end();
    };
    // Nobody who did not supervise has a license to be named.
    return said(field.name) || (field.name == "supervisor_license" && said("supervisor_name"));
}

}  // namespace ashtriage::treat
