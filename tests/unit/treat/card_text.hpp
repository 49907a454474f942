// Label cards for tests: invented products, read through the one reader there is.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::treat::test {

inline const std::string sprayed_liquid = R"(label: invented-spray
example: no
title: Invented liquid, basal trunk spray
method: basal_spray_invented
application: basal_trunk_spray
active_ingredient: inventine
product: liquid
strength: {active: 100 g, per: 1 L, source: label}
rate: {per: inch_dbh, low: 0.4 fl oz, usual: 0.43 fl oz, high: 0.5 fl oz, source: label}
mix: {carrier: water, finished: 8.3 fl oz, per: inch_dbh, source: label}
surfactant: {what: organosilicone surfactant, amount: 0.65 mL, per: inch_dbh, source: label}
dbh: {from: 2 in, to: 30 in, source: label}
limits: {applications_per_year: 1, source: label}
spray: {up_to: 5 ft, source: label}
measure_with: {product: 0.5 fl oz, surfactant: 1 mL, carrier: 1 fl oz}
protective_equipment: Gloves and long sleeves.
cautions:
  - {text: Keep off the soil., source: label}
from_label:
  product_name: Invented Product
  registration_number: 00000-0
  signal_word: caution
  restricted_use: no
  re_entry: Until dry.
  first_aid: Rinse with water.
  sites: [ornamental trees]
  sites_cover_ash: yes
  pests: [emerald ash borer, bark beetles]
  pests_cover_borer: yes
  checked_on: 2026-03-01
)";

inline const std::string injected_liquid = R"(label: invented-injection
example: yes
title: Invented liquid, trunk injection
method: trunk_injection_invented
application: trunk_injection
active_ingredient: inventine
product: liquid
strength: {active: 40 g, per: 1 L, source: test-source}
rate: {per: cm_dbh, usual: 1 mL, source: test-source}
limits: {source: test-source}
holes: {spacing: 10 cm, source: test-source}
measure_with: {product: 1 mL}
protective_equipment: Gloves.
cautions:
  - {text: Leaves fully out., source: test-source}
)";

inline const std::string dry_drench = R"(label: invented-drench
example: yes
title: Invented powder, soil drench
method: soil_drench_invented
application: soil_drench
active_ingredient: inventine
product: dry
strength: {active: 750 g, per: 1 kg, percent_by_weight: 75 %, source: test-source}
rate: {per: inch_dbh, usual: 2 g, source: test-source}
mix: {carrier: water, finished: 1 pt, per: inch_dbh, source: test-source}
limits: {per_application: 30 g, active_per_acre_per_year: 0.4 lb, source: test-source}
measure_with: {product: 1 g, carrier: 1 fl oz}
protective_equipment: Gloves.
cautions:
  - {text: Moist soil., source: test-source}
)";

// `text` with the one place where `old` stands changed; a test that changes nothing is an error.
inline std::string changed(std::string text, std::string_view old, std::string_view replacement) {
    const std::size_t at = text.find(old);
    if (at == std::string::npos || text.find(old, at + 1) != std::string::npos) {
        throw std::logic_error("not exactly once in the text: " + std::string(old));
    }
    return text.replace(at, old.size(), replacement);
}

inline std::vector<packs::Source> test_sources() {
    return {{"test-source", "Invented for a test.", packs::Evidence::example}};
}

// The name of the card in its text, as a file.
inline packs::RuleFile file_of(const std::string& text) {
    const std::size_t start = text.find(": ") + 2;
    return {"labels/" + text.substr(start, text.find('\n') - start) + ".yaml", text, {}};
}

inline std::vector<packs::Problem> problems_in(const std::string& text) {
    packs::Problems problems;
    read_label_card(file_of(text), test_sources(), problems);
    return problems.list();
}

inline LabelCard card_of(const std::string& text) {
    return read_label_cards({file_of(text)}, test_sources()).at(0);
}

}  // namespace ashtriage::treat::test
