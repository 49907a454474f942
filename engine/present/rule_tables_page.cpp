#include "present/rule_tables_page.hpp"

#include "packs/words.hpp"
#include "present/rule_tables_page_template.hpp"
#include "present/template_values.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

using ctemplate::TemplateDictionary;

// A condition's own line, and the list under it: the template of a condition holds itself.
void add_condition(TemplateDictionary& parent, const WordedCondition& condition) {
    TemplateDictionary& included = *parent.AddIncludeDictionary("CONDITION");
    included.SetFilename("rule_condition");
    set(included, "TEXT", condition.text);
    if (condition.parts.empty()) return;
    TemplateDictionary& list = *included.AddSectionDictionary("PARTS");
    for (const WordedCondition& part : condition.parts) {
        add_condition(*list.AddSectionDictionary("PART"), part);
    }
}

std::string names_in_words(const std::vector<std::string>& names) {
    std::vector<std::string> plain;
    for (const std::string& name : names) plain.push_back(packs::plain_name(name));
    return plain.empty() ? "no other table" : packs::joined(plain, "and");
}

// Source keys one after the other, each a link to its citation.
void add_keys(TemplateDictionary& dictionary, const std::vector<std::string>& keys) {
    for (const std::string& key : keys) set(*dictionary.AddSectionDictionary("KEY"), "NAME", key);
}

void add_rule(TemplateDictionary& table, const WordedRule& rule) {
    TemplateDictionary& row = *table.AddSectionDictionary("RULE");
    set(row, "ID", rule.id);
    add_condition(row, rule.when);
    set(row, "GIVES", rule.gives);
    set(row, "BECAUSE", rule.because);
    add_keys(row, rule.sources);
}

void add_table(TemplateDictionary& page, const WordedTable& table) {
    TemplateDictionary& section = *page.AddSectionDictionary("TABLE");
    set(section, "TITLE", table.title);
    set(section, "ABOUT", table.about);
    set(section, "NAME", table.name);
    set(section, "FILE", table.file);
    set(section, "GIVES", packs::joined(table.gives));
    set(section, "FED_BY", names_in_words(table.fed_by));
    set(section, "FEEDS", names_in_words(table.feeds));
    set(section, "ANSWERS", table.how_it_answers);
    if (!table.claims.empty()) {
        TemplateDictionary& claims = *section.AddSectionDictionary("CLAIMS");
        set(claims, "TEXT", claims_sentence(table));
        for (const std::string& exception : table.exceptions) {
            set(*claims.AddSectionDictionary("EXCEPTION"), "TEXT", exception);
        }
    }
    for (const WordedRule& rule : table.rules) add_rule(section, rule);
}

void add_settings(TemplateDictionary& page, const std::vector<WordedSetting>& settings) {
    if (settings.empty()) return;
    TemplateDictionary& section = *page.AddSectionDictionary("SETTINGS");
    for (const WordedSetting& setting : settings) {
        TemplateDictionary& row = *section.AddSectionDictionary("SETTING");
        set(row, "NAME", setting.name);
        set(row, "VALUE", setting.value);
        set(row, "ABOUT", setting.about);
        add_keys(row, setting.sources);
    }
}

void add_sources(TemplateDictionary& page, const std::vector<WordedSource>& sources) {
    if (sources.empty()) return;
    TemplateDictionary& section = *page.AddSectionDictionary("SOURCES");
    for (const WordedSource& source : sources) {
        TemplateDictionary& row = *section.AddSectionDictionary("SOURCE");
        set(row, "NAME", source.key);
        set(row, "CITATION", source.citation);
        set(row, "EVIDENCE", source.evidence);
    }
}

}  // namespace

std::string rule_tables_page(const RuleTables& shown) {
    TemplateDictionary page("rule tables page");
    set(page, "IN_USE", rules_in_use(shown));
    set(page, "BRACKETS", brackets_note());
    for (const WordedTable& table : shown.tables) {
        set(*page.AddSectionDictionary("ENTRY"), "NAME", table.name);
        add_table(page, table);
    }
    add_settings(page, shown.settings);
    add_sources(page, shown.sources);
    set(page, "GENERAL_CAUTION", general_caution());
    ctemplate::StringToTemplateCache("rule_condition", rule_condition_template,
                                     ctemplate::DO_NOT_STRIP);
    return expanded("rule_tables_page", rule_tables_page_template, page);
}

}  // namespace ashtriage::present
