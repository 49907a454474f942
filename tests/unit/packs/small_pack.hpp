// A small rule set of invented rules, and ways to change it, for the tests of its reader.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "packs/bad_file.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"

namespace ashtriage::packs {

inline constexpr std::string_view small_sources = R"(sources:
  invented: {citation: "Invented for the tests.", evidence: example}
  handbook: {citation: "An invented handbook.", evidence: common practice}
)";

inline constexpr std::string_view small_pack = R"(pack: small
edition: 2026.1
about: A rule pack for tests.
settings:
  stop_above: {value: 50, unit: percent, source: handbook, about: No treatment above this loss.}
  careful: {value: no, source: invented, about: Whether any sign counts.}
presets:
  strict:
    about: Stricter than usual.
    source: [invented, handbook]
    settings: {stop_above: 30, careful: yes}
facts:
  loss:
    kind: number
    unit: percent
    range: [0, 100]
    eye_error: 10
    group: crown
    ask: How much of the crown is missing?
    source: invented
  holes:
    kind: number
    unit: count
    range: [0, 1000]
    group: bark
    ask: How many exit holes?
    source: invented
  hole_shape:
    kind: choice
    levels: {round: A circle., d_shaped: Flat on one side.}
    only_if: {holes: {at_least: 1}}
    group: bark
    ask: What shape are they?
    source: invented
  pecking:
    kind: ordered
    levels: [none, light, heavy]
    safety: yes
    effort: climb
    group: bark
    ask: How much have woodpeckers pecked?
    help: Look high up.
    source: invented
  dead: {kind: yes_no, changeable: no, group: tree, ask: "Is it dead?", source: invented}
tables:
  signs:
    about: How strong the signs are.
    gives: [strong, weak, none]
    hit_policy: priority
    rules:
      - {id: d-holes, when: {hole_shape: d_shaped}, gives: strong, because: "{holes} holes.", source: invented}
      - {id: pecked, when: {pecking: {at_least: light}}, gives: weak, because: Pecked., source: invented}
      - {id: no-sign, when: always, gives: none, because: Nothing seen., source: invented}
  advice:
    about: What to do.
    gives: [remove, treat]
    hit_policy: priority
    rules:
      - id: too-far-gone
        when: {any: [{loss: {above: {setting: stop_above}}}, {dead: yes}]}
        gives: remove
        because: A loss of {loss} is above {stop_above}, with {signs} signs.
        client: Too little is left.
        todo: Book the removal.
        who: A tree crew.
        source: [invented, handbook]
      - {id: any-sign, when: {setting: {careful: yes}, not: {signs: none}}, gives: remove, because: A sign., source: invented}
      - {id: worth-it, when: always, gives: treat, because: Enough is left., source: invented}
  flags:
    about: What is dangerous.
    gives: [dead_tree, brittle]
    hit_policy: collect
    rules:
      - {id: is-dead, when: {dead: yes}, gives: dead_tree, because: It is dead., source: invented}
      - {id: is-brittle, when: {loss: {at_least: 50}}, gives: brittle, because: Brittle., source: invented}
cases:
  - {id: far-gone, given: {loss: 60}, expect: {advice: remove, flags: [brittle]}, source: invented}
  - {id: strict-one, preset: strict, given: {loss: 20, pecking: light}, expect: {advice: remove}, source: invented}
  - {id: open, given: {loss: 45-55, dead: no}, expect: {advice: [remove, treat], flags: {excludes: [dead_tree]}}, source: invented}
)";

inline std::vector<RuleFile> files_with(std::string_view pack) {
    return {{"small.yaml", std::string(pack), {}},
            {"sources.yaml", std::string(small_sources), {}}};
}

// The small pack with one stretch of its text replaced. Throws std::out_of_range if it is not
// there.
inline std::string changed(std::string_view from, std::string_view to) {
    std::string text(small_pack);
    text.replace(text.find(from), from.size(), to);
    return text;
}

// The problems with a pack; none if it is well.
inline std::vector<Problem> problems_of(std::string_view pack) {
    try {
        read_rule_set(files_with(pack));
    } catch (const BadFile& error) {
        return error.problems().list();
    }
    return {};
}

}  // namespace ashtriage::packs
