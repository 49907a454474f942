// A rule set in words: its texts filled in for one tree, its conditions as sentences.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "packs/words.hpp"
#include "reason/condition.hpp"
#include "reason/engine.hpp"
#include "reason/value.hpp"

namespace ashtriage::packs {

// The text with its placeholders filled in: facts with their observed value and unit ("35 %", "not
// known"), settings with their figure and unit, tables with their outcome for this observation.
// `engine` holds the model of `rule_set`. Numbers are rounded to two decimals. What is in braces
// but names nothing stays as it is; read_rule_set refuses such texts.
std::string worded(std::string_view text, const RuleSet& rule_set, const reason::Engine& engine,
                   const reason::Observation& observation);

// The same text cut up once, for whoever fills it in for many trees: each piece is words as they
// stand (a setting's figure among them), or the fact or table whose value goes in its place.
struct WordedPiece {
    std::string words;
    std::optional<reason::FactIndex> fact;
    std::optional<reason::TableIndex> table;
};
std::vector<WordedPiece> worded_pieces(std::string_view text, const RuleSet& rule_set);

// What stands in a text for a table: its outcome for this observation, or those still possible.
std::string table_words(const RuleSet& rule_set, const reason::Engine& engine,
                        reason::TableIndex table, const reason::Observation& observation);

// The observed value as it is said in a sentence: "35 %", "20 to 30 %", "30 % or more", "light or
// heavy", "not known", "could not be seen", "does not apply".
std::string spoken_value(const RuleSet& rule_set, reason::FactIndex fact,
                         const reason::Value& value);

// "50 %", "15 mi", "yes".
std::string setting_text(const Setting& setting);

// "canopy loss above 50 % (setting stop_above)", "evidence is definite or probable", "always".
std::string condition_text(const reason::Condition& condition, const RuleSet& rule_set);

// The outcomes of a set in words, in the table's order: "remove or treat". `last` joins the last
// two.
std::string outcomes_text(const reason::Table& table, reason::LevelSet outcomes,
                          std::string_view last = "or");

// The short form of a unit, "%", "in", "tree heights"; empty for counts and switches.
std::string unit_text(std::string_view unit_name);

}  // namespace ashtriage::packs
