// A rule set put into words for someone who reads rules and never programmed: what each table is
// about, how it answers, when each of its rules holds and why. Layout is left to whoever shows it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"

namespace ashtriage::present {

// "structure is sound (...)", or what joins the parts under it: "at least one of these:".
struct WordedCondition {
    std::string text;
    std::vector<WordedCondition> parts;
};

// In the texts, settings are filled in; what is filled in for each tree stands in [brackets].
struct WordedRule {
    std::string id;
    WordedCondition when;
    std::string gives;
    std::string because;
    std::string client;
    std::string todo;
    std::string who;
    std::vector<std::string> sources;
};

struct WordedTable {
    std::string name;   // as the files write it: "infestation_stage"
    std::string title;  // "Infestation stage"
    std::string file;   // "evidence.yaml"
    std::string about;
    std::vector<std::string> gives;
    std::vector<std::string> fed_by;  // tables whose outcomes its rules test
    std::vector<std::string> feeds;   // tables whose rules test its outcomes
    std::string hit_policy;           // "priority"
    std::string how_it_answers;       // the hit policy in sentences
    // With which changes no answer gets milder, "canopy loss rising", and what that leaves out.
    std::vector<std::string> claims;
    std::vector<std::string> exceptions;
    std::vector<WordedRule> rules;
};

struct WordedSetting {
    std::string name;
    std::string value;  // "50 %", "yes"
    std::string about;
    std::vector<std::string> sources;
};

struct WordedSource {
    std::string key;
    std::string citation;
    std::string evidence;  // "read", "memory"
};

struct RuleTables {
    std::vector<WordedTable> tables;
    std::vector<WordedSetting> settings;  // those that the tables use
    std::vector<WordedSource> sources;    // those that tables and settings name
    std::string preset;                   // "default" where none is in use
    std::string preset_about;
    std::string editions;  // "evidence 2026.1, triage 2026.1"
    std::string hash;
};

// The tables of these names, or all when none is named, each after those that feed it. Blanks and
// underscores in a name are alike. Throws measure::InputError, with the nearest name, when there is
// no such table.
RuleTables rule_tables(const packs::RuleSet& rules, const std::vector<std::string>& names = {});

// A condition of the rule set; `settled` is what packs::RuleText and packs::FactText keep with it.
WordedCondition worded_condition(const reason::Condition& condition,
                                 const std::vector<packs::SettledPart>& settled,
                                 const packs::RuleSet& rules);

// The condition in one line: "exit holes at least 1; at least one of these: (a; b)".
std::string in_one_line(const WordedCondition& condition);

// "Never a milder answer with canopy loss rising or dead rising."; empty when nothing is claimed.
// That it is claimed does not mean that it was proved.
std::string claims_sentence(const WordedTable& table);

// What stands above every listing of tables: which rules, under which preset, and how to read them.
std::string rules_in_use(const RuleTables& shown);
std::string_view brackets_note();

}  // namespace ashtriage::present
