#include <fmt/format.h>

#include <type_traits>
#include <utility>

#include "packs/fact_units.hpp"
#include "packs/file_words.hpp"
#include "packs/readers.hpp"
#include "packs/sources.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "reason/visit.hpp"

namespace ashtriage::packs {

namespace {

using reason::Fact;
using reason::FactKind;

void read_range(Fields& fields, Fact& fact) {
    const Node* range = fields.list("range");
    if (range == nullptr) return;
    const std::string name = fmt::format("'range' of {}", fields.what());
    if (range->items.size() != 2) {
        fields.refuse(
            "range", "bad-range",
            fmt::format("{} has {} entries; expected two numbers", name, range->items.size()),
            "write the lowest and the highest value: [0, 100]");
        return;
    }
    const auto low = read_number(range->items[0], "the lower end of " + name, fields.source());
    const auto high = read_number(range->items[1], "the upper end of " + name, fields.source());
    if (!low || !high) return;
    if (*low >= *high) {
        fields.refuse(
            "range", "bad-range",
            fmt::format("{} goes from {} to {}; expected the lower end first", name, *low, *high),
            "write the lowest and the highest value: [0, 100]");
        return;
    }
    fact.range = reason::Interval::closed(*low, *high);
}

void read_number_fact(Fields& fields, Fact& fact, FactText& text) {
    const std::vector<std::string> units = fact_unit_names();
    text.unit = units[fields.choice("unit", units)];
    const FactUnit* unit = find_fact_unit(text.unit);
    fact.whole = unit != nullptr && unit->whole_numbers;
    read_range(fields, fact);
    const double widest = fact.range.high - fact.range.low;
    fact.eye_error =
        fields.number_or("eye_error", 0.0, widest > 0 ? Bounds{0.0, widest} : Bounds{0.0});
}

// On a sheet such a level would mean something else.
void check_readable_on_a_sheet(const PlacedName& level, const YamlSource& source) {
    if (!means_no_value(level.name) && normalised(level.name).find(" or ") == std::string::npos)
        return;
    source.refuse(
        "bad-name", level.place,
        fmt::format("'{}' cannot be a level: on a sheet it would mean something else", level.name),
        "use another word; 'unknown', 'could not see', 'does not apply' and 'or' are taken");
}

void read_levels(Fields& fields, Fact& fact, FactText& text) {
    const Node* levels = fields.required("levels");
    if (levels == nullptr) return;
    const std::string name = fmt::format("'levels' of {}", fields.what());
    const std::vector<PlacedName> names = names_in(*levels, name, fields.source());
    check_names(names, 2, reason::most_levels, fields.what(), *levels, fields.source());
    for (const PlacedName& level : names) {
        check_readable_on_a_sheet(level, fields.source());
        fact.levels.push_back(level.name);
    }
    text.level_help.resize(fact.levels.size());
    for (std::size_t i = 0; i < levels->entries.size(); ++i) {
        const Entry& entry = levels->entries[i];
        text.level_help[i] =
            read_text(entry.value, fmt::format("the level '{}' of {}", entry.key, fields.what()),
                      fields.source())
                .value_or("");
    }
}

void refuse_for_kind(Fields& fields, std::string_view key, FactKind kind) {
    if (fields.optional(key) == nullptr) return;
    fields.refuse(key, "not-for-this-kind",
                  fmt::format("{} is of the kind '{}', which has no '{}'", fields.what(),
                              kind_names()[static_cast<std::size_t>(kind)], key),
                  "leave it out, or change the kind");
}

void read_fact(const Entry& entry, const PackFile& file, Draft& draft) {
    if (!draft.check_new_name("a fact", entry, file.source)) {
        draft.broken.insert(entry.key);
        return;
    }
    Fields fields(entry.value, fmt::format("the fact '{}'", entry.key), file.source);
    const std::size_t problems_before = file.source.problems.size();
    Fact fact;
    FactText text;
    fact.name = entry.key;
    fact.kind = static_cast<FactKind>(fields.choice("kind", kind_names()));

    const bool kind_known = file.source.problems.size() == problems_before;
    if (!kind_known) {
        for (const char* key : {"unit", "range", "eye_error", "levels"}) fields.optional(key);
    } else if (fact.kind == FactKind::number) {
        read_number_fact(fields, fact, text);
    } else {
        for (const char* key : {"unit", "range", "eye_error"}) {
            refuse_for_kind(fields, key, fact.kind);
        }
    }
    if (kind_known && (fact.kind == FactKind::ordered || fact.kind == FactKind::choice)) {
        read_levels(fields, fact, text);
    } else if (kind_known) {
        refuse_for_kind(fields, "levels", fact.kind);
    }
    if (fact.kind == FactKind::yes_no) {
        fact.levels = reason::yes_no_levels();
        text.level_help.resize(fact.levels.size());
    }

    if (file.source.problems.size() > problems_before) draft.broken.insert(fact.name);

    text.asked = fields.yes_no_or("asked", true);
    fact.changeable = fields.yes_no_or("changeable", true);
    fact.may_not_apply = fields.yes_no_or("may_not_apply", false);
    text.effort = static_cast<Effort>(fields.choice_or("effort", effort_names(), 0));
    text.safety = fields.yes_no_or("safety", false);
    text.group = fields.text("group");
    text.ask = fields.text("ask");
    text.help = fields.text_or("help", "");
    text.sources = read_source_keys(fields, "source", draft.set.sources);
    fields.optional("only_if");  // read when all names are known
    if (!fields.texts_or_none("worked_out_from").empty() && text.asked) {
        fields.refuse("worked_out_from", "asked-and-worked-out",
                      fmt::format("{} is asked, and yet worked out from others", fields.what()),
                      "write 'asked: no'");
    }
    fields.refuse_others();

    draft.facts.emplace(fact.name, draft.set.model.facts.size());
    draft.fact_nodes.push_back(&entry.value);
    draft.fact_files.push_back(&file);
    draft.set.model.facts.push_back(std::move(fact));
    draft.set.facts.push_back(std::move(text));
}

// The facts on which the applicability of `fact` rests, from one to the next, come back to it.
bool rests_on_itself(const Draft& draft, reason::FactIndex fact) {
    std::vector<bool> seen(draft.set.facts.size(), false);
    std::vector<reason::FactIndex> open = {fact};
    while (!open.empty()) {
        const reason::FactIndex current = open.back();
        open.pop_back();
        const reason::Condition* only_if = draft.set.model.condition_to_apply(current);
        if (only_if == nullptr) continue;
        bool back = false;
        reason::for_each_test(*only_if, [&](const auto& test) {
            if constexpr (!std::is_same_v<std::decay_t<decltype(test)>, reason::OutcomeTest>) {
                back = back || test.fact == fact;
                if (!seen[test.fact]) open.push_back(test.fact);
                seen[test.fact] = true;
            }
        });
        if (back) return true;
    }
    return false;
}

bool tests_a_table(const reason::Condition& condition) {
    bool result = false;
    reason::for_each_test(condition, [&](const auto& test) {
        result = result || std::is_same_v<std::decay_t<decltype(test)>, reason::OutcomeTest>;
    });
    return result;
}

void read_what_it_is_worked_out_from(reason::FactIndex fact, Draft& draft) {
    const Node* node = draft.fact_nodes[fact]->find("worked_out_from");
    if (node == nullptr) return;
    const YamlSource& source = draft.fact_files[fact]->source;
    const std::string what =
        fmt::format("'worked_out_from' of '{}'", draft.set.model.facts[fact].name);
    const std::vector<std::string> all_names = draft.fact_names();
    const auto read = [&](const Node& item) {
        const auto other = read_choice(item, what, all_names, source);
        if (other) draft.set.facts[fact].worked_out_from.push_back(*other);
    };
    if (node->kind == Node::Kind::scalar) read(*node);
    for (const Node& item : node->items) read(item);
}

}  // namespace

void read_facts(const Node& facts, const PackFile& file, Draft& draft) {
    for (const Entry& entry : facts.entries) read_fact(entry, file, draft);
}

void read_relations(Draft& draft) {
    draft.set.model.applies_if.resize(draft.set.model.facts.size());
    const auto condition_of = [&](reason::FactIndex fact) {
        return draft.fact_nodes[fact]->find("only_if");
    };
    for (reason::FactIndex fact = 0; fact < draft.fact_nodes.size(); ++fact) {
        read_what_it_is_worked_out_from(fact, draft);
        const Node* node = condition_of(fact);
        if (node == nullptr) continue;
        const std::string what = fmt::format("the fact '{}'", draft.set.model.facts[fact].name);
        const YamlSource& source = draft.fact_files[fact]->source;
        ReadCondition read = read_condition(*node, what, source, draft);
        if (tests_a_table(read.condition)) {
            source.refuse("table-in-only-if", node->place,
                          fmt::format("'only_if' of {} tests a table", what),
                          "test facts: whether a question makes sense must not rest on the answer");
            continue;
        }
        draft.set.model.applies_if[fact] = std::move(read.condition);
        draft.set.facts[fact].settled = std::move(read.settled);
        draft.set.model.facts[fact].may_not_apply = true;
    }
    for (reason::FactIndex fact = 0; fact < draft.fact_nodes.size(); ++fact) {
        if (!rests_on_itself(draft, fact)) continue;
        draft.fact_files[fact]->source.refuse(
            "cycle", condition_of(fact)->place,
            fmt::format("whether the fact '{}' applies depends on itself",
                        draft.set.model.facts[fact].name),
            "a fact can apply or not only because of facts that come before it");
    }
}

}  // namespace ashtriage::packs
