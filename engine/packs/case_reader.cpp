#include <fmt/format.h>

#include <utility>

#include "measure/input_error.hpp"
#include "packs/applicability.hpp"
#include "packs/readers.hpp"
#include "packs/sources.hpp"
#include "packs/value_text.hpp"

namespace ashtriage::packs {

namespace {

using reason::HitPolicy;
using reason::LevelSet;

bool is_case_id(const std::string& id) {
    constexpr std::size_t longest = 80;
    return !id.empty() && id.size() <= longest &&
           id.find_first_not_of(
               "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-") ==
               std::string::npos;
}

void check_new_case_id(const std::string& id, Place place, const YamlSource& source, Draft& draft) {
    if (!is_case_id(id)) {
        source.refuse("bad-name", place, fmt::format("'{}' cannot be the id of a case", id),
                      "use letters, digits, '-', '_' and '.'");
        return;
    }
    const auto [other, is_new] = draft.case_ids.emplace(id, place_text(source, place));
    if (is_new) return;
    source.refuse("duplicate-id", place,
                  fmt::format("the case id '{}' is taken by the case at {}", id, other->second),
                  "give every case of all files an id of its own");
}

void read_given(const Node& given, const std::string& what, const YamlSource& source, Draft& draft,
                Case& result) {
    for (const Entry& entry : given.entries) {
        if (draft.is_broken(entry.key)) continue;
        const auto fact = draft.facts.find(entry.key);
        if (fact == draft.facts.end()) {
            source.refuse("unknown-fact", entry.place,
                          fmt::format("{} gives '{}', which is no fact", what, entry.key),
                          nearest_hint(entry.key, draft.fact_names()));
            continue;
        }
        const auto text =
            read_text(entry.value, fmt::format("'{}' of {}", entry.key, what), source);
        if (!text) continue;
        try {
            result.given[fact->second] = parse_value(draft.set.model.facts[fact->second],
                                                     draft.set.facts[fact->second], *text);
        } catch (const measure::InputError& error) {
            source.refuse("bad-value", entry.value.place, error.what(), error.hint());
        }
    }
    for (const reason::FactIndex fact : contradictions(draft.set, result.given)) {
        source.refuse("does-not-apply", given.place,
                      fmt::format("{} gives '{}' a value, but what else it gives says that it does "
                                  "not apply",
                                  what, draft.set.model.facts[fact].name),
                      "see 'only_if' of the fact");
    }
}

LevelSet read_outcomes(const Node& node, const std::string& name,
                       const std::vector<std::string>& gives, const YamlSource& source) {
    const auto one = [&](const Node& item) {
        const auto outcome = read_choice(item, name, gives, source);
        return outcome ? reason::only_level(*outcome) : LevelSet{0};
    };
    if (node.kind != Node::Kind::sequence) return one(node);
    LevelSet set = 0;
    for (const Node& item : node.items) set |= one(item);
    return set;
}

void read_expected_of(const Entry& entry, const std::string& what, const YamlSource& source,
                      const Draft& draft, Case& result) {
    if (draft.is_broken(entry.key)) return;
    const auto found = draft.tables.find(entry.key);
    if (found == draft.tables.end()) {
        source.refuse(
            "unknown-table", entry.place,
            fmt::format("{} expects something of '{}', which is no table", what, entry.key),
            nearest_hint(entry.key, draft.table_names()));
        return;
    }
    const reason::Table& table = draft.set.model.tables[found->second];
    const std::string name = fmt::format("what {} expects of '{}'", what, table.name);
    const std::size_t problems_before = source.problems.size();
    Expectation expectation;
    expectation.table = found->second;
    if (table.hit_policy != HitPolicy::collect) {
        expectation.exactly = read_outcomes(entry.value, name, table.gives, source);
    } else if (entry.value.kind == Node::Kind::mapping) {
        Fields fields(entry.value, name, source);
        const Node* includes = fields.optional("includes");
        const Node* excludes = fields.optional("excludes");
        fields.refuse_others();
        if (includes != nullptr) {
            expectation.includes = read_outcomes(*includes, name, table.gives, source);
        }
        if (excludes != nullptr) {
            expectation.excludes = read_outcomes(*excludes, name, table.gives, source);
        }
    } else {
        expectation.includes = read_outcomes(entry.value, name, table.gives, source);
    }
    const bool expects_nothing =
        (expectation.exactly | expectation.includes | expectation.excludes) == 0;
    if (expects_nothing && source.problems.size() == problems_before) {
        source.refuse("empty-value", entry.value.place, fmt::format("{} is nothing", name),
                      "name outcomes, or leave the table out");
    }
    result.expected.push_back(expectation);
}

void read_case(const Node& node, const PackFile& file, Draft& draft) {
    const YamlSource& source = file.source;
    const Node* id = node.find("id");
    const std::string what = id != nullptr && id->kind == Node::Kind::scalar
                                 ? fmt::format("the case '{}'", id->text)
                                 : "a case";
    Fields fields(node, what, source);
    if (!fields.is_mapping()) return;
    Case result;
    result.given.resize(draft.set.model.facts.size());
    result.file = source.file;
    result.line = node.place.line;
    result.id = fields.text("id");
    if (!result.id.empty()) check_new_case_id(result.id, fields.place("id"), source, draft);
    result.preset = fields.text_or("preset", "");
    if (!result.preset.empty() && draft.presets.count(result.preset) == 0) {
        std::vector<std::string> names;
        for (const Preset& preset : draft.set.presets) names.push_back(preset.name);
        fields.refuse("preset", "unknown-preset",
                      fmt::format("{} names the unknown preset '{}'", what, result.preset),
                      nearest_hint(result.preset, names));
    }
    result.about = fields.text_or("about", "");
    if (const Node* given = fields.mapping("given")) {
        read_given(*given, what, source, draft, result);
    }
    if (const Node* expected = fields.mapping("expect")) {
        for (const Entry& entry : expected->entries) {
            read_expected_of(entry, what, source, draft, result);
        }
        if (expected->entries.empty()) {
            fields.refuse("expect", "empty-value", fmt::format("{} expects nothing", what),
                          "name a table and the outcome it must have");
        }
    }
    result.sources = read_source_keys(fields, "source", draft.set.sources);
    fields.refuse_others();
    draft.set.cases.push_back(std::move(result));
}

}  // namespace

void read_cases(const Node& cases, const PackFile& file, Draft& draft) {
    for (const Node& node : cases.items) read_case(node, file, draft);
}

}  // namespace ashtriage::packs
