// What the parts of the reader of label cards share: the card as far as it has been read, where its
// problems go, and the sources it may name.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/rule_set.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

class LabelReading {
 public:
    LabelReading(const packs::Node& root, const std::string& file,
                 const std::vector<packs::Source>& sources, packs::Problems& problems);

    packs::Fields& top() { return top_; }
    LabelCard& card() { return card_; }

    // A block of the card, "'rate' of the label card" in messages; its keys are all read by its
    // owner, who calls refuse_others().
    packs::Fields block(const packs::Node& node, std::string_view name) const;

    // A card of one's own may name the label itself as its source.
    void allow_label_as_source();
    SourceKeys sources(packs::Fields& fields) const;

    // An amount of product: a weight when the product is dry, else a volume.
    std::optional<StatedAmount> product_if_present(packs::Fields& fields,
                                                   std::string_view name) const;
    StatedAmount product(packs::Fields& fields, std::string_view name) const;
    // 'per', and 'each' where it belongs.
    Basis basis(packs::Fields& fields) const;
    // From 1 to `most`; nothing when it is missing.
    std::optional<int> whole_number(packs::Fields& fields, std::string_view name, int most) const;

 private:
    packs::YamlSource source_;
    packs::Fields top_;
    std::vector<packs::Source> known_sources_;  // by key
    LabelCard card_;
};

// Parsers that refuse what no label says.
measure::Length parse_length_above_zero(std::string_view text);
measure::Mass parse_mass_above_zero(std::string_view text);
measure::Percent parse_share(std::string_view text);  // above 0, at most 100 %

// The parts of a card; each reads its own entries and leaves the others alone.
void read_amounts(LabelReading& reading);       // strength, rate, mix, surfactant, limits, devices
void read_conditions(LabelReading& reading);    // conditions, buffers, mixing, statements
void read_label_itself(LabelReading& reading);  // from_label, or that there is none

}  // namespace ashtriage::treat
