// A rule set as read from its files: the model that the engine compiles, and beside it everything
// that is said to people: questions, reasons, sources, settings, presets and cases.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "packs/problem.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::packs {

// What is written in the files for a part of a condition that holds always or never, whatever is
// seen: mostly a switch.
struct SettledPart {
    std::string setting;  // empty: no setting settles it
    std::string said;     // "setting replace_small is yes", "always"
};

enum class Effort { glance, measure, dig, climb };

// What is asked about a fact and how its values are written. Parallel to Model::facts.
struct FactText {
    std::string unit;  // number facts: percent, inches, feet, miles, degrees, count, ...
    std::vector<std::string> level_help;  // parallel to Fact::levels; may be empty texts
    bool asked = true;                    // false: worked out from other entries
    std::vector<reason::FactIndex> worked_out_from;
    bool safety = false;
    Effort effort = Effort::glance;
    std::string group;
    std::string ask;
    std::string help;
    std::vector<std::string> sources;
    std::vector<SettledPart> settled;  // of the fact's only_if, in the order of writing
};

// What is said when a rule holds. Parallel to Table::rules. `because`, `client` and `todo` may hold
// placeholders {fact}, {setting}, {table}; see wording.hpp.
struct RuleText {
    std::string because;
    std::string client;
    std::string todo;
    std::string who;
    std::vector<std::string> sources;
    std::vector<SettledPart> settled;  // of the rule's condition, in the order of writing
    Place place;                       // of the rule in the file of its pack
    // Where each test of `when` stands, in the order of reason::for_each_test. A test has the same
    // place under every preset that leaves it in.
    std::vector<Place> tests;
};

// Why a claim makes an exception; empty when it makes none. Parallel to Table::worse.
struct ClaimText {
    std::string because;
};

struct TableText {
    std::string pack;
    std::string about;
    std::vector<RuleText> rules;
    std::vector<ClaimText> claims;
};

struct Setting {
    std::string name;
    std::string unit;    // empty for a switch
    double value = 0.0;  // a switch: 1 yes, 0 no
    bool is_switch = false;
    std::string about;
    std::vector<std::string> sources;
};

struct Preset {
    std::string name;
    std::string about;
    std::vector<std::string> sources;
    std::vector<std::pair<std::string, double>> values;  // setting name, value
};

enum class Evidence { read, restated, memory, common_practice, computed, example, inference };

struct Source {
    std::string key;
    std::string citation;
    Evidence evidence = Evidence::read;
};

// What a case expects of one table.
struct Expectation {
    reason::TableIndex table = 0;
    reason::LevelSet exactly = 0;   // single-hit tables: the outcomes still possible
    reason::LevelSet includes = 0;  // collect tables: certain
    reason::LevelSet excludes = 0;  // collect tables: not even possible
};

struct Case {
    std::string id;
    std::string preset;  // empty: the default settings
    std::string about;
    reason::Observation given;
    std::vector<Expectation> expected;
    std::vector<std::string> sources;
    std::string file;
    std::size_t line = 0;
};

struct Edition {
    std::string pack;
    std::string edition;
};

struct RuleSet {
    reason::Model model;
    std::vector<FactText> facts;    // parallel to model.facts
    std::vector<TableText> tables;  // parallel to model.tables
    std::vector<Setting> settings;  // with the values of the chosen preset
    std::vector<Preset> presets;
    std::vector<Source> sources;
    std::vector<Case> cases;  // those of *_cases.yaml only if they were asked for
    std::vector<Edition> editions;
    std::string preset;  // the preset in use; empty: default settings
    std::string hash;    // SHA-256, hex, over names and contents of the rule files and the preset

    const Setting* find_setting(std::string_view name) const;
    const Source* find_source(std::string_view key) const;
};

}  // namespace ashtriage::packs
