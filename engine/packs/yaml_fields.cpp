#include "packs/yaml_fields.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/number.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

// A value in a message: never longer than a line.
std::string shortened(std::string_view text) {
    constexpr std::size_t longest = 60;
    if (text.size() <= longest) return std::string(text);
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return std::string(text.substr(0, end)) + "...";
}

std::string found_text(const Node& node) {
    if (node.is_empty_scalar()) return "nothing";
    if (node.kind == Node::Kind::scalar) return fmt::format("'{}'", shortened(node.text));
    return std::string(kind_text(node.kind));
}

// The scalar's text, if it is a scalar that says something.
const std::string* scalar_text(const Node& node, const std::string& name, std::string_view expected,
                               const YamlSource& source) {
    if (node.kind != Node::Kind::scalar) {
        source.refuse("wrong-kind", node.place,
                      fmt::format("{} is {}; expected {}", name, found_text(node), expected));
        return nullptr;
    }
    if (trimmed(node.text).empty()) {
        source.refuse("empty-value", node.place,
                      fmt::format("{} has no value; expected {}", name, expected),
                      "write the value after the ':', or leave the whole entry out");
        return nullptr;
    }
    return &node.text;
}

std::string bounds_text(const Bounds& bounds) {
    const bool has_low = bounds.low > -std::numeric_limits<double>::infinity();
    const bool has_high = bounds.high < std::numeric_limits<double>::infinity();
    if (has_low && has_high) return fmt::format("a number from {} to {}", bounds.low, bounds.high);
    if (has_low) return fmt::format("a number of at least {}", bounds.low);
    if (has_high) return fmt::format("a number of at most {}", bounds.high);
    return "a number";
}

}  // namespace

void YamlSource::refuse(std::string id, Place place, std::string message, std::string hint) const {
    problems.add(
        {std::move(id), file, place, std::move(message), std::move(hint), /*source_line=*/{}});
}

std::optional<std::string> read_text(const Node& node, const std::string& name,
                                     const YamlSource& source) {
    const std::string* text = scalar_text(node, name, "text", source);
    if (text == nullptr) return std::nullopt;
    // A block of text ends with a line end that is no part of what it says.
    const std::size_t end = text->find_last_not_of(" \t\r\n");
    return text->substr(0, end + 1);
}

std::optional<double> read_number(const Node& node, const std::string& name,
                                  const YamlSource& source, const Bounds& bounds) {
    const std::string* text = scalar_text(node, name, bounds_text(bounds), source);
    if (text == nullptr) return std::nullopt;
    const std::optional<double> number = measure::parse_number(*text);
    if (!number) {
        std::string hint = "write digits, with a point for decimals, and nothing else";
        try {
            measure::require_number(*text);
        } catch (const measure::InputError& error) {
            if (!error.hint().empty()) hint = error.hint();
        }
        source.refuse(
            "not-a-number", node.place,
            fmt::format("{} is {}; expected {}", name, found_text(node), bounds_text(bounds)),
            std::move(hint));
        return std::nullopt;
    }
    if (*number < bounds.low || *number > bounds.high) {
        source.refuse("out-of-range", node.place,
                      fmt::format("{} is {}; expected {}", name, *number, bounds_text(bounds)));
        return std::nullopt;
    }
    return number;
}

std::optional<bool> read_yes_no(const Node& node, const std::string& name,
                                const YamlSource& source) {
    const std::string* text = scalar_text(node, name, "'yes' or 'no'", source);
    if (text == nullptr) return std::nullopt;
    if (*text == "yes") return true;
    if (*text == "no") return false;
    source.refuse("not-yes-no", node.place,
                  fmt::format("{} is {}; expected 'yes' or 'no'", name, found_text(node)),
                  "write yes or no, in small letters");
    return std::nullopt;
}

std::optional<std::size_t> read_choice(const Node& node, const std::string& name,
                                       const std::vector<std::string>& names,
                                       const YamlSource& source) {
    const std::string* text = scalar_text(node, name, joined(names), source);
    if (text == nullptr) return std::nullopt;
    const auto found = std::find(names.begin(), names.end(), *text);
    if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
    source.refuse("unknown-value", node.place,
                  fmt::format("{} is {}; expected {}", name, found_text(node), joined(names)),
                  nearest_hint(*text, names));
    return std::nullopt;
}

std::vector<std::string> read_texts(const Node& node, const std::string& name,
                                    const YamlSource& source) {
    std::vector<std::string> result;
    if (node.kind == Node::Kind::sequence) {
        if (node.items.empty()) {
            source.refuse("empty-value", node.place,
                          fmt::format("{} is an empty list; expected one text or more", name));
        }
        for (const Node& item : node.items) {
            if (auto text = read_text(item, "an entry of " + name, source)) {
                result.push_back(std::move(*text));
            }
        }
    } else if (node.kind == Node::Kind::mapping) {
        source.refuse("wrong-kind", node.place,
                      fmt::format("{} is a mapping; expected a text or a list of texts", name));
    } else if (auto text = read_text(node, name, source)) {
        result.push_back(std::move(*text));
    }
    return result;
}

Fields::Fields(const Node& node, std::string what, const YamlSource& source)
    : node_(node),
      what_(std::move(what)),
      source_(source),
      is_mapping_(node.kind == Node::Kind::mapping) {
    if (is_mapping_) return;
    source_.refuse("wrong-kind", node.place,
                   fmt::format("{} is {}; expected a mapping (names, each followed by ': ' and a "
                               "value)",
                               what_, found_text(node)));
}

Place Fields::place(std::string_view key) const {
    const Node* value = node_.find(key);
    return value == nullptr ? node_.place : value->place;
}

std::string Fields::quoted(std::string_view key) const {
    return fmt::format("'{}' of {}", key, what_);
}

const Node* Fields::optional(std::string_view key) {
    asked_for_.emplace_back(key);
    return node_.find(key);
}

const Node* Fields::required(std::string_view key) {
    const Node* value = optional(key);
    if (value == nullptr && is_mapping_) {
        source_.refuse("missing-key", node_.place, fmt::format("{} has no '{}'", what_, key),
                       fmt::format("add '{}: ...'", key));
    }
    return value;
}

const Node* Fields::of_kind(const Node* value, std::string_view key, Node::Kind kind) const {
    if (value == nullptr || value->kind == kind) return value;
    source_.refuse(
        "wrong-kind", value->place,
        fmt::format("{} is {}; expected {}", quoted(key), found_text(*value), kind_text(kind)));
    return nullptr;
}

const Node* Fields::mapping(std::string_view key) {
    return of_kind(required(key), key, Node::Kind::mapping);
}
const Node* Fields::mapping_or_null(std::string_view key) {
    return of_kind(optional(key), key, Node::Kind::mapping);
}
const Node* Fields::list(std::string_view key) {
    return of_kind(required(key), key, Node::Kind::sequence);
}
const Node* Fields::list_or_null(std::string_view key) {
    return of_kind(optional(key), key, Node::Kind::sequence);
}

std::string Fields::text(std::string_view key) {
    const Node* value = required(key);
    return value == nullptr ? std::string() : read_text(*value, quoted(key), source_).value_or("");
}
std::string Fields::text_or(std::string_view key, std::string_view fallback) {
    const Node* value = optional(key);
    std::string otherwise(fallback);
    if (value == nullptr) return otherwise;
    return read_text(*value, quoted(key), source_).value_or(std::move(otherwise));
}

double Fields::number(std::string_view key, const Bounds& bounds) {
    const Node* value = required(key);
    return value == nullptr ? 0.0 : read_number(*value, quoted(key), source_, bounds).value_or(0.0);
}
double Fields::number_or(std::string_view key, double fallback, const Bounds& bounds) {
    const Node* value = optional(key);
    if (value == nullptr) return fallback;
    return read_number(*value, quoted(key), source_, bounds).value_or(fallback);
}

bool Fields::yes_no(std::string_view key) {
    const Node* value = required(key);
    return value != nullptr && read_yes_no(*value, quoted(key), source_).value_or(false);
}
bool Fields::yes_no_or(std::string_view key, bool fallback) {
    const Node* value = optional(key);
    if (value == nullptr) return fallback;
    return read_yes_no(*value, quoted(key), source_).value_or(fallback);
}

std::size_t Fields::choice(std::string_view key, const std::vector<std::string>& names) {
    const Node* value = required(key);
    return value == nullptr ? 0 : read_choice(*value, quoted(key), names, source_).value_or(0);
}
std::size_t Fields::choice_or(std::string_view key, const std::vector<std::string>& names,
                              std::size_t fallback) {
    const Node* value = optional(key);
    if (value == nullptr) return fallback;
    return read_choice(*value, quoted(key), names, source_).value_or(fallback);
}

std::vector<std::string> Fields::texts(std::string_view key) {
    const Node* value = required(key);
    return value == nullptr ? std::vector<std::string>() : read_texts(*value, quoted(key), source_);
}
std::vector<std::string> Fields::texts_or_none(std::string_view key) {
    const Node* value = optional(key);
    return value == nullptr ? std::vector<std::string>() : read_texts(*value, quoted(key), source_);
}

void Fields::refuse(std::string_view key, std::string id, std::string message, std::string hint) {
    source_.refuse(std::move(id), place(key), std::move(message), std::move(hint));
}

void Fields::refuse_others() {
    for (const Entry& entry : node_.entries) {
        if (std::find(asked_for_.begin(), asked_for_.end(), entry.key) != asked_for_.end())
            continue;
        source_.refuse("unknown-key", entry.place,
                       fmt::format("{} has an unknown entry '{}'", what_, shortened(entry.key)),
                       nearest_hint(entry.key, asked_for_));
    }
}

}  // namespace ashtriage::packs
