#include "treat/record_entries.hpp"

#include <fmt/format.h>

#include <array>
#include <initializer_list>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {

namespace units = measure::units;
using measure::InputError;
using Record = ApplicationRecord;

namespace {

// A unit in which a quantity may be written, and how many digits after the point still read well;
// those of the last unit hold every tick.
template <class Dimension>
struct Candidate {
    const measure::Unit<Dimension>& unit;
    int places;
};

template <class Dimension>
std::string exact_in(const measure::Quantity<Dimension>& quantity,
                     std::initializer_list<Candidate<Dimension>> candidates) {
    using Quantity = measure::Quantity<Dimension>;
    std::string text;
    for (const Candidate<Dimension>& candidate : candidates) {
        for (int places = 0; places <= candidate.places; ++places) {
            text = quantity.text(candidate.unit, places);
            if (Quantity::of(text, candidate.unit) == quantity) {
                return text + " " + std::string(candidate.unit.symbol());
            }
        }
    }
    return text + " " + std::string(std::rbegin(candidates)->unit.symbol());
}

}  // namespace

std::string exact_text(measure::Area area) {
    return exact_in<measure::AreaDimension>(
        area, {{units::acre, 3}, {units::square_foot, 2}, {units::square_metre, 8}});
}

std::string exact_text(measure::Temperature temperature) {
    return exact_in<measure::TemperatureDimension>(
        temperature, {{units::fahrenheit, 1}, {units::celsius, 2}, {units::fahrenheit, 4}});
}

std::string exact_text(measure::Speed speed) {
    return exact_in<measure::SpeedDimension>(
        speed,
        {{units::mile_per_hour, 1}, {units::metre_per_second, 1}, {units::kilometre_per_hour, 6}});
}

std::string exact_text(measure::Volume volume) {
    if (volume >= measure::Volume::of("1", units::us_gallon)) {
        return exact_in<measure::VolumeDimension>(
            volume, {{units::us_gallon, 2}, {units::us_fluid_ounce, 3}, {units::millilitre, 10}});
    }
    return exact_in<measure::VolumeDimension>(
        volume, {{units::us_fluid_ounce, 3}, {units::millilitre, 10}});
}

std::string exact_text(measure::Mass mass) {
    return exact_in<measure::MassDimension>(mass, {{units::gram, 9}});
}

std::string exact_text(measure::Length length) {
    return exact_in<measure::LengthDimension>(
        length,
        {{units::inch, 2}, {units::centimetre, 1}, {units::foot, 1}, {units::millimetre, 6}});
}

std::string exact_text(const Amount& amount) {
    return is_volume(amount) ? exact_text(volume_of(amount)) : exact_text(mass_of(amount));
}

namespace {

std::string text_of(const measure::Date& date) {
    return date.ok() ? measure::text(date) : std::string();
}

std::string text_of(bool yes) {
    return yes ? "yes" : "no";
}

bool parse_yes_no(std::string_view text) {
    if (text == "yes") return true;
    if (text == "no") return false;
    throw InputError(fmt::format("\"{}\" is neither yes nor no", text));
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// "44.9876, -93.25", and an elevation after it when there is one.
observe::Position parse_position(std::string_view text) {
    const std::size_t comma = text.find(',');
    if (comma == std::string_view::npos) {
        throw InputError(fmt::format("\"{}\" is not a latitude and a longitude", text), {},
                         "Write both in degrees, west negative: \"44.9876, -93.25\".");
    }
    observe::Position position;
    std::string_view rest = text.substr(comma + 1);
    const std::size_t second = rest.find(',');
    position.latitude = measure::require_number(trimmed(text.substr(0, comma)));
    position.longitude = measure::require_number(trimmed(rest.substr(0, second)));
    if (second != std::string_view::npos) {
        position.elevation = measure::parse_length(rest.substr(second + 1));
    }
    return position;
}

std::string text_of(const observe::Position& position) {
    std::string text = fmt::format("{}, {}", position.latitude, position.longitude);
    if (position.elevation) {
        text += ", " + exact_in<measure::LengthDimension>(
                           *position.elevation, {{units::foot, 1}, {units::millimetre, 6}});
    }
    return text;
}

Extent parse_extent(std::string_view text) {
    const std::size_t unit = text.find_first_not_of("0123456789.,/ ");
    const std::string called{unit == std::string_view::npos ? std::string_view{}
                                                            : text.substr(unit)};
    try {
        return {measure::parse_area(text), called};
    } catch (const InputError&) {
        return {measure::parse_length(text), called};
    }
}

// As the label counts it, in its own word for the unit.
template <class Dimension>
std::string counted_in(const measure::Quantity<Dimension>& size, const std::string& called) {
    using Quantity = measure::Quantity<Dimension>;
    const measure::Unit<Dimension>* unit = measure::find_unit<Dimension>(called);
    if (unit == nullptr) return exact_text(size);
    constexpr int most_places = 6;
    for (int places = 0; places <= most_places; ++places) {
        const std::string number = size.text(*unit, places);
        if (Quantity::of(number, *unit) == size) return fmt::format("{} {}", number, called);
    }
    return exact_text(size);
}

std::string text_of(const Extent& extent) {
    return std::visit([&](const auto& size) { return counted_in(size, extent.unit); }, extent.size);
}

Dilution parse_dilution(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) {
        throw InputError(fmt::format("\"{}\" is not product and water", text), {},
                         "Write both with a colon between: \"6 fl oz : 110 fl oz\".");
    }
    return {parse_amount(text.substr(0, colon)), measure::parse_volume(text.substr(colon + 1))};
}

std::string text_of(const Dilution& dilution) {
    return exact_text(dilution.product) + " : " + exact_text(dilution.water);
}

constexpr std::array<std::pair<std::string_view, CountedUse>, 4> counted_use_words{
    {{"soil", CountedUse::soil},
     {"bark", CountedUse::bark},
     {"injection", CountedUse::injection},
     {"other", CountedUse::other}}};

CountedUse parse_counted(std::string_view text) {
    for (const auto& [word, use] : counted_use_words) {
        if (text == word) return use;
    }
    throw InputError(fmt::format("\"{}\" is no way of counting", text), {},
                     "It can be soil, bark, injection or other.");
}

std::string text_of(CountedUse use) {
    for (const auto& [word, each] : counted_use_words) {
        if (each == use) return std::string(word);
    }
    return {};
}

int parse_count(std::string_view text) {
    const double number = measure::require_number(text);
    constexpr double most = 1'000'000;
    if (!(number >= 1 && number <= most) || number != static_cast<int>(number)) {
        throw InputError(fmt::format("\"{}\" is not a number of trees", text));
    }
    return static_cast<int>(number);
}

// Texts for every kind of member, so that an entry is one line below.
std::string shown(const std::string& text) {
    return text;
}
std::string shown(const measure::Date& date) {
    return text_of(date);
}
std::string shown(bool yes) {
    return text_of(yes);
}
std::string shown(int number) {
    return std::to_string(number);
}
std::string shown(LocalTime time) {
    return text(time);
}
std::string shown(UtcOffset offset) {
    return text(offset);
}
std::string shown(const LabelledRate& rate) {
    return text(rate);
}
std::string shown(CountedUse use) {
    return text_of(use);
}
std::string shown(const observe::Position& position) {
    return text_of(position);
}
std::string shown(const Extent& extent) {
    return text_of(extent);
}
std::string shown(const Dilution& dilution) {
    return text_of(dilution);
}
std::string shown(const Amount& amount) {
    return exact_text(amount);
}
template <class Dimension>
std::string shown(const measure::Quantity<Dimension>& quantity) {
    return exact_text(quantity);
}
template <class Value>
std::string shown(const std::optional<Value>& value) {
    return value ? shown(*value) : std::string();
}

void understand(std::string& member, std::string_view text) {
    member = text;
}
void understand(measure::Date& member, std::string_view text) {
    member = measure::parse_date(text);
}
void understand(bool& member, std::string_view text) {
    member = parse_yes_no(text);
}
void understand(int& member, std::string_view text) {
    member = parse_count(text);
}
void understand(LocalTime& member, std::string_view text) {
    member = parse_local_time(text);
}
void understand(UtcOffset& member, std::string_view text) {
    member = parse_utc_offset(text);
}
void understand(LabelledRate& member, std::string_view text) {
    member = parse_labelled_rate(text);
}
void understand(CountedUse& member, std::string_view text) {
    member = parse_counted(text);
}
void understand(observe::Position& member, std::string_view text) {
    member = parse_position(text);
}
void understand(Extent& member, std::string_view text) {
    member = parse_extent(text);
}
void understand(Dilution& member, std::string_view text) {
    member = parse_dilution(text);
}
void understand(Amount& member, std::string_view text) {
    member = parse_amount(text);
}
void understand(measure::Length& member, std::string_view text) {
    member = measure::parse_length(text);
}
void understand(measure::Volume& member, std::string_view text) {
    member = measure::parse_volume(text);
}
void understand(measure::Temperature& member, std::string_view text) {
    member = measure::parse_temperature(text);
}
void understand(measure::Speed& member, std::string_view text) {
    member = measure::parse_speed(text);
}
template <class Value>
void understand(std::optional<Value>& member, std::string_view text) {
    Value value{};
    understand(value, text);
    member = std::move(value);
}

template <auto Member>
constexpr RecordEntry entry(EntryGroup group, std::string_view name, std::string_view heading,
                            std::string_view form) {
    return {group,
            name,
            heading,
            form,
            [](const Record& record) { return shown(record.*Member); },
            [](Record& record, std::string_view text) { understand(record.*Member, text); }};
}

template <auto Of, auto Member>
constexpr RecordEntry entry_of(EntryGroup group, std::string_view name, std::string_view heading,
                               std::string_view form) {
    return {group,
            name,
            heading,
            form,
            [](const Record& record) { return shown((record.*Of).*Member); },
            [](Record& record, std::string_view text) { understand((record.*Of).*Member, text); }};
}

using enum EntryGroup;

constexpr std::array entries{
    entry<&Record::work_date>(when, "work_date", "Date of the work", "2026-05-18"),
    entry<&Record::started>(when, "start_time", "Work began", "07:40"),
    entry<&Record::finished>(when, "end_time", "Work ended", "09:05"),
    entry<&Record::utc_offset>(when, "utc_offset", "Local time from UTC", "-05:00"),
    entry<&Record::written_on>(when, "written_on", "Written down on", "2026-05-18"),

    entry<&Record::customer_name>(whom_and_where, "customer_name", "Customer", "a name"),
    entry<&Record::customer_address>(whom_and_where, "customer_address", "Customer's address",
                                     "an address"),
    entry<&Record::site_address>(whom_and_where, "site_address", "Address of the place",
                                 "an address"),
    entry<&Record::location>(whom_and_where, "location", "Where the trees stand",
                             "row along the drive, north of the gate"),
    entry<&Record::position>(whom_and_where, "position", "Latitude and longitude",
                             "44.9876, -93.25"),
    entry<&Record::map_reference>(whom_and_where, "map_reference", "Map reference",
                                  "sheet 4, square C7"),

    entry<&Record::crop>(what, "crop", "What was treated", "ash tree, ornamental"),
    entry<&Record::target_pest>(what, "target_pest", "Against", "emerald ash borer"),
    entry<&Record::number_of_trees>(what, "number_of_trees", "Number of trees",
                                    "only where the trees are not listed below"),
    entry<&Record::dbh_sum>(what, "dbh_sum", "Sum of their DBH",
                            "only where the trees are not listed below"),
    entry<&Record::extent>(what, "area", "Treated area or length", "0.25 acre"),

    entry<&Record::product_name>(product, "product_name", "Product", "as on the label"),
    entry<&Record::registration_number>(product, "registration_number", "Registration number",
                                        "as on the label"),
    entry<&Record::establishment_number>(product, "establishment_number", "Establishment number",
                                         "as on the container"),
    entry<&Record::lot_number>(product, "lot_number", "Lot number", "as on the container"),
    entry<&Record::label_company>(product, "label_company", "Company on the label",
                                  "as on the label"),
    entry<&Record::restricted_use>(product, "restricted_use", "Restricted use", "yes or no"),
    entry<&Record::label_card>(product, "label_card", "Label card", "its name"),

    entry<&Record::rate>(amount, "rate", "Rate as labelled", "0.43 fl oz per inch DBH"),
    entry<&Record::dilution>(amount, "dilution", "Dilution, product : water",
                             "6 fl oz : 110 fl oz"),
    entry<&Record::planned_product>(amount, "planned_product", "Product planned", "12 fl oz"),
    entry<&Record::total_product>(amount, "total_product", "Product used, undiluted", "11.5 fl oz"),
    entry<&Record::mixed>(amount, "mixed", "Mix that was made", "2 gal"),
    entry<&Record::total_mix>(amount, "total_mix", "Mix that was applied", "1.9 gal"),

    entry<&Record::method>(how, "method", "Method", "basal trunk spray"),
    entry<&Record::counted_as>(how, "counted_as", "Counts on the acre as",
                               "soil, bark, injection or other"),
    entry<&Record::equipment>(how, "equipment", "Equipment", "hand sprayer, 1 gal"),
    entry<&Record::mix_load_place>(how, "mix_load_place", "Mixed and loaded at",
                                   "yard of the firm"),

    entry<&Record::air_temperature>(conditions, "air_temperature", "Air temperature", "61 F"),
    entry<&Record::wind_speed>(conditions, "wind_speed", "Wind speed", "4 mph"),
    entry<&Record::wind_from>(conditions, "wind_direction", "Wind from", "NW, calm or variable"),
    entry<&Record::soil_state>(conditions, "soil_state", "Soil", "moist"),
    entry<&Record::rain_forecast>(conditions, "rain_forecast", "Rain forecast", "none for a day"),
    entry<&Record::bloom_state>(conditions, "bloom_state", "In bloom", "nothing near"),

    entry_of<&Record::applicator, &Person::name>(who, "applicator_name", "Applicator", "a name"),
    entry_of<&Record::applicator, &Person::address>(who, "applicator_address",
                                                    "Applicator's address", "an address"),
    entry_of<&Record::applicator, &Person::license>(who, "applicator_license",
                                                    "Applicator's license", "as on the license"),
    entry_of<&Record::applicator, &Person::license_expires>(who, "applicator_license_expiry",
                                                            "That license ends", "2027-12-31"),
    entry_of<&Record::supervisor, &Person::name>(who, "supervisor_name", "Supervisor", "a name"),
    entry_of<&Record::supervisor, &Person::address>(who, "supervisor_address",
                                                    "Supervisor's address", "an address"),
    entry_of<&Record::supervisor, &Person::license>(who, "supervisor_license",
                                                    "Supervisor's license", "as on the license"),
    entry_of<&Record::supervisor, &Person::license_expires>(who, "supervisor_license_expiry",
                                                            "That license ends", "2027-12-31"),
    entry<&Record::assistant_training>(who, "assistant_training", "Proof of training of assistants",
                                       "where it is kept"),
    entry<&Record::firm_name>(who, "firm_name", "Firm", "a name"),
    entry<&Record::firm_address>(who, "firm_address", "Firm's address", "an address"),
    entry<&Record::firm_license>(who, "firm_license", "Firm's license", "as on the license"),
    entry<&Record::permit_number>(who, "permit_number", "Permit number", "as on the permit"),

    entry<&Record::customer_copy_given_on>(after, "customer_copy_given_on",
                                           "Copy given to the customer on", "2026-05-20"),
    entry<&Record::notes>(after, "notes", "Notes", "anything else"),
};

}  // namespace

std::string_view words(EntryGroup group) {
    switch (group) {
        case when:
            return "When";
        case whom_and_where:
            return "For whom and where";
        case what:
            return "What was treated";
        case product:
            return "Product";
        case amount:
            return "Amounts";
        case how:
            return "How";
        case conditions:
            return "Conditions";
        case who:
            return "Who";
        case after:
            return "Afterwards";
    }
    return {};
}

std::span<const RecordEntry> record_entries() {
    return entries;
}

Amount parse_amount(std::string_view text) {
    try {
        return measure::parse_volume(text);
    } catch (const InputError& as_volume) {
        try {
            return measure::parse_mass(text);
        } catch (const InputError&) {
            // What is wrong with the number or the unit is the same either way; a bare "oz" names
            // both readings.
            throw as_volume;
        }
    }
}

LabelledRate parse_labelled_rate(std::string_view text) {
    const std::string_view per = " per ";
    const std::size_t at = text.find(per);
    if (at == std::string_view::npos || at + per.size() == text.size()) {
        throw InputError(fmt::format("\"{}\" does not say what the rate is per", text), {},
                         "Write it as the label does: \"0.43 fl oz per inch DBH\".");
    }
    LabelledRate rate{std::string(text.substr(0, at)), std::string(text.substr(at + per.size()))};
    amount_of(rate);
    return rate;
}

std::string text(const LabelledRate& rate) {
    return rate.amount + " per " + rate.per;
}

}  // namespace ashtriage::treat
