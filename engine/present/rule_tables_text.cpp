#include "present/rule_tables_text.hpp"

#include "packs/words.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

constexpr std::size_t label_width = 9;
constexpr std::string_view rule_indent = "    ";

std::string label(std::string_view word) {
    std::string text(word);
    text.resize(label_width, ' ');
    return text;
}

std::string labelled(std::string_view indent, std::string_view word, std::string_view text) {
    return paragraph(text, std::string(indent) + label(word));
}

std::string names_or_none(const std::vector<std::string>& names) {
    return names.empty() ? "no other table" : packs::joined(names, "and");
}

void add_condition(const WordedCondition& condition, const std::string& first, std::string& text) {
    text += paragraph(condition.text, first);
    const std::string under(width_of(first), ' ');
    for (const WordedCondition& part : condition.parts) add_condition(part, under + "- ", text);
}

std::string rule_text(const WordedRule& rule) {
    return rule.id + "\n" + condition_lines(rule.when, std::string(rule_indent) + label("When")) +
           labelled(rule_indent, "Gives", rule.gives) +
           labelled(rule_indent, "Because", rule.because) +
           labelled(rule_indent, "Source", comma_list(rule.sources));
}

std::string table_text(const WordedTable& table) {
    std::string text = underlined(table.title, '=');
    text += paragraph(table.about) + "\n";
    text += labelled({}, "Written", "table " + table.name + " in " + table.file);
    text += labelled({}, "Gives", packs::joined(table.gives));
    text += labelled({}, "Fed by", names_or_none(table.fed_by));
    text += labelled({}, "Feeds", names_or_none(table.feeds));
    text += labelled({}, "Answers", table.how_it_answers);
    if (!table.claims.empty()) text += labelled({}, "Claims", claims_sentence(table));
    for (const std::string& exception : table.exceptions) {
        text += labelled({}, "", "Except " + exception);
    }
    for (const WordedRule& rule : table.rules) text += "\n" + rule_text(rule);
    return text;
}

std::string settings_text(const std::vector<WordedSetting>& settings) {
    std::string text = underlined("Settings used", '=');
    for (const WordedSetting& setting : settings) {
        text += setting.name + ": " + setting.value + "\n" + paragraph(setting.about, rule_indent) +
                paragraph("Source: " + comma_list(setting.sources), rule_indent);
    }
    return text;
}

std::string sources_text(const std::vector<WordedSource>& sources) {
    std::string text = underlined("Sources", '=');
    for (const WordedSource& source : sources) {
        text +=
            source.key + " (" + source.evidence + ")\n" + paragraph(source.citation, rule_indent);
    }
    return text;
}

}  // namespace

std::string condition_lines(const WordedCondition& condition, std::string_view first) {
    std::string text;
    add_condition(condition, std::string(first), text);
    return text;
}

std::string rule_tables_text(const RuleTables& shown) {
    std::string text = paragraph(rules_in_use(shown)) + paragraph(brackets_note());
    for (const WordedTable& table : shown.tables) text += "\n" + table_text(table);
    if (!shown.settings.empty()) text += "\n" + settings_text(shown.settings);
    if (!shown.sources.empty()) text += "\n" + sources_text(shown.sources);
    return text + "\n" + paragraph(general_caution());
}

}  // namespace ashtriage::present
