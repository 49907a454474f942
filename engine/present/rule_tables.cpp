#include "present/rule_tables.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <type_traits>

#include "measure/input_error.hpp"
#include "packs/file_words.hpp"
#include "packs/placeholder.hpp"
#include "packs/problem.hpp"
#include "packs/sources.hpp"
#include "packs/wording.hpp"
#include "present/claim_words.hpp"
#include "present/words.hpp"
#include "reason/visit.hpp"

namespace ashtriage::present {

namespace {

using packs::RuleSet;
using packs::SettledPart;
using reason::Condition;
using reason::HitPolicy;
using reason::TableIndex;

// Puts one condition into words. What holds always or never is no longer in the condition itself,
// so what was written for it is taken, in the same order, from beside it.
class ConditionWords {
 public:
    ConditionWords(const std::vector<SettledPart>& settled, const RuleSet& rules)
        : settled_(settled), rules_(rules) {}

    WordedCondition operator()(const Condition& condition) {
        switch (condition.kind) {
            case Condition::Kind::all:
                return group("all of these:", condition, true);
            case Condition::Kind::any:
                return group("at least one of these:", condition, false);
            case Condition::Kind::negation:
                return negation(condition.parts.front());
            default:
                return {packs::condition_text(condition, rules_), {}};
        }
    }

 private:
    WordedCondition group(std::string joined_by, const Condition& condition, bool holds_if_empty) {
        if (condition.parts.empty()) return settled(holds_if_empty);
        WordedCondition worded{std::move(joined_by), {}};
        for (const Condition& part : condition.parts) worded.parts.push_back((*this)(part));
        return worded;
    }

    WordedCondition settled(bool holds) {
        const SettledPart& part = settled_.at(next_settled_++);
        if (part.setting.empty()) return {part.said, {}};
        return {part.said + (holds ? ", which holds" : ", which does not hold"), {}};
    }

    WordedCondition negation(const Condition& denied) {
        WordedCondition worded = (*this)(denied);
        if (worded.parts.empty()) return {"not: " + worded.text, {}};
        if (denied.kind == Condition::Kind::any) return {"none of these:", worded.parts};
        if (denied.kind == Condition::Kind::all) return {"not all of these:", worded.parts};
        return {"not:", {std::move(worded)}};
    }

    const std::vector<SettledPart>& settled_;
    const RuleSet& rules_;
    std::size_t next_settled_ = 0;
};

std::vector<std::string> plain_names(const std::vector<std::string>& names) {
    std::vector<std::string> result;
    for (const std::string& name : names) result.push_back(packs::plain_name(name));
    return result;
}

std::string when_several_hold(const reason::Table& table) {
    const std::vector<std::string> gives = plain_names(table.gives);
    switch (table.hit_policy) {
        case HitPolicy::unique:
            return "At most one row can hold for a tree, and its answer is given. Should two rows "
                   "hold, that is a mistake in the table, and no answer is given.";
        case HitPolicy::first:
            return "The rows are read from the top. The first one that holds gives the answer; "
                   "those below it are not looked at.";
        case HitPolicy::priority:
            return "If several rows hold, the answer that stands first in this list wins: " +
                   packs::joined(gives, "and last") + ".";
        case HitPolicy::collect:
            return "Every row that holds counts; all their answers are given together, in the "
                   "order in which the table lists them.";
    }
    return {};
}

std::string how_it_answers(const reason::Table& table) {
    return when_several_hold(table) + (table.hit_policy == HitPolicy::collect
                                           ? " If no row holds, nothing is given."
                                           : " If no row holds, there is no answer.");
}

// The text as it reads before there is a tree: figures of settings filled in, the rest in brackets.
std::string without_a_tree(std::string_view text, const RuleSet& rules) {
    std::string result;
    for (const packs::TextPiece& piece : packs::text_pieces(text).pieces) {
        if (!piece.is_name) {
            result += piece.text;
        } else if (const packs::Setting* setting = rules.find_setting(piece.text)) {
            result += packs::setting_text(*setting);
        } else {
            result += "[" + packs::plain_name(piece.text) + "]";
        }
    }
    return result;
}

WordedRule worded_rule(const reason::Table& table, const reason::Rule& rule,
                       const packs::RuleText& text, const RuleSet& rules) {
    return {rule.id,
            worded_condition(rule.when, text.settled, rules),
            packs::plain_name(table.gives[rule.gives]),
            without_a_tree(text.because, rules),
            without_a_tree(text.client, rules),
            without_a_tree(text.todo, rules),
            without_a_tree(text.who, rules),
            text.sources};
}

bool tests(const reason::Table& table, TableIndex tested) {
    return std::ranges::any_of(table.rules, [&](const reason::Rule& rule) {
        bool found = false;
        reason::for_each_test(rule.when, [&](const auto& test) {
            if constexpr (std::is_same_v<std::decay_t<decltype(test)>, reason::OutcomeTest>) {
                found = found || test.table == tested;
            }
        });
        return found;
    });
}

WordedTable worded_table(const RuleSet& rules, TableIndex index,
                         const std::vector<TableIndex>& order) {
    const reason::Table& table = rules.model.tables[index];
    const packs::TableText& text = rules.tables[index];
    WordedTable worded;
    worded.name = table.name;
    worded.title = with_capital(packs::plain_name(table.name));
    worded.file = text.pack + ".yaml";
    worded.about = text.about;
    worded.gives = plain_names(table.gives);
    worded.hit_policy = packs::hit_policy_name(table.hit_policy);
    worded.how_it_answers = how_it_answers(table);
    for (const TableIndex other : order) {
        const reason::Table& neighbour = rules.model.tables[other];
        if (tests(table, other)) worded.fed_by.push_back(neighbour.name);
        if (tests(neighbour, index)) worded.feeds.push_back(neighbour.name);
    }
    for (std::size_t i = 0; i < table.worse.size(); ++i) {
        worded.claims.push_back(direction_words(rules, table.worse[i]));
        std::string exception = exception_words(rules, index, i);
        if (!exception.empty()) worded.exceptions.push_back(std::move(exception));
    }
    for (std::size_t i = 0; i < table.rules.size(); ++i) {
        worded.rules.push_back(worded_rule(table, table.rules[i], text.rules[i], rules));
    }
    return worded;
}

std::set<TableIndex> wanted_tables(const RuleSet& rules, const std::vector<std::string>& names) {
    std::vector<std::string> known;
    for (const reason::Table& table : rules.model.tables) known.push_back(table.name);
    std::set<TableIndex> wanted;
    for (const std::string& name : names) {
        const auto found = std::ranges::find(known, packs::normalised(name), packs::normalised);
        if (found == known.end()) {
            throw measure::InputError("There is no table \"" + name + "\" in the rules", {},
                                      packs::nearest_hint(name, known));
        }
        wanted.insert(static_cast<TableIndex>(found - known.begin()));
    }
    return wanted;
}

// The settings that a table's conditions and texts name.
void add_settings_of(const RuleSet& rules, TableIndex index, std::set<std::string>& names) {
    const packs::TableText& text = rules.tables[index];
    for (const reason::Rule& rule : rules.model.tables[index].rules) {
        reason::for_each_test(rule.when, [&](const auto& test) {
            if constexpr (std::is_same_v<std::decay_t<decltype(test)>, reason::NumberTest>) {
                names.insert(test.setting);
            }
        });
    }
    for (const packs::RuleText& rule : text.rules) {
        for (const SettledPart& part : rule.settled) names.insert(part.setting);
        for (const std::string* said : {&rule.because, &rule.client, &rule.todo, &rule.who}) {
            for (const packs::TextPiece& piece : packs::text_pieces(*said).pieces) {
                if (piece.is_name) names.insert(std::string(piece.text));
            }
        }
    }
}

void add_settings(const RuleSet& rules, const std::set<std::string>& names, RuleTables& result) {
    for (const packs::Setting& setting : rules.settings) {
        if (names.count(setting.name) == 0) continue;
        result.settings.push_back(
            {setting.name, packs::setting_text(setting), setting.about, setting.sources});
    }
}

void add_sources(const RuleSet& rules, RuleTables& result) {
    std::set<std::string> keys;
    const auto add = [&](const auto& cited) {
        keys.insert(cited.sources.begin(), cited.sources.end());
    };
    for (const WordedTable& table : result.tables) std::ranges::for_each(table.rules, add);
    std::ranges::for_each(result.settings, add);
    for (const std::string& key : keys) {
        if (const packs::Source* source = rules.find_source(key)) {
            result.sources.push_back(
                {key, source->citation, std::string(packs::evidence_text(source->evidence))});
        }
    }
}

}  // namespace

WordedCondition worded_condition(const Condition& condition,
                                 const std::vector<SettledPart>& settled, const RuleSet& rules) {
    return ConditionWords(settled, rules)(condition);
}

std::string in_one_line(const WordedCondition& condition) {
    if (condition.parts.empty()) return condition.text;
    std::string parts;
    for (const WordedCondition& part : condition.parts) {
        parts += (parts.empty() ? "" : "; ") + in_one_line(part);
    }
    return condition.text + " (" + parts + ")";
}

std::string claims_sentence(const WordedTable& table) {
    if (table.claims.empty()) return {};
    return "Never a milder answer with " + packs::joined(table.claims, "or") + ".";
}

std::string rules_in_use(const RuleTables& shown) {
    std::string text = "Rules: " + shown.editions + "; hash " + shown.hash.substr(0, 12) +
                       ". Preset: " + shown.preset + ".";
    if (!shown.preset_about.empty()) text += " " + shown.preset_about;
    return text;
}

std::string_view brackets_note() {
    return "What stands in [brackets] is filled in for each tree.";
}

RuleTables rule_tables(const RuleSet& rules, const std::vector<std::string>& names) {
    const std::set<TableIndex> wanted = wanted_tables(rules, names);
    // A rule set that was read has no cycle, so there is an order.
    const std::vector<TableIndex> order = *reason::evaluation_order(rules.model);
    RuleTables result;
    std::set<std::string> settings;
    for (const TableIndex index : order) {
        if (!wanted.empty() && wanted.count(index) == 0) continue;
        result.tables.push_back(worded_table(rules, index, order));
        add_settings_of(rules, index, settings);
    }
    add_settings(rules, settings, result);
    add_sources(rules, result);
    result.preset = rules.preset.empty() ? "default" : rules.preset;
    const auto preset = std::ranges::find(rules.presets, rules.preset, &packs::Preset::name);
    if (preset != rules.presets.end()) result.preset_about = preset->about;
    result.editions = editions_words(rules);
    result.hash = rules.hash;
    return result;
}

}  // namespace ashtriage::present
