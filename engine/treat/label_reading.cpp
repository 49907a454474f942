#include "treat/label_reading.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

template <class Quantity>
Quantity above_zero(Quantity quantity, std::string_view text) {
    if (quantity > Quantity()) return quantity;
    throw measure::InputError(fmt::format("'{}' is not more than zero", text), {},
                              "copy the figure from the label, or leave the entry out");
}

}  // namespace

measure::Length parse_length_above_zero(std::string_view text) {
    return above_zero(measure::parse_length(text), text);
}

measure::Mass parse_mass_above_zero(std::string_view text) {
    return above_zero(measure::parse_mass(text), text);
}

measure::Percent parse_share(std::string_view text) {
    const measure::Percent share = above_zero(measure::parse_percent(text), text);
    if (share > measure::parse_percent("100 %")) {
        throw measure::InputError(fmt::format("'{}' is more than the whole", text), {},
                                  "a share lies between 0 and 100 %");
    }
    return share;
}

LabelReading::LabelReading(const Node& root, const std::string& file,
                           const std::vector<packs::Source>& sources, packs::Problems& problems)
    : source_{file, problems}, top_(root, "the label card", source_), known_sources_(sources) {}

Fields LabelReading::block(const Node& node, std::string_view name) const {
    return Fields(node, fmt::format("'{}' of the label card", name), source_);
}

void LabelReading::allow_label_as_source() {
    const packs::Source label{std::string(label_source), "The label in hand.",
                              packs::Evidence::read};
    known_sources_.insert(std::ranges::lower_bound(known_sources_, label.key, {},
                                                   [](const auto& source) { return source.key; }),
                          label);
}

SourceKeys LabelReading::sources(Fields& fields) const {
    return packs::read_source_keys(fields, "source", known_sources_);
}

std::optional<StatedAmount> LabelReading::product_if_present(Fields& fields,
                                                             std::string_view name) const {
    if (card_.product == ProductForm::dry) {
        return fields.parsed_if_present(name, parse_stated_mass);
    }
    return fields.parsed_if_present(name, parse_stated_volume);
}

StatedAmount LabelReading::product(Fields& fields, std::string_view name) const {
    const StatedAmount nothing = card_.product == ProductForm::dry ? StatedAmount(StatedMass())
                                                                   : StatedAmount(StatedVolume());
    if (fields.required(name) == nullptr) return nothing;
    return product_if_present(fields, name).value_or(nothing);
}

Basis LabelReading::basis(Fields& fields) const {
    const std::vector<std::string> names{"inch_dbh", "cm_dbh",       "inch_girth", "cm_girth",
                                         "tree",     "treated_area", "bark_area",  "finished_mix"};
    const Node* node = fields.required("per");
    if (node == nullptr) return {};
    const auto choice =
        packs::read_choice(*node, "'per' of " + fields.what(), names, fields.source());
    if (!choice) return {};
    const Per per = static_cast<Per>(*choice);
    const bool sized =
        per == Per::treated_area || per == Per::bark_area || per == Per::finished_mix;
    if (!sized && !fields.has("each")) return basis_of(per);
    return fields.parsed("each", [per](std::string_view text) { return basis_of(per, text); })
        .value_or(Basis());
}

std::optional<int> LabelReading::whole_number(Fields& fields, std::string_view name,
                                              int most) const {
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

}  // namespace ashtriage::treat
