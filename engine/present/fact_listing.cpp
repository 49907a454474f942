#include "present/fact_listing.hpp"

#include <algorithm>
#include <vector>

#include "packs/fact_units.hpp"
#include "packs/file_words.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/rule_tables.hpp"
#include "present/rule_tables_text.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

using packs::Effort;
using reason::Fact;
using reason::FactKind;

constexpr std::string_view help_indent = "    ";

// One fact with everything that is said of it, in words.
struct ShownFact {
    const Fact& fact;
    const packs::FactText& text;
    std::string expects;
    std::string eye_error;                     // "10 %"; empty: not judged by eye
    WordedCondition only_if;                   // no text: applies always
    std::vector<std::string> worked_out_from;  // names of facts
};

ShownFact shown_fact(const packs::RuleSet& rules, reason::FactIndex index) {
    const Fact& fact = rules.model.facts[index];
    const packs::FactText& text = rules.facts[index];
    ShownFact shown{fact, text, packs::expected_text(fact, text), {}, {}, {}};
    if (fact.eye_error > 0) shown.eye_error = packs::number_with_unit(fact.eye_error, text.unit);
    for (const reason::FactIndex other : text.worked_out_from) {
        shown.worked_out_from.push_back(rules.model.facts[other].name);
    }
    if (const reason::Condition* applies = rules.model.condition_to_apply(index)) {
        shown.only_if = worded_condition(*applies, text.settled, rules);
    }
    return shown;
}

std::string effort_words(Effort effort) {
    switch (effort) {
        case Effort::glance:
            return "a look";
        case Effort::measure:
            return "a measurement";
        case Effort::dig:
            return "lifting bark or digging";
        case Effort::climb:
            return "getting up to it";
    }
    return {};
}

// What can be answered; the levels of a scale or choice are listed below it.
std::string values_words(const ShownFact& shown) {
    switch (shown.fact.kind) {
        case FactKind::number:
            return with_capital(shown.expects) + ".";
        case FactKind::ordered:
            return "A scale that rises from first to last:";
        case FactKind::choice:
            return "A choice without an order:";
        case FactKind::yes_no:
            return "Yes or no.";
    }
    return {};
}

std::string levels_text(const ShownFact& shown) {
    if (shown.fact.kind == FactKind::yes_no) return {};
    std::string text;
    for (std::size_t i = 0; i < shown.fact.levels.size(); ++i) {
        const std::string& help = shown.text.level_help[i];
        text += paragraph(shown.fact.levels[i] + (help.empty() ? "" : ": " + help),
                          std::string(help_indent) + "- ");
    }
    return text;
}

std::string fact_text(const ShownFact& shown) {
    const packs::FactText& text = shown.text;
    std::string result = shown.fact.name + "\n" + paragraph(text.ask, help_indent) +
                         paragraph(values_words(shown), help_indent) + levels_text(shown);
    if (!text.help.empty()) result += paragraph(text.help, help_indent);
    if (!shown.eye_error.empty()) {
        result += paragraph("Judged by eye it may be off by " + shown.eye_error + " either way.",
                            help_indent);
    }
    if (!text.asked) {
        const auto& from = shown.worked_out_from;
        result += paragraph("Worked out from " +
                                (from.empty() ? "other entries" : packs::joined(from, "and")) +
                                ", not asked.",
                            help_indent);
    }
    if (shown.fact.may_not_apply && shown.only_if.text.empty()) {
        result +=
            paragraph("May not apply: there may be nothing that it could be said of.", help_indent);
    }
    if (text.safety) result += paragraph("Asked first, for safety.", help_indent);
    if (!shown.fact.changeable) {
        result +=
            paragraph("Cannot be otherwise, so no advice hangs on its changing.", help_indent);
    }
    result += paragraph("Takes " + effort_words(text.effort) + ".", help_indent);
    if (!shown.only_if.text.empty()) {
        result += condition_lines(shown.only_if, std::string(help_indent) + "Asked only if ");
    }
    return result + paragraph("Source: " + comma_list(shown.text.sources), help_indent);
}

std::string yes_or_no(bool value) {
    return value ? "yes" : "no";
}

std::string levels_field(const ShownFact& shown) {
    std::string field;
    for (std::size_t i = 0; i < shown.fact.levels.size(); ++i) {
        const std::string& help = shown.text.level_help[i];
        field +=
            (field.empty() ? "" : "; ") + shown.fact.levels[i] + (help.empty() ? "" : ": " + help);
    }
    return field;
}

std::string figure(const ShownFact& shown, double value) {
    return shown.fact.kind == FactKind::number ? packs::number_text(value) : std::string{};
}

Json figure_json(const ShownFact& shown, double value) {
    return shown.fact.kind == FactKind::number ? Json(value) : Json(nullptr);
}

Json levels_json(const ShownFact& shown) {
    Json levels = Json::array();
    for (std::size_t i = 0; i < shown.fact.levels.size(); ++i) {
        levels.push_back({{"level", shown.fact.levels[i]}, {"help", shown.text.level_help[i]}});
    }
    return levels;
}

}  // namespace

std::string facts_text(const packs::RuleSet& rules) {
    std::vector<std::string> groups;  // in the order of their first facts
    for (const packs::FactText& text : rules.facts) {
        if (std::ranges::find(groups, text.group) == groups.end()) groups.push_back(text.group);
    }
    std::string result;
    for (const std::string& group : groups) {
        result += (result.empty() ? "" : "\n") + underlined(with_capital(group), '=');
        for (reason::FactIndex index = 0; index < rules.facts.size(); ++index) {
            if (rules.facts[index].group != group) continue;
            result += "\n" + fact_text(shown_fact(rules, index));
        }
    }
    return result;
}

std::string facts_csv(const packs::RuleSet& rules) {
    std::string csv =
        csv_row({"fact", "kind", "group", "ask", "help", "expects", "unit", "lowest", "highest",
                 "eye_error", "levels", "effort", "safety", "worked_out", "worked_out_from",
                 "may_not_apply", "changeable", "only_if", "sources"});
    for (reason::FactIndex index = 0; index < rules.facts.size(); ++index) {
        const ShownFact shown = shown_fact(rules, index);
        const Fact& fact = shown.fact;
        csv += csv_row({csv_plain_field(fact.name), packs::kind_name(fact.kind),
                        csv_text_field(shown.text.group), csv_text_field(shown.text.ask),
                        csv_text_field(shown.text.help), csv_text_field(shown.expects),
                        csv_plain_field(shown.text.unit), figure(shown, fact.range.low),
                        figure(shown, fact.range.high), figure(shown, fact.eye_error),
                        csv_text_field(levels_field(shown)), packs::effort_name(shown.text.effort),
                        yes_or_no(shown.text.safety), yes_or_no(!shown.text.asked),
                        csv_text_field(comma_list(shown.worked_out_from)),
                        yes_or_no(fact.may_not_apply), yes_or_no(fact.changeable),
                        csv_text_field(in_one_line(shown.only_if)),
                        csv_text_field(comma_list(shown.text.sources))});
    }
    return csv;
}

Json facts_json(const packs::RuleSet& rules) {
    Json json = Json::array();
    for (reason::FactIndex index = 0; index < rules.facts.size(); ++index) {
        const ShownFact shown = shown_fact(rules, index);
        const Fact& fact = shown.fact;
        const std::string only_if = in_one_line(shown.only_if);
        json.push_back({{"fact", fact.name},
                        {"kind", packs::kind_name(fact.kind)},
                        {"group", shown.text.group},
                        {"ask", shown.text.ask},
                        {"help", shown.text.help},
                        {"expects", shown.expects},
                        {"unit", fact.kind == FactKind::number ? Json(shown.text.unit) : Json()},
                        {"lowest", figure_json(shown, fact.range.low)},
                        {"highest", figure_json(shown, fact.range.high)},
                        {"eye_error", figure_json(shown, fact.eye_error)},
                        {"levels", levels_json(shown)},
                        {"effort", packs::effort_name(shown.text.effort)},
                        {"safety", shown.text.safety},
                        {"worked_out", !shown.text.asked},
                        {"worked_out_from", shown.worked_out_from},
                        {"may_not_apply", fact.may_not_apply},
                        {"changeable", fact.changeable},
                        {"only_if", only_if.empty() ? Json() : Json(only_if)},
                        {"sources", shown.text.sources}});
    }
    return json;
}

}  // namespace ashtriage::present
