#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "packs/fact_units.hpp"
#include "packs/readers.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

using reason::Condition;
using reason::Fact;
using reason::FactIndex;
using reason::FactKind;
using reason::Interval;
using reason::LevelSet;

constexpr std::array comparison_names = {"above", "at_least", "below", "at_most"};

bool is_comparison(const std::string& name) {
    return std::find(comparison_names.begin(), comparison_names.end(), name) !=
           comparison_names.end();
}

// One number a fact is compared with, written out or taken from a setting.
struct Threshold {
    double value = 0.0;
    std::string setting;
    Place place;
};

class ConditionReader {
 public:
    ConditionReader(std::string what, const YamlSource& source, Draft& draft)
        : what_(std::move(what)), source_(source), draft_(draft) {}

    Condition condition(const Node& node) {
        if (node.kind == Node::Kind::scalar && node.text == "always") {
            return settled(true, {}, "always");
        }
        if (node.kind == Node::Kind::scalar && node.text.empty()) {
            refuse("empty-value", node.place,
                   fmt::format("{} has no condition: nothing stands behind this name", what_),
                   "write it as {fact: test}, or 'always'");
            return Condition::always();
        }
        if (node.kind != Node::Kind::mapping) {
            refuse(
                "wrong-kind", node.place,
                fmt::format("the condition of {} is {}; expected a mapping of facts and tables, or "
                            "'always'",
                            what_, kind_text(node.kind)),
                "write it as {fact: test}");
            return Condition::always();
        }
        if (node.entries.empty()) {
            refuse("empty-condition", node.place, fmt::format("{} has an empty condition", what_),
                   "write 'always' if it is meant to hold always");
            return Condition::always();
        }
        std::vector<Condition> parts;
        for (const Entry& entry : node.entries) parts.push_back(part(entry));
        return joined_by_all(std::move(parts));
    }

    std::vector<SettledPart> take_settled() { return std::move(settled_); }
    std::vector<Place> take_tests() { return std::move(tests_); }

 private:
    void refuse(std::string id, Place place, std::string message, std::string hint = {}) {
        source_.refuse(std::move(id), place, std::move(message), std::move(hint));
    }

    // A condition that holds always or never.
    Condition settled(bool holds, std::string setting, std::string said) {
        settled_.push_back({std::move(setting), std::move(said)});
        return holds ? Condition::always() : Condition::any({});
    }

    // Notes where the test stands. Called in the order in which the tests are put together.
    Condition placed(Condition test, Place place) {
        tests_.push_back(place);
        return test;
    }

    static Condition joined_by_all(std::vector<Condition> parts) {
        if (parts.size() == 1) return std::move(parts.front());
        return Condition::all(std::move(parts));
    }

    Condition part(const Entry& entry) {
        const Node& value = entry.value;
        if (entry.key == "all") return Condition::all(conditions(entry));
        if (entry.key == "any") return Condition::any(conditions(entry));
        if (entry.key == "not") return Condition::negation(condition(value));
        if (entry.key == "setting") return switches(value);
        if (draft_.is_broken(entry.key)) return Condition::always();
        if (const auto fact = draft_.facts.find(entry.key); fact != draft_.facts.end()) {
            const bool number = draft_.set.model.facts[fact->second].kind == FactKind::number;
            return number ? number_test(fact->second, value) : level_test(fact->second, value);
        }
        if (const auto table = draft_.tables.find(entry.key); table != draft_.tables.end()) {
            return outcome_test(table->second, value);
        }
        refuse_unknown_name(entry);
        return Condition::always();
    }

    void refuse_unknown_name(const Entry& entry) {
        const std::string message =
            fmt::format("{} tests '{}', which is no fact and no table", what_, entry.key);
        if (draft_.settings_by_name.count(entry.key) != 0) {
            refuse("unknown-fact", entry.place, message,
                   fmt::format(
                       "'{0}' is a setting: a switch is tested by {{setting: {{{0}: yes}}}}, a "
                       "figure stands behind a comparison: {{above: {{setting: {0}}}}}",
                       entry.key));
            return;
        }
        std::vector<std::string> names = draft_.fact_names();
        for (const std::string& table : draft_.table_names()) names.push_back(table);
        refuse("unknown-fact", entry.place, message, nearest_hint(entry.key, names));
    }

    std::vector<Condition> conditions(const Entry& entry) {
        std::vector<Condition> parts;
        if (entry.value.kind != Node::Kind::sequence) {
            refuse("wrong-kind", entry.value.place,
                   fmt::format("'{}' of {} is {}; expected a list of conditions", entry.key, what_,
                               kind_text(entry.value.kind)),
                   fmt::format("write {}: [{{fact: test}}, {{fact: test}}]", entry.key));
            return parts;
        }
        if (entry.value.items.empty()) {
            refuse("empty-condition", entry.value.place,
                   fmt::format("'{}' of {} is an empty list", entry.key, what_),
                   "list the conditions, or leave it out");
        }
        for (const Node& item : entry.value.items) parts.push_back(condition(item));
        return parts;
    }

    // Switches are known when the rules are read: what is left of them is always or never.
    Condition switches(const Node& node) {
        const std::string name = fmt::format("'setting' of {}", what_);
        Fields fields(node, name, source_);
        if (fields.is_mapping() && node.entries.empty()) {
            refuse("empty-condition", node.place, fmt::format("{} names no switch", name),
                   "write {setting: {switch: yes}}");
        }
        std::vector<Condition> parts;
        for (const Entry& entry : node.entries) {
            Setting* setting = used_setting(entry.key, entry.place);
            if (setting == nullptr) continue;
            if (!setting->is_switch) {
                refuse("wrong-kind", entry.place,
                       fmt::format("{} tests the setting '{}' as a switch, but it is a figure",
                                   what_, entry.key),
                       fmt::format("put it behind a comparison: {{above: {{setting: {}}}}}",
                                   entry.key));
                continue;
            }
            const auto wanted = read_yes_no(entry.value, fmt::format("'{}'", entry.key), source_);
            if (!wanted) continue;
            parts.push_back(
                settled(*wanted == (setting->value != 0.0), entry.key,
                        fmt::format("setting {} is {}", entry.key, *wanted ? "yes" : "no")));
        }
        return joined_by_all(std::move(parts));
    }

    Setting* used_setting(const std::string& name, Place place) {
        const auto found = draft_.settings_by_name.find(name);
        if (found == draft_.settings_by_name.end()) {
            if (!draft_.is_broken(name)) {
                refuse("unknown-setting", place,
                       fmt::format("{} uses the unknown setting '{}'", what_, name),
                       nearest_hint(name, draft_.setting_names()));
            }
            return nullptr;
        }
        draft_.settings[found->second].used = true;
        return draft_.is_broken(name) ? nullptr : &draft_.set.settings[found->second];
    }

    // --- numbers ---

    Condition number_test(FactIndex index, const Node& node) {
        const Fact& fact = draft_.set.model.facts[index];
        if (node.kind != Node::Kind::mapping || node.entries.empty()) {
            refuse("wrong-kind", node.place,
                   fmt::format("{} tests the number '{}' with {}; expected a comparison", what_,
                               fact.name,
                               node.kind == Node::Kind::scalar ? fmt::format("'{}'", node.text)
                                                               : std::string(kind_text(node.kind))),
                   "write {above: 50}, {at_least: 50}, {below: 50}, {at_most: 50}, {between: [20, "
                   "50]} "
                   "or {is: 50}");
            return Condition::always();
        }
        Interval written_out = fact.range;  // all comparisons with numbers, as one stretch
        std::optional<Place> first_written_out;
        bool possible = true;
        std::vector<Condition> parts;
        std::string comparison;
        const auto add = [&](const Interval& stretch, const Threshold& limit) {
            if (!limit.setting.empty()) {
                const auto inside = reason::intersection(stretch, fact.range);
                parts.push_back(
                    inside ? placed(Condition::number(index, *inside, limit.setting), limit.place)
                           : never_met(index, comparison, limit.setting));
                return;
            }
            if (!first_written_out) first_written_out = limit.place;
            const auto shared = reason::intersection(written_out, stretch);
            possible = possible && shared.has_value();
            if (shared) written_out = *shared;
        };
        for (const Entry& entry : node.entries) {
            comparison = entry.key;
            compare(index, entry, add);
        }
        if (!possible) {
            refuse("never-holds", node.place,
                   fmt::format("no {} can meet this test of {}", plain_name(fact.name), what_),
                   fmt::format("the comparisons leave no number over: change one of them, or leave "
                               "one out; '{}' is {}",
                               fact.name, expected_text(fact, draft_.set.facts[index])));
        }
        if (first_written_out) {
            parts.push_back(placed(Condition::number(index, written_out), *first_written_out));
        }
        return joined_by_all(std::move(parts));
    }

    // A comparison that leaves nothing of the fact's range: above its upper end, below its lower.
    Condition never_met(FactIndex index, const std::string& comparison,
                        const std::string& setting) {
        const double value = draft_.set.settings[draft_.settings_by_name.at(setting)].value;
        return settled(
            false, setting,
            fmt::format("{} {} {} (setting {})", plain_name(draft_.set.model.facts[index].name),
                        plain_name(comparison),
                        number_with_unit(value, draft_.set.facts[index].unit), setting));
    }

    template <class Add>
    void compare(FactIndex index, const Entry& entry, const Add& add) {
        const Interval& range = draft_.set.model.facts[index].range;
        if (entry.key == "between") {
            if (entry.value.kind != Node::Kind::sequence || entry.value.items.size() != 2) {
                refuse("wrong-kind", entry.value.place,
                       fmt::format("'between' of {} needs a list of two numbers", what_),
                       "write {between: [20, 50]}; both ends belong to it");
                return;
            }
            const auto low = threshold(index, entry.value.items[0]);
            const auto high = threshold(index, entry.value.items[1]);
            if (low && high && high->value < low->value) {
                refuse("bad-range", entry.value.place,
                       fmt::format("'between' of {} goes from {} to {}; expected the lower one "
                                   "first",
                                   what_, low->value, high->value),
                       fmt::format("write {{between: [{}, {}]}}", high->value, low->value));
                return;
            }
            if (low) add({low->value, range.high, false, false}, *low);
            if (high) add({range.low, high->value, false, false}, *high);
            return;
        }
        if (entry.key != "is" && !is_comparison(entry.key)) {
            refuse("unknown-key", entry.place,
                   fmt::format("{} tests a number with '{}'", what_, entry.key),
                   nearest_hint(entry.key,
                                {"above", "at_least", "below", "at_most", "between", "is"}));
            return;
        }
        const auto limit = threshold(index, entry.value);
        if (!limit) return;
        if (entry.key == "is") {
            add(Interval::point(limit->value), *limit);
        } else if (entry.key == "above" || entry.key == "at_least") {
            add({limit->value, range.high, entry.key == "above", false}, *limit);
        } else {
            add({range.low, limit->value, false, entry.key == "below"}, *limit);
        }
    }

    std::optional<Threshold> threshold(FactIndex index, const Node& node) {
        const Fact& fact = draft_.set.model.facts[index];
        if (node.kind == Node::Kind::mapping) return setting_threshold(index, node);
        const auto value = read_number(
            node, fmt::format("the number that {} compares '{}' with", what_, fact.name), source_);
        if (!value) return std::nullopt;
        if (!fact.range.contains(*value)) {
            refuse(
                "outside-range", node.place,
                fmt::format("{} compares '{}' with {}", what_, fact.name, *value),
                fmt::format("'{}' is {}", fact.name, expected_text(fact, draft_.set.facts[index])));
            return std::nullopt;
        }
        return Threshold{*value, {}, node.place};
    }

    std::optional<Threshold> setting_threshold(FactIndex index, const Node& node) {
        const Fact& fact = draft_.set.model.facts[index];
        Fields fields(node, fmt::format("the number that {} compares '{}' with", what_, fact.name),
                      source_);
        const std::string name = fields.text("setting");
        fields.refuse_others();
        if (name.empty()) return std::nullopt;
        const Place place = fields.place("setting");
        Setting* setting = used_setting(name, place);
        if (setting == nullptr) return std::nullopt;
        const std::string& unit = draft_.set.facts[index].unit;
        if (setting->unit != unit) {
            refuse("wrong-unit", place,
                   fmt::format("{} compares '{}', in {}, with the setting '{}', {}", what_,
                               fact.name, plain_name(unit), name,
                               setting->is_switch ? "a switch" : "in " + plain_name(setting->unit)),
                   "give the setting the unit of the fact");
            return std::nullopt;
        }
        check_setting_range(index, name, draft_);
        return Threshold{setting->value, name, node.place};
    }

    // --- levels ---

    Condition level_test(FactIndex index, const Node& node) {
        const Fact& fact = draft_.set.model.facts[index];
        const std::string name = fmt::format("the value that {} tests '{}' for", what_, fact.name);
        if (node.kind == Node::Kind::scalar) {
            const auto level = read_choice(node, name, fact.levels, source_);
            return level ? placed(Condition::level(index, reason::only_level(*level)), node.place)
                         : Condition::always();
        }
        Fields fields(node, fmt::format("the test of '{}' in {}", fact.name, what_), source_);
        LevelSet accepted = reason::all_levels(fact.levels.size());
        bool readable = fields.is_mapping();
        for (const Entry& entry : node.entries) {
            const auto levels = accepted_levels(fact, entry, name);
            readable = readable && levels.has_value();
            if (levels) accepted &= *levels;
        }
        if (!readable) return Condition::always();
        if (accepted == 0 || node.entries.empty()) {
            refuse("never-holds", node.place,
                   fmt::format("no value of '{}' can meet this test of {}", fact.name, what_),
                   fmt::format("its values are {}", joined(fact.levels, "and")));
        }
        return placed(Condition::level(index, accepted), node.place);
    }

    std::optional<LevelSet> accepted_levels(const Fact& fact, const Entry& entry,
                                            const std::string& name) {
        if (entry.key == "one_of") return choices(entry.value, fact.levels, name);
        const bool compares = is_comparison(entry.key);
        if (entry.key != "is" && !compares) {
            refuse(
                "unknown-key", entry.place,
                fmt::format("{} tests '{}' with '{}'", what_, fact.name, entry.key),
                nearest_hint(entry.key, {"is", "one_of", "above", "at_least", "below", "at_most"}));
            return std::nullopt;
        }
        if (compares && fact.kind != FactKind::ordered) {
            refuse("not-ordered", entry.place,
                   fmt::format("{} compares '{}', whose values have no order, with '{}'", what_,
                               fact.name, entry.key),
                   "name the values: {one_of: [...]}, or make the fact 'ordered'");
            return std::nullopt;
        }
        const auto level = read_choice(entry.value, name, fact.levels, source_);
        if (!level) return std::nullopt;
        const LevelSet up_to = reason::all_levels(*level + 1);
        const LevelSet below = reason::all_levels(*level);
        if (entry.key == "at_most") return up_to;
        if (entry.key == "below") return below;
        const LevelSet all = reason::all_levels(fact.levels.size());
        if (entry.key == "at_least") return all & ~below;
        if (entry.key == "above") return all & ~up_to;
        return reason::only_level(*level);
    }

    std::optional<LevelSet> choices(const Node& node, const std::vector<std::string>& names,
                                    const std::string& name) {
        if (node.kind != Node::Kind::sequence || node.items.empty()) {
            refuse("wrong-kind", node.place,
                   fmt::format(
                       "{} is {}; expected a list", name,
                       node.kind == Node::Kind::sequence ? "an empty list" : kind_text(node.kind)),
                   "write [one, two]");
            return std::nullopt;
        }
        LevelSet set = 0;
        bool readable = true;
        for (const Node& item : node.items) {
            const auto choice = read_choice(item, name, names, source_);
            readable = readable && choice.has_value();
            if (choice) set |= reason::only_level(*choice);
        }
        if (!readable) return std::nullopt;
        return set;
    }

    // --- outcomes of tables ---

    Condition outcome_test(reason::TableIndex index, const Node& node) {
        const reason::Table& table = draft_.set.model.tables[index];
        const bool collects = table.hit_policy == reason::HitPolicy::collect;
        const std::string name =
            fmt::format("the outcome that {} tests '{}' for", what_, table.name);
        if (node.kind == Node::Kind::scalar && !collects) {
            const auto outcome = read_choice(node, name, table.gives, source_);
            return outcome
                       ? placed(Condition::outcome(index, reason::only_level(*outcome)), node.place)
                       : Condition::always();
        }
        const std::string one = collects ? "includes" : "is";
        const std::string several = collects ? "includes_any" : "one_of";
        if (node.kind != Node::Kind::mapping || node.entries.size() != 1) {
            refuse(
                "wrong-kind", node.place,
                fmt::format("{} tests the table '{}' in a way it does not have", what_, table.name),
                fmt::format("write {{{}: outcome}} or {{{}: [outcome, outcome]}}", one, several));
            return Condition::always();
        }
        const Entry& entry = node.entries.front();
        std::optional<LevelSet> accepted;
        if (entry.key == several) {
            accepted = choices(entry.value, table.gives, name);
        } else if (entry.key == one) {
            const auto outcome = read_choice(entry.value, name, table.gives, source_);
            if (outcome) accepted = reason::only_level(*outcome);
        } else {
            refuse("unknown-key", entry.place,
                   fmt::format("{} tests the table '{}' with '{}'", what_, table.name, entry.key),
                   nearest_hint(entry.key, {one, several}));
        }
        return accepted ? placed(Condition::outcome(index, *accepted), node.place)
                        : Condition::always();
    }

    std::string what_;
    const YamlSource& source_;
    Draft& draft_;
    std::vector<SettledPart> settled_;
    std::vector<Place> tests_;
};

}  // namespace

ReadCondition read_condition(const Node& node, const std::string& what, const YamlSource& source,
                             Draft& draft) {
    ConditionReader reader(what, source, draft);
    Condition condition = reader.condition(node);
    return {std::move(condition), reader.take_settled(), reader.take_tests()};
}

}  // namespace ashtriage::packs
