// The record of an invented application with every field filled in, for tests.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "treat/application_record.hpp"
#include "treat/record_fields.hpp"

namespace ashtriage::treat::test {

// Every field is given that can be; the trees are not in any book.
inline ApplicationRecord full_record() {
    using namespace measure::units;
    const auto date = [](std::string_view text) { return measure::parse_date(text); };
    ApplicationRecord record;
    record.site = 1;
    record.written_on = date("2026-05-18");
    record.work_date = date("2026-05-18");
    record.started = parse_local_time("07:40");
    record.finished = parse_local_time("09:05");
    record.utc_offset = parse_utc_offset("-05:00");
    record.customer_name = "Orchard Trust of Sampleton — Zoë";
    record.customer_address = "1 Example Road\nSampleton";
    record.site_address = "Mill Lane 3\nSampleton";
    record.location = "row along the drive, north of the gate";
    record.position = observe::Position{44.9876, -93.25, measure::Length::of("253.4", metre)};
    record.map_reference = "sheet 4, square C7";
    record.crop = "ash tree, ornamental";
    record.target_pest = "emerald ash borer";
    record.trees = {{.tree = {},
                     .label = "A-1",
                     .dbh = measure::Length::of("14", inch),
                     .product = measure::Volume::of("6", us_fluid_ounce),
                     .mix = measure::Volume::of("116", us_fluid_ounce),
                     .rate = LabelledRate{"0.43 fl oz", "inch DBH"}},
                    {.tree = {},
                     .label = "A-2",
                     .dbh = measure::Length::of("35.1", centimetre),
                     .product = measure::Volume::of("5.5", us_fluid_ounce),
                     .mix = measure::Volume::of("100", us_fluid_ounce),
                     .rate = {}}};
    record.extent = Extent{measure::Area::of("0.25", acre), "acre"};
    record.product_name = "Invented Product 40";
    record.registration_number = "00000-000";
    record.establishment_number = "00000-XX-000";
    record.lot_number = "L 7";
    record.label_company = "Invented Company";
    record.actives = {{"dinotefuran", measure::Mass::of("70.5", gram)}};
    record.restricted_use = true;
    record.label_card = "my-card";
    record.label_card_text = "title: My card\n# as typed\n";
    record.rate = LabelledRate{"0.43 fl oz", "inch DBH"};
    record.dilution = Dilution{measure::Volume::of("6", us_fluid_ounce),
                               measure::Volume::of("110", us_fluid_ounce)};
    record.planned_product = measure::Volume::of("12", us_fluid_ounce);
    record.total_product = measure::Volume::of("11.5", us_fluid_ounce);
    record.mixed = measure::Volume::of("2", us_gallon);
    record.total_mix = measure::Volume::of("216", us_fluid_ounce);
    record.method = "basal trunk spray";
    record.counted_as = CountedUse::bark;
    record.equipment = "hand sprayer, 1 gal";
    record.mix_load_place = "yard of the firm";
    record.air_temperature = measure::Temperature::of("61", fahrenheit);
    record.wind_speed = measure::Speed::of("4", mile_per_hour);
    record.wind_from = "NW";
    record.soil_state = "moist";
    record.rain_forecast = "none for a day";
    record.bloom_state = "nothing in bloom";
    record.applicator = {"R. Éxample", "2 Example Road", "C-0001", date("2027-12-31")};
    record.supervisor = {"S. Éxample", "", "C-0002", {}};
    record.assistants = {{"T. Example", "", "", {}}};
    record.assistant_training = "training book, page 9";
    record.firm_name = "Example Tree Care";
    record.firm_address = "2 Example Road";
    record.firm_license = "F-0001";
    record.permit_number = "P-0001";
    record.customer_copy_given_on = date("2026-05-20");
    record.photos = {"a-1.jpg", "a-2.jpg"};
    record.notes = "Tag of A-2 loose.\nSeen by the owner.";
    return record;
}

// A record with nothing but what it takes to be stored.
inline ApplicationRecord bare_record() {
    ApplicationRecord record;
    record.site = 1;
    record.written_on = measure::parse_date("2026-05-18");
    record.work_date = measure::parse_date("2026-05-18");
    return record;
}

}  // namespace ashtriage::treat::test
