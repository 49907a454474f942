#include "present/check_report.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "packs/wording.hpp"
#include "packs/words.hpp"
#include "present/claim_words.hpp"
#include "present/csv_text.hpp"
#include "present/region_words.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"
#include "reason/visit.hpp"

namespace ashtriage::present {

namespace {

using packs::PresetCheck;
using packs::RuleCheck;
using packs::RuleSet;
using prove::TableCheck;
using reason::HitPolicy;

// Something that is wrong, or that nobody knows: preset, table and rules are names.
struct Finding {
    std::string kind;  // "gap", "conflict", "never-fires", "claim-refuted", "not-analysed", ...
    std::string table;
    std::vector<std::string> rules;
    std::string text;
};

std::string in_quotes(std::string_view name) {
    return '"' + std::string(name) + '"';
}

// A rule with the line it stands in.
std::string placed(const RuleSet& rules, reason::TableIndex table, reason::RuleIndex rule) {
    return in_quotes(rules.model.tables[table].rules[rule].id) + " (line " +
           std::to_string(rules.tables[table].rules[rule].place.line) + ")";
}

std::string names_of(const reason::Table& table, const std::vector<reason::RuleIndex>& rules) {
    constexpr std::size_t most_named = 4;
    std::vector<std::string> names;
    for (const reason::RuleIndex rule : rules) {
        if (names.size() == most_named) break;
        names.push_back(in_quotes(table.rules[rule].id));
    }
    if (rules.size() > most_named) names.emplace_back("another");
    return names.empty() ? "another rule that holds there" : packs::joined(names, "or");
}

std::string where_and_example(const RuleSet& rules, const prove::Region& region) {
    return region_words(rules, region.values) +
           ". For example: " + example_words(rules, region.example) + ".";
}

std::string refutation(const RuleSet& rules, const reason::Table& table,
                       const reason::WorseClaim& claim, const prove::Counterexample& pair) {
    const std::string name = packs::plain_name(rules.model.facts[claim.fact].name);
    const auto value = [&](const reason::Observation& tree) {
        return packs::spoken_value(rules, claim.fact, prove::example_of(tree)[claim.fact]);
    };
    reason::Observation rest = prove::example_of(pair.better);
    rest[claim.fact] = {};
    std::string words = "not true that " + direction_words(rules, claim) +
                        " never leads to a milder answer. With " + example_words(rules, rest) +
                        ": ";
    const std::string better = outcome_words(table.gives[pair.better_gives]);
    if (table.hit_policy == HitPolicy::collect) {
        return words + name + " " + value(pair.better) + " raises " + in_quotes(better) + ", " +
               name + " " + value(pair.worse) + " does not.";
    }
    return words + name + " " + value(pair.better) + " gives " + in_quotes(better) + ", " + name +
           " " + value(pair.worse) + " only " +
           in_quotes(outcome_words(table.gives[pair.worse_gives])) + ".";
}

// The tables that this one rests on, directly or by way of others.
std::vector<reason::TableIndex> tables_below(const reason::Model& model, reason::TableIndex table) {
    std::vector<reason::TableIndex> below;
    const auto add = [&](const auto& test) {
        if constexpr (std::is_same_v<std::decay_t<decltype(test)>, reason::OutcomeTest>) {
            if (std::ranges::find(below, test.table) == below.end()) below.push_back(test.table);
        }
    };
    const auto add_all = [&](reason::TableIndex each) {
        for (const reason::Rule& rule : model.tables[each].rules) {
            reason::for_each_test(rule.when, add);
        }
    };
    add_all(table);
    for (std::size_t next = 0; next < below.size(); ++next) add_all(below[next]);
    return below;
}

// The tables below that have no answer for some trees, so that this one may have none either.
std::string caused_below(const RuleSet& rules, const std::vector<TableCheck>& tables,
                         const TableCheck& table) {
    std::vector<std::string> names;
    for (const reason::TableIndex below : tables_below(rules.model, table.table)) {
        if (!tables[below].gaps.empty() || tables[below].conflict_count > 0) {
            names.push_back(in_quotes(rules.model.tables[below].name));
        }
    }
    if (names.empty()) return {};
    return " It rests on " + packs::joined(names, "and") +
           ", where trees are left without an answer too: mend that first.";
}

// A tree may not be able to have a worked-out fact and what it follows from as in an example.
std::string if_it_can_be(const RuleSet& rules, const prove::Region& region) {
    for (reason::FactIndex fact = 0; fact < rules.facts.size(); ++fact) {
        if (region.example[fact].is_unknown()) continue;
        for (const reason::FactIndex from : rules.facts[fact].worked_out_from) {
            if (region.example[from].is_unknown()) continue;
            return " Since " + packs::plain_name(rules.model.facts[fact].name) +
                   " is worked out from other facts, see whether there can be such a tree.";
        }
    }
    return {};
}

void add_not_analysed(const RuleSet& rules, const std::vector<TableCheck>& tables,
                      const TableCheck& table, std::vector<Finding>& findings) {
    std::string why = ": the table is too large.";
    for (const reason::TableIndex below : tables_below(rules.model, table.table)) {
        if (tables[below].claims_analysed) continue;
        why =
            ": it rests on " + in_quotes(rules.model.tables[below].name) + ", which is too large.";
        break;
    }
    std::vector<std::string> parts;
    if (!table.gaps_analysed) parts.emplace_back("gaps");
    if (!table.overlaps_analysed) parts.emplace_back("overlaps");
    if (!table.dead_rules_analysed) parts.emplace_back("rules that never fire");
    if (!table.claims_analysed) parts.emplace_back("claims");
    if (parts.empty()) return;
    findings.push_back(
        {"not-analysed",
         rules.model.tables[table.table].name,
         {},
         "not analysed for " + packs::joined(parts, "and") + why + " Nothing is known of them."});
}

std::vector<Finding> findings_of(const RuleSet& rules, const std::vector<TableCheck>& tables,
                                 const TableCheck& check) {
    const reason::Table& table = rules.model.tables[check.table];
    std::vector<Finding> findings;
    for (const prove::Region& gap : check.gaps) {
        findings.push_back({"gap",
                            table.name,
                            {},
                            "no rule holds where " + where_and_example(rules, gap) +
                                caused_below(rules, tables, check) + if_it_can_be(rules, gap)});
    }
    if (check.more_gaps) {
        findings.push_back({"gap", table.name, {}, "there are more gaps than these."});
    }
    for (const prove::Overlap& overlap : check.overlaps) {
        if (!overlap.conflict) continue;
        const std::string& first = table.rules[overlap.first].id;
        const std::string& second = table.rules[overlap.second].id;
        findings.push_back({"conflict",
                            table.name,
                            {first, second},
                            "the rules " + placed(rules, check.table, overlap.first) + " and " +
                                placed(rules, check.table, overlap.second) + " both hold where " +
                                where_and_example(rules, overlap.where) +
                                if_it_can_be(rules, overlap.where)});
    }
    for (const prove::ClaimCheck& claim : check.claims) {
        if (claim.says_nothing) {
            findings.push_back(
                {"empty-claim",
                 table.name,
                 {},
                 "the claim of " +
                     in_quotes(rules.model.facts[table.worse[claim.claim].fact].name) +
                     " says nothing: the table does not depend on it, or the "
                     "exception takes in every tree. Leave it out."});
        }
        if (!claim.refuted_by) continue;
        findings.push_back({"claim-refuted",
                            table.name,
                            {},
                            refutation(rules, table, table.worse[claim.claim], *claim.refuted_by)});
    }
    add_not_analysed(rules, tables, check, findings);
    return findings;
}

std::vector<Finding> general_findings(const RuleCheck& check) {
    const RuleSet& rules = check.presets.front().rules;
    std::vector<Finding> findings;
    for (const packs::NeverFires& dead : check.never_fire) {
        const reason::Table& table = rules.model.tables[dead.table];
        const std::string& id = table.rules[dead.rule].id;
        findings.push_back({"never-fires",
                            table.name,
                            {id},
                            "the rule " + placed(rules, dead.table, dead.rule) + " of " +
                                in_quotes(table.name) +
                                (dead.why == prove::WhyDead::never_met
                                     ? " can never fire: no tree meets its condition."
                                     : " can never fire: wherever it holds, " +
                                           names_of(table, dead.outranked_by) + " wins.")});
    }
    for (const packs::NeverGiven& outcome : check.never_given) {
        const reason::Table& table = rules.model.tables[outcome.table];
        findings.push_back({"never-given",
                            table.name,
                            {},
                            "no rule of " + in_quotes(table.name) + " gives " +
                                in_quotes(table.gives[outcome.outcome]) +
                                ": leave it out of \"gives\", or write the rule."});
    }
    if (!check.needless_facts_analysed && check.presets.size() > 1) {
        findings.push_back({"not-analysed",
                            {},
                            {},
                            "not analysed for facts that are asked for nothing, since some table "
                            "was not. Nothing is known of them."});
    }
    for (const reason::FactIndex fact : check.needless_facts) {
        const std::string& name = rules.model.facts[fact].name;
        findings.push_back(
            {"needless-fact",
             {},
             {},
             "the fact " + in_quotes(name) + " is asked for nothing: no answer depends on it."});
    }
    return findings;
}

std::string finding_text(const Finding& finding) {
    std::string kind = finding.kind;
    std::ranges::transform(kind, kind.begin(), [](unsigned char c) {
        return c == '-' ? ' ' : static_cast<char>(std::toupper(c));
    });
    return paragraph(finding.text, "  " + kind + ": ");
}

std::string policy_words(HitPolicy policy) {
    switch (policy) {
        case HitPolicy::unique:
            return "only one may hold";
        case HitPolicy::first:
            return "the one written first wins";
        case HitPolicy::priority:
            return "the answer that stands first in \"gives\" wins";
        case HitPolicy::collect:
            return "all of them count";
    }
    return {};
}

std::string claims_text(const RuleSet& rules, const TableCheck& check) {
    const reason::Table& table = rules.model.tables[check.table];
    std::vector<std::string> proved;
    std::string exceptions;
    for (const prove::ClaimCheck& claim : check.claims) {
        if (claim.refuted_by || claim.says_nothing) continue;
        proved.push_back(direction_words(rules, table.worse[claim.claim]));
        const std::string exception = exception_words(rules, check.table, claim.claim);
        if (!exception.empty()) exceptions += paragraph(exception, "    except ");
    }
    if (proved.empty()) return {};
    return paragraph("Proved: never a milder answer with " + packs::joined(proved, "or") + ".",
                     "  ") +
           exceptions;
}

std::string overlaps_text(const RuleSet& rules, const TableCheck& check, bool list) {
    const reason::Table& table = rules.model.tables[check.table];
    const std::size_t settled = check.overlap_count - check.conflict_count;
    if (settled == 0) return {};
    std::string text =
        paragraph(std::to_string(settled) + (settled == 1 ? " pair of rules" : " pairs of rules") +
                      " can hold together; " + policy_words(table.hit_policy) + ".",
                  "  ");
    if (!list) return text;
    for (const prove::Overlap& overlap : check.overlaps) {
        if (overlap.conflict) continue;
        text += paragraph(table.rules[overlap.first].id + " and " + table.rules[overlap.second].id +
                              ", where " + where_and_example(rules, overlap.where),
                          "    - ");
    }
    if (check.overlaps.size() < check.overlap_count) {
        text += paragraph("and further pairs, not listed.", "    - ");
    }
    return text;
}

std::string table_text(const RuleSet& rules, const std::vector<TableCheck>& tables,
                       const TableCheck& check, bool list_overlaps) {
    const reason::Table& table = rules.model.tables[check.table];
    std::string text = packs::plain_name(table.name) + "\n";
    for (const Finding& finding : findings_of(rules, tables, check)) text += finding_text(finding);
    if (table.hit_policy != HitPolicy::collect && check.gaps_analysed && check.gaps.empty()) {
        text += paragraph("Complete: whatever is seen, some rule holds.", "  ");
    }
    return text + overlaps_text(rules, check, list_overlaps) + claims_text(rules, check);
}

std::string preset_name(const PresetCheck& preset) {
    return preset.rules.preset.empty() ? "default settings" : "preset " + preset.rules.preset;
}

// What a preset finds that the settings' own values do not.
std::string preset_text(const PresetCheck& preset, const PresetCheck& first) {
    std::string text;
    for (const TableCheck& check : preset.check.tables) {
        std::string here;
        for (const Finding& finding : findings_of(preset.rules, preset.check.tables, check)) {
            here += finding_text(finding);
        }
        std::string there;
        for (const Finding& finding :
             findings_of(first.rules, first.check.tables, first.check.tables[check.table])) {
            there += finding_text(finding);
        }
        if (here.empty() || here == there) continue;
        text += packs::plain_name(preset.rules.model.tables[check.table].name) + "\n" + here;
    }
    return text.empty() ? text : "\nWith the " + preset_name(preset) + "\n" + text;
}

std::string closing_words(const RuleCheck& check) {
    if (!check.passed()) {
        return "Findings: see the lines that begin in capitals. Gaps and conflicts leave trees "
               "without an answer; the other findings are rules, facts or claims that do nothing, "
               "or parts of which nothing is known.";
    }
    std::size_t claims = 0;
    for (const TableCheck& table : check.presets.front().check.tables) {
        claims += table.claims.size();
    }
    const std::string settings = check.presets.size() > 1
                                     ? "under the default settings and " +
                                           std::to_string(check.presets.size() - 1) + " presets"
                                     : "under the " + preset_name(check.presets.front());
    return "Passed " + settings + ": every table is complete, no rule contradicts another, " +
           (check.presets.size() > 1 ? "every rule can fire, every fact is needed, " : "") +
           "and " + std::to_string(claims) + " claims are proved." +
           (check.presets.size() > 1
                ? ""
                : " Rules that never fire and facts that are not needed were not looked for: that "
                  "takes all presets (leave --preset out).");
}

}  // namespace

std::string check_text(const RuleCheck& check, bool list_overlaps) {
    const PresetCheck& first = check.presets.front();
    std::string text;
    for (const TableCheck& table : first.check.tables) {
        text += table_text(first.rules, first.check.tables, table, list_overlaps);
    }
    for (const PresetCheck& preset : check.presets) {
        if (&preset != &first) text += preset_text(preset, first);
    }
    const auto general = general_findings(check);
    if (!general.empty()) text += "\nAll tables and presets together\n";
    for (const Finding& finding : general) text += finding_text(finding);
    return text + "\n" + paragraph(closing_words(check));
}

std::string check_csv(const RuleCheck& check) {
    std::string csv = csv_row({"preset", "table", "kind", "rules", "finding"});
    const auto add = [&](const std::string& preset, const Finding& finding) {
        std::string rules;
        for (const std::string& rule : finding.rules) rules += (rules.empty() ? "" : " ") + rule;
        csv += csv_row({csv_plain_field(preset), csv_plain_field(finding.table),
                        csv_plain_field(finding.kind), csv_plain_field(rules),
                        csv_text_field(finding.text)});
    };
    for (const PresetCheck& preset : check.presets) {
        for (const TableCheck& table : preset.check.tables) {
            for (const Finding& finding : findings_of(preset.rules, preset.check.tables, table)) {
                add(preset.rules.preset, finding);
            }
        }
    }
    for (const Finding& finding : general_findings(check)) add({}, finding);
    return csv;
}

Json check_json(const RuleCheck& check) {
    const auto finding_json = [](const Finding& finding) {
        return Json{{"kind", finding.kind}, {"rules", finding.rules}, {"text", finding.text}};
    };
    Json json{{"passed", check.passed()}};
    json["presets"] = Json::array();
    for (const PresetCheck& preset : check.presets) {
        Json tables = Json::array();
        for (const TableCheck& table : preset.check.tables) {
            const reason::Table& described = preset.rules.model.tables[table.table];
            Json findings = Json::array();
            for (const Finding& finding : findings_of(preset.rules, preset.check.tables, table)) {
                findings.push_back(finding_json(finding));
            }
            Json switched_off = Json::array();
            for (const prove::DeadRule& dead : table.dead_rules) {
                switched_off.push_back(described.rules[dead.rule].id);
            }
            Json overlaps = Json::array();
            for (const prove::Overlap& overlap : table.overlaps) {
                overlaps.push_back(
                    {{"first", described.rules[overlap.first].id},
                     {"second", described.rules[overlap.second].id},
                     {"conflict", overlap.conflict},
                     {"where", region_words(preset.rules, overlap.where.values)},
                     {"example", example_words(preset.rules, overlap.where.example)}});
            }
            const auto proved = std::ranges::count_if(
                table.claims, [](const auto& claim) { return !claim.refuted_by.has_value(); });
            tables.push_back({{"table", described.name},
                              {"analysed", table.analysed()},
                              {"findings", std::move(findings)},
                              {"overlaps", table.overlap_count},
                              {"overlap_examples", std::move(overlaps)},
                              {"rules_that_do_not_fire_here", std::move(switched_off)},
                              {"claims", table.claims.size()},
                              {"claims_proved", proved}});
        }
        json["presets"].push_back({{"preset", preset.rules.preset}, {"tables", std::move(tables)}});
    }
    json["findings"] = Json::array();
    for (const Finding& finding : general_findings(check)) {
        json["findings"].push_back(finding_json(finding));
    }
    return json;
}

}  // namespace ashtriage::present
