// The amounts of a label card: strength, rate, mix, surfactant, limits, and what measures them.
#include <fmt/format.h>

#include <utility>

#include "treat/label_reading.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

Strength strength_of(Fields& fields, const LabelReading& reading) {
    Strength strength;
    strength.active = fields.parsed("active", parse_mass_above_zero).value_or(measure::Mass());
    strength.per = amount_of(reading.product(fields, "per"));
    strength.percent_by_weight = fields.parsed_if_present("percent_by_weight", parse_share);
    strength.sources = reading.sources(fields);
    return strength;
}

void read_strengths(LabelReading& reading) {
    if (const Node* node = reading.top().mapping("strength")) {
        Fields fields = reading.block(*node, "strength");
        reading.card().strength = strength_of(fields, reading);
        fields.refuse_others();
    }
    const Node* others = reading.top().list_or_null("other_active_ingredients");
    if (others == nullptr) return;
    for (const Node& item : others->items) {
        Fields fields(item, "another active ingredient of the label card", reading.top().source());
        if (!fields.is_mapping()) continue;
        std::string name = fields.text("name");
        reading.card().other_actives.push_back({std::move(name), strength_of(fields, reading)});
        fields.refuse_others();
    }
}

Rate rate_of(Fields& fields, const LabelReading& reading) {
    Rate rate;
    rate.usual = reading.product(fields, "usual");
    rate.low = reading.product_if_present(fields, "low").value_or(rate.usual);
    rate.high = reading.product_if_present(fields, "high").value_or(rate.usual);
    return rate;
}

std::vector<RateClass> classes_of(const Node& list, const LabelReading& reading,
                                  const packs::YamlSource& source) {
    std::vector<RateClass> classes;
    for (const Node& item : list.items) {
        Fields fields(item, "a class of the rate", source);
        if (!fields.is_mapping()) continue;
        RateClass line;
        line.to = fields.parsed_if_present("to", parse_length_above_zero);
        line.rate = rate_of(fields, reading);
        const bool ended = !classes.empty() && !classes.back().to;
        const bool rises = classes.empty() || ended || !line.to || *classes.back().to < *line.to;
        if (ended || !rises) {
            fields.refuse("to", "classes-out-of-order",
                          "the classes of the rate do not rise: each ends at a larger DBH than the "
                          "one before it, and only the last may have no end",
                          "put them in the order of the label's table");
        }
        fields.refuse_others();
        classes.push_back(line);
    }
    return classes;
}

void read_rate(LabelReading& reading) {
    const Node* node = reading.top().mapping("rate");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "rate");
    Rates& rates = reading.card().rates;
    rates.per = reading.basis(fields);
    if (const Node* list = fields.list_or_null("classes")) {
        rates.classes = classes_of(*list, reading, fields.source());
    } else {
        rates.classes = {{std::nullopt, rate_of(fields, reading)}};
    }
    rates.sources = reading.sources(fields);
    fields.refuse_others();
}

void read_mix(LabelReading& reading) {
    const Node* node = reading.top().mapping_or_null("mix");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "mix");
    Mix mix;
    mix.carrier = fields.text("carrier");
    if (fields.has("finished") == fields.has("carrier_amount")) {
        fields.refuse("carrier", "mix-stated-twice",
                      "a mix has either a 'finished' volume or a 'carrier_amount'",
                      "write the one that the label states");
    }
    mix.stated = fields.has("carrier_amount") ? Mix::Stated::carrier : Mix::Stated::finished;
    for (const std::string_view name : {"finished", "carrier_amount"}) {
        if (const auto volume = fields.parsed_if_present(name, parse_stated_volume)) {
            mix.volume = *volume;
        }
    }
    mix.per = reading.basis(fields);
    mix.sources = reading.sources(fields);
    fields.refuse_others();
    reading.card().mix = std::move(mix);
}

void read_surfactant(LabelReading& reading) {
    const Node* node = reading.top().mapping_or_null("surfactant");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "surfactant");
    Surfactant surfactant;
    surfactant.what = fields.text("what");
    if (fields.has("share") == fields.has("amount")) {
        fields.refuse("what", "surfactant-amount",
                      "a surfactant has either a 'share' of the finished volume or an 'amount' "
                      "with what it is 'per'",
                      "write one of the two, as the label does");
    }
    if (const auto share = fields.parsed_if_present("share", parse_share)) {
        surfactant.share = *share;
    }
    if (const auto amount = fields.parsed_if_present("amount", parse_stated_volume)) {
        surfactant.share = Surfactant::Amount{*amount, reading.basis(fields)};
    }
    surfactant.sources = reading.sources(fields);
    fields.refuse_others();
    reading.card().surfactant = std::move(surfactant);
}

std::set<CountedUse> counted_uses(Fields& fields) {
    const std::vector<std::string> names{"soil", "bark", "injection", "other"};
    std::set<CountedUse> counted;
    if (const Node* list = fields.list_or_null("counting")) {
        for (const Node& item : list->items) {
            const auto choice =
                packs::read_choice(item, "a use in 'counting'", names, fields.source());
            if (choice) counted.insert(static_cast<CountedUse>(*choice));
        }
    }
    if (counted.empty()) {
        for (std::size_t i = 0; i < names.size(); ++i) counted.insert(static_cast<CountedUse>(i));
    }
    return counted;
}

void read_limits(LabelReading& reading) {
    const Node* node = reading.top().mapping("limits");
    if (node == nullptr) return;
    Fields fields = reading.block(*node, "limits");
    constexpr int most_per_year = 12;
    constexpr int most_months = 120;
    constexpr int most_days = 3650;
    Limits& limits = reading.card().limits;
    limits.per_application = reading.product_if_present(fields, "per_application");
    limits.applications_per_year =
        reading.whole_number(fields, "applications_per_year", most_per_year);
    limits.again_after_months = reading.whole_number(fields, "again_after_months", most_months);
    limits.again_after_days = reading.whole_number(fields, "again_after_days", most_days);
    limits.active_per_acre_per_year =
        fields.parsed_if_present("active_per_acre_per_year", parse_mass_above_zero);
    limits.counted = counted_uses(fields);
    limits.sources = reading.sources(fields);
    fields.refuse_others();
}

void read_devices(LabelReading& reading) {
    if (const Node* node = reading.top().mapping("measure_with")) {
        Fields fields = reading.block(*node, "measure_with");
        Devices& devices = reading.card().measure_with;
        devices.product = reading.product(fields, "product");
        devices.surfactant = fields.parsed_if_present("surfactant", parse_stated_volume);
        devices.carrier = fields.parsed_if_present("carrier", parse_stated_volume);
        fields.refuse_others();
    }
    const Node* containers = reading.top().list_or_null("containers");
    if (containers == nullptr) return;
    const bool dry = reading.card().product == ProductForm::dry;
    for (const Node& item : containers->items) {
        const auto text = packs::read_text(item, "a size in 'containers'", reading.top().source());
        if (!text) continue;
        try {
            reading.card().containers.push_back(dry ? StatedAmount(parse_stated_mass(*text))
                                                    : StatedAmount(parse_stated_volume(*text)));
        } catch (const measure::InputError& error) {
            reading.top().source().refuse("bad-value", item.place,
                                          fmt::format("'containers': {}", error.what()),
                                          error.hint());
        }
    }
}

}  // namespace

void read_amounts(LabelReading& reading) {
    read_strengths(reading);
    read_rate(reading);
    read_mix(reading);
    read_surfactant(reading);
    read_limits(reading);
    read_devices(reading);
}

}  // namespace ashtriage::treat
