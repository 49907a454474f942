#include "fixed_files.hpp"

#include "packs/read_rule_set.hpp"

namespace ashtriage::fuzz {

namespace {

constexpr const char* sources = R"(sources:
  invented: {citation: "Invented for the tests.", evidence: example}
)";

constexpr const char* facts = R"(pack: facts
edition: 2026.1
about: Facts to write rules about.
facts:
  loss: {kind: number, unit: percent, range: [0, 100], eye_error: 10, group: crown, ask: "How much is missing?", source: invented}
  dbh: {kind: number, unit: inches, range: [0, 120], changeable: no, group: stem, ask: "How thick is the stem?", source: invented}
  holes: {kind: number, unit: count, range: [0, 1000], group: bark, ask: "How many holes?", source: invented}
  hole_shape: {kind: choice, levels: [round, d_shaped, oval], only_if: {holes: {at_least: 1}}, group: bark, ask: "What shape?", source: invented}
  pecking: {kind: ordered, levels: [none, light, heavy], safety: yes, group: bark, ask: "How much pecking?", source: invented}
  dead: {kind: yes_no, changeable: no, group: stem, ask: "Is it dead?", source: invented}
  soil: {kind: choice, levels: [clay, loam, sand], group: site, ask: "What soil?", source: invented}
  distance_to_water: {kind: number, unit: feet, range: [0, 1000], group: site, ask: "How far is water?", source: invented}
)";

}  // namespace

std::vector<packs::RuleFile> fixed_files() {
    return {{"facts.yaml", facts, {}}, {"sources.yaml", sources, {}}};
}

const packs::RuleSet& fixed_rules() {
    static const packs::RuleSet read = packs::read_rule_set(fixed_files());
    return read;
}

}  // namespace ashtriage::fuzz
