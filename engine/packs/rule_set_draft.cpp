#include "packs/rule_set_draft.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

constexpr std::size_t longest_name = 64;
constexpr std::array reserved_names = {"all", "any", "not", "setting", "always"};

bool is_small_letter(char c) {
    return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool written_as_name(std::string_view name) {
    return !name.empty() && name.size() <= longest_name &&
           std::all_of(name.begin(), name.end(),
                       [](char c) { return is_small_letter(c) || is_digit(c) || c == '_'; });
}

}  // namespace

std::string place_text(const YamlSource& source, Place place) {
    return fmt::format("{}:{}:{}", source.file, place.line, place.column);
}

bool check_name(std::string_view what, const std::string& name, Place place,
                const YamlSource& source) {
    if (written_as_name(name)) return true;
    source.refuse(
        "bad-name", place, fmt::format("'{}' cannot be the name of {}", name, what),
        fmt::format("use small letters, digits and '_', at most {} of them", longest_name));
    return false;
}

bool check_id(std::string_view what, const std::string& id, Place place, const YamlSource& source) {
    std::string name = id;
    std::replace(name.begin(), name.end(), '-', '_');
    if (written_as_name(name)) return true;
    source.refuse(
        "bad-name", place, fmt::format("'{}' cannot be the name of {}", id, what),
        fmt::format("use small letters, digits, '-' and '_', at most {} of them", longest_name));
    return false;
}

std::vector<PlacedName> names_in(const Node& node, const std::string& name,
                                 const YamlSource& source) {
    std::vector<PlacedName> names;
    if (node.kind == Node::Kind::mapping) {
        for (const Entry& entry : node.entries) names.push_back({entry.key, entry.place});
        return names;
    }
    if (node.kind == Node::Kind::scalar) {
        source.refuse("wrong-kind", node.place,
                      fmt::format("{} is a single value; expected a list of names", name),
                      "write [one, two]");
        return names;
    }
    for (const Node& item : node.items) {
        if (auto text = read_text(item, "an entry of " + name, source)) {
            names.push_back({std::move(*text), item.place});
        }
    }
    return names;
}

void check_names(const std::vector<PlacedName>& names, std::size_t least, std::size_t most,
                 const std::string& what, const Node& node, const YamlSource& source) {
    if (node.kind == Node::Kind::scalar) return;  // names_in has reported it
    if (names.size() < least || names.size() > most) {
        source.refuse(names.size() < least ? "too-few-values" : "too-many-values", node.place,
                      fmt::format("{} has {} value{}; expected {} to {}", what, names.size(),
                                  names.size() == 1 ? "" : "s", least, most),
                      names.size() < least ? "write them as a list: [low, high]"
                                           : "join those that no rule tells apart");
    }
    std::set<std::string> seen;
    for (const PlacedName& name : names) {
        if (!check_name("a value of " + what, name.name, name.place, source)) continue;
        if (!seen.insert(normalised(name.name)).second) {
            source.refuse("duplicate-name", name.place,
                          fmt::format("{} has '{}' twice", what, name.name),
                          "give every value a name of its own");
        }
    }
}

std::vector<std::string> Draft::fact_names() const {
    std::vector<std::string> names;
    for (const reason::Fact& fact : set.model.facts) names.push_back(fact.name);
    return names;
}

std::vector<std::string> Draft::table_names() const {
    std::vector<std::string> names;
    for (const reason::Table& table : set.model.tables) names.push_back(table.name);
    return names;
}

std::vector<std::string> Draft::setting_names() const {
    std::vector<std::string> names;
    for (const Setting& setting : set.settings) names.push_back(setting.name);
    return names;
}

std::vector<std::string> Draft::all_names() const {
    std::vector<std::string> names = fact_names();
    for (const std::string& name : table_names()) names.push_back(name);
    for (const std::string& name : setting_names()) names.push_back(name);
    return names;
}

bool Draft::check_new_name(std::string_view what, const Entry& entry,
                           const YamlSource& source) const {
    if (!check_name(what, entry.key, entry.place, source)) return false;
    if (std::find(reserved_names.begin(), reserved_names.end(), entry.key) !=
        reserved_names.end()) {
        source.refuse(
            "bad-name", entry.place,
            fmt::format("'{}' cannot be the name of {}: conditions use this word", entry.key, what),
            "use another word");
        return false;
    }
    std::string other;
    if (const auto fact = facts.find(entry.key); fact != facts.end()) {
        other = fmt::format("a fact of {}", fact_files[fact->second]->source.file);
    } else if (const auto table = tables.find(entry.key); table != tables.end()) {
        other = fmt::format("a table of {}", table_files[table->second]->source.file);
    } else if (const auto set_by = settings_by_name.find(entry.key);
               set_by != settings_by_name.end()) {
        const SettingDraft& setting = settings[set_by->second];
        other = fmt::format("a setting at {}", place_text(setting.source, setting.place));
    }
    if (other.empty()) return true;
    source.refuse("duplicate-name", entry.place,
                  fmt::format("'{}' is already the name of {}", entry.key, other),
                  "facts, tables and settings of all files share their names; choose another");
    return false;
}

}  // namespace ashtriage::packs
