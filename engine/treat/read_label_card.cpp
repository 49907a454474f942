#include "treat/read_label_card.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"
#include "treat/check_label_card.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

// A parser that also refuses zero.
template <class Parse>
auto more_than_zero(Parse parse) {
    return [parse](std::string_view text) {
        auto quantity = parse(text);
        if (quantity <= decltype(quantity)()) {
            throw measure::InputError(fmt::format("'{}' is not more than zero", text), {},
                                      "copy the figure from the label, or leave the entry out");
        }
        return quantity;
    };
}

const auto parse_length =
    more_than_zero([](std::string_view t) { return measure::parse_length(t); });
const auto parse_mass = more_than_zero([](std::string_view t) { return measure::parse_mass(t); });

measure::Percent parse_share(std::string_view text) {
    const auto parse = more_than_zero([](std::string_view t) { return measure::parse_percent(t); });
    const measure::Percent share = parse(text);
    if (share > measure::parse_percent("100 %")) {
        throw measure::InputError(fmt::format("'{}' is more than the whole", text), {},
                                  "a share lies between 0 and 100 %");
    }
    return share;
}

std::string parse_method(std::string_view text) {
    const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    });
    if (!plain) {
        throw measure::InputError(fmt::format("'{}' is not a method's name", text), {},
                                  "write it as the table of methods does, such as "
                                  "trunk_injection_emamectin");
    }
    return std::string(text);
}

class CardReader {
 public:
    CardReader(const Node& root, const std::string& file, const std::vector<packs::Source>& sources,
               packs::Problems& problems)
        : source_{file, problems}, top_(root, "the label card", source_), known_sources_(sources) {}

    LabelCard read(const std::string& key) {
        read_heading(key);
        read_strength();
        read_rate();
        read_mix();
        read_surfactant();
        read_dbh();
        read_limits();
        read_placing();
        read_devices();
        read_cautions();
        read_from_label();
        top_.refuse_others();
        for (const Complaint& complaint : complaints_about(card_)) {
            top_.refuse(complaint.entry, complaint.id, complaint.message, complaint.hint);
        }
        return std::move(card_);
    }

 private:
    bool dry() const { return card_.product == ProductForm::dry; }

    Fields block(const Node& node, std::string_view name) {
        return Fields(node, fmt::format("'{}' of the label card", name), source_);
    }

    // An amount of product: a weight when the product is dry, else a volume.
    std::optional<StatedAmount> product_if_present(Fields& fields, std::string_view name) {
        if (dry()) return fields.parsed_if_present(name, parse_stated_mass);
        return fields.parsed_if_present(name, parse_stated_volume);
    }
    StatedAmount product(Fields& fields, std::string_view name) {
        if (dry()) return fields.parsed(name, parse_stated_mass).value_or(StatedMass());
        return fields.parsed(name, parse_stated_volume).value_or(StatedVolume());
    }

    Per per(Fields& fields) {
        const Node* node = fields.required("per");
        if (node == nullptr) return Per::inch_dbh;
        if (node->text == "inch_girth" || node->text == "cm_girth") {
            fields.refuse(
                "per", "rate-by-girth", "a rate by girth cannot be used as one by DBH",
                "each inch of DBH is 3.14 inches of girth: multiply the amount by 3.14 and "
                "write 'per: inch_dbh', or cm for cm");
            return Per::inch_dbh;
        }
        const auto choice =
            packs::read_choice(*node, "'per' of " + fields.what(), {"inch_dbh", "cm_dbh"}, source_);
        return choice == 1 ? Per::cm_dbh : Per::inch_dbh;
    }

    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    void allow_label_as_source() {
        const packs::Source label{std::string(label_source), "The label in hand.",
                                  packs::Evidence::read};
        const auto place = std::lower_bound(
            known_sources_.begin(), known_sources_.end(), label,
            [](const packs::Source& a, const packs::Source& b) { return a.key < b.key; });
        known_sources_.insert(place, label);
    }

    void read_heading(const std::string& key) {
        card_.key = top_.text("label");
        if (!card_.key.empty() && card_.key != key) {
            top_.refuse("label", "label-not-file-name",
                        fmt::format("the card is called '{}' and its file '{}'", card_.key, key),
                        "give both the same name");
        }
        card_.example = top_.yes_no("example");
        if (!card_.example) allow_label_as_source();
        card_.title = top_.text("title");
        card_.method = top_.parsed("method", parse_method).value_or("");
        card_.application = static_cast<Application>(
            top_.choice("application",
                        {"basal_trunk_spray", "soil_drench", "soil_injection", "trunk_injection"}));
        card_.active_ingredient = top_.text("active_ingredient");
        card_.product = static_cast<ProductForm>(top_.choice("product", {"liquid", "dry"}));
        const std::vector<std::string> rules{"sum", "largest", "root_of_sum_of_squares"};
        constexpr std::array meanings{measure::StemRule::sum, measure::StemRule::largest,
                                      measure::StemRule::root_of_sum_of_squares};
        card_.several_stems = meanings[top_.choice_or("several_stems", rules, 0)];
        card_.protective_equipment = top_.text("protective_equipment");
    }

    void read_strength() {
        const Node* node = top_.mapping("strength");
        if (node == nullptr) return;
        Fields fields = block(*node, "strength");
        card_.strength.active = fields.parsed("active", parse_mass).value_or(measure::Mass());
        card_.strength.per = amount_of(product(fields, "per"));
        card_.strength.percent_by_weight =
            fields.parsed_if_present("percent_by_weight", parse_share);
        card_.strength.sources = sources(fields);
        fields.refuse_others();
    }

    void read_rate() {
        const Node* node = top_.mapping("rate");
        if (node == nullptr) return;
        Fields fields = block(*node, "rate");
        card_.rate.per = per(fields);
        card_.rate.usual = product(fields, "usual");
        card_.rate.low = product_if_present(fields, "low").value_or(card_.rate.usual);
        card_.rate.high = product_if_present(fields, "high").value_or(card_.rate.usual);
        card_.rate.sources = sources(fields);
        fields.refuse_others();
    }

    void read_mix() {
        const Node* node = top_.mapping_or_null("mix");
        if (node == nullptr) return;
        Fields fields = block(*node, "mix");
        Mix mix;
        mix.carrier = fields.text("carrier");
        mix.finished = fields.parsed("finished", parse_stated_volume).value_or(StatedVolume());
        mix.per = per(fields);
        mix.sources = sources(fields);
        fields.refuse_others();
        card_.mix = std::move(mix);
    }

    void read_surfactant() {
        const Node* node = top_.mapping_or_null("surfactant");
        if (node == nullptr) return;
        Fields fields = block(*node, "surfactant");
        Surfactant surfactant;
        surfactant.what = fields.text("what");
        if (fields.has("share") == fields.has("amount")) {
            fields.refuse("what", "surfactant-amount",
                          "a surfactant has either a 'share' of the finished volume or an 'amount' "
                          "per inch or centimetre",
                          "write one of the two, as the label does");
        }
        if (const auto share = fields.parsed_if_present("share", parse_share)) {
            surfactant.amount = *share;
        }
        if (const auto amount = fields.parsed_if_present("amount", parse_stated_volume)) {
            surfactant.amount = Surfactant::PerTrunk{*amount, per(fields)};
        }
        surfactant.sources = sources(fields);
        fields.refuse_others();
        card_.surfactant = std::move(surfactant);
    }

    void read_dbh() {
        const Node* node = top_.mapping_or_null("dbh");
        if (node == nullptr) return;
        Fields fields = block(*node, "dbh");
        card_.dbh.from = fields.parsed_if_present("from", parse_length);
        card_.dbh.to = fields.parsed_if_present("to", parse_length);
        card_.dbh.sources = sources(fields);
        fields.refuse_others();
    }

    std::optional<int> whole_number(Fields& fields, std::string_view name, int most) {
        if (!fields.has(name)) return std::nullopt;
        const double number = fields.number_or(name, 1.0, {1.0, static_cast<double>(most)});
        const int whole = static_cast<int>(number);
        if (static_cast<double>(whole) != number) {
            fields.refuse(name, "not-a-whole-number",
                          fmt::format("'{}' is {}; expected a whole number", name, number),
                          "write it without a point");
        }
        return whole;
    }

    void read_limits() {
        const Node* node = top_.mapping("limits");
        if (node == nullptr) return;
        Fields fields = block(*node, "limits");
        constexpr int most_per_year = 12;
        constexpr int most_months = 120;
        card_.limits.per_application = product_if_present(fields, "per_application");
        card_.limits.applications_per_year =
            whole_number(fields, "applications_per_year", most_per_year);
        card_.limits.again_after_months = whole_number(fields, "again_after_months", most_months);
        card_.limits.active_per_acre_per_year =
            fields.parsed_if_present("active_per_acre_per_year", parse_mass);
        card_.limits.sources = sources(fields);
        fields.refuse_others();
    }

    void read_placing() {
        if (const Node* node = top_.mapping_or_null("spray")) {
            Fields fields = block(*node, "spray");
            const auto up_to = fields.parsed("up_to", parse_length);
            card_.spray = SprayedBark{up_to.value_or(measure::Length()), sources(fields)};
            fields.refuse_others();
        }
        if (const Node* node = top_.mapping_or_null("holes")) {
            Fields fields = block(*node, "holes");
            const auto spacing = fields.parsed("spacing", parse_length);
            card_.holes = Holes{spacing.value_or(measure::Length()), sources(fields)};
            fields.refuse_others();
        }
    }

    void read_devices() {
        const Node* node = top_.mapping("measure_with");
        if (node == nullptr) return;
        Fields fields = block(*node, "measure_with");
        card_.measure_with.product = product(fields, "product");
        card_.measure_with.surfactant = fields.parsed_if_present("surfactant", parse_stated_volume);
        card_.measure_with.carrier = fields.parsed_if_present("carrier", parse_stated_volume);
        fields.refuse_others();
    }

    void read_cautions() {
        const Node* list = top_.list("cautions");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            Fields fields(item, "a caution of the label card", source_);
            if (!fields.is_mapping()) continue;
            Caution caution;
            caution.text = fields.text("text");
            caution.sources = sources(fields);
            fields.refuse_others();
            card_.cautions.push_back(std::move(caution));
        }
    }

    void read_from_label() {
        if (card_.example) {
            if (top_.optional("from_label") != nullptr) {
                top_.refuse("from_label", "example-without-label",
                            "an example card has no label behind it",
                            "leave 'from_label' out, or write 'example: no'");
            }
            return;
        }
        const Node* node = top_.mapping("from_label");
        if (node == nullptr) return;
        Fields fields = block(*node, "from_label");
        FromLabel label;
        label.product_name = fields.text("product_name");
        label.registration_number = fields.text("registration_number");
        label.signal_word = static_cast<SignalWord>(
            fields.choice("signal_word", {"danger", "warning", "caution", "none"}));
        label.restricted_use = fields.yes_no("restricted_use");
        label.re_entry = fields.text("re_entry");
        if (const auto date = fields.parsed("checked_on", measure::parse_date)) {
            label.checked_on = *date;
        }
        fields.refuse_others();
        card_.from_label = std::move(label);
    }

    packs::YamlSource source_;
    Fields top_;
    std::vector<packs::Source> known_sources_;  // by key
    LabelCard card_;
};

}  // namespace

LabelCard read_label_card(const packs::RuleFile& file, const std::vector<packs::Source>& sources,
                          packs::Problems& problems) {
    problems.add_file(file.shown_name(), file.text);
    const std::size_t before = problems.size();
    const Node root = packs::read_yaml(file.text, file.shown_name(), problems);
    // A tree that could not be read to its end would only give problems that are none.
    if (problems.size() > before) return {};
    const std::string key = std::filesystem::path(file.name).stem().string();
    return CardReader(root, file.shown_name(), sources, problems).read(key);
}

std::vector<LabelCard> read_label_cards(const std::vector<packs::RuleFile>& files,
                                        const std::vector<packs::Source>& sources) {
    packs::Problems problems;
    std::vector<LabelCard> cards;
    for (const packs::RuleFile& file : files) {
        if (!file.name.starts_with("labels/")) continue;
        cards.push_back(read_label_card(file, sources, problems));
    }
    problems.throw_if_any();
    return cards;
}

}  // namespace ashtriage::treat
