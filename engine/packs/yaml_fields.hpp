// Reading a mapping field by field: each field is asked for by name and kind, and everything that
// is wrong is collected, so that a reader states its schema once, in the order in which it reads.
//
//     YamlSource source{"seasons.yaml", problems};
//     Fields method(node, "the method 'soil_drench'", source);
//     season.about = method.text("about");
//     season.delay = method.number_or("delay_days", 0, {0, 365});
//     method.refuse_others();
//
// After a problem a field reads as empty, zero or the fallback, so reading goes on and finds the
// next problem; the caller throws once, at the end (Problems::throw_if_any).
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/yaml_document.hpp"

namespace ashtriage::packs {

// A file being read, and where its problems go.
struct YamlSource {
    std::string file;
    Problems& problems;

    void refuse(std::string id, Place place, std::string message, std::string hint = {}) const;
};

// The bounds that a number may have, both ends allowed.
struct Bounds {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

// What a lone value says, wherever it stands; a problem and nothing if it says something else.
// `name` is what the value is, for messages: "'dbh'", "the first end of 'range'".
// Problem ids: "wrong-kind", "empty-value", "not-a-number", "out-of-range", "not-yes-no",
// "unknown-value".
std::optional<std::string> read_text(const Node& node, const std::string& name,
                                     const YamlSource& source);
std::optional<double> read_number(const Node& node, const std::string& name,
                                  const YamlSource& source, const Bounds& bounds = {});
std::optional<bool> read_yes_no(const Node& node, const std::string& name,
                                const YamlSource& source);
// One of `names`, spelled exactly so; its index.
std::optional<std::size_t> read_choice(const Node& node, const std::string& name,
                                       const std::vector<std::string>& names,
                                       const YamlSource& source);
// A single text or a list of texts.
std::vector<std::string> read_texts(const Node& node, const std::string& name,
                                    const YamlSource& source);

class Fields {
 public:
    // `what` names the mapping in messages: "the rule 'past-saving'". If `node` is no mapping, that
    // is reported here and nowhere else, and no field is found. The node must outlive this object.
    Fields(const Node& node, std::string what, const YamlSource& source);

    // False: the node was no mapping, nothing can be read.
    bool is_mapping() const { return is_mapping_; }
    const std::string& what() const { return what_; }
    const YamlSource& source() const { return source_; }
    const Node& node() const { return node_; }

    bool has(std::string_view key) const { return node_.find(key) != nullptr; }
    // Place of the field's value, or of the mapping when the field is missing.
    Place place(std::string_view key) const;

    // The raw value; null when it is missing, which `required` reports ("missing-key").
    const Node* required(std::string_view key);
    const Node* optional(std::string_view key);

    // The value, required to be a mapping or a list; null when missing, which the `_or_null` forms
    // do not report, or when it is something else, which is reported.
    const Node* mapping(std::string_view key);
    const Node* mapping_or_null(std::string_view key);
    const Node* list(std::string_view key);
    const Node* list_or_null(std::string_view key);

    std::string text(std::string_view key);
    std::string text_or(std::string_view key, std::string_view fallback);
    double number(std::string_view key, const Bounds& bounds = {});
    double number_or(std::string_view key, double fallback, const Bounds& bounds = {});
    bool yes_no(std::string_view key);
    bool yes_no_or(std::string_view key, bool fallback);
    std::size_t choice(std::string_view key, const std::vector<std::string>& names);
    std::size_t choice_or(std::string_view key, const std::vector<std::string>& names,
                          std::size_t fallback);
    // One text or a list of texts.
    std::vector<std::string> texts(std::string_view key);
    std::vector<std::string> texts_or_none(std::string_view key);

    // The field's text through a parser of its own, such as measure::parse_date, that throws
    // measure::InputError; the error becomes a problem with the id "bad-value" at the field.
    template <class Parser>
    auto parsed(std::string_view key, Parser&& parse)
        -> std::optional<std::decay_t<decltype(parse(std::string_view{}))>> {
        const Node* value = required(key);
        if (value == nullptr) return std::nullopt;
        return parse_node(*value, key, std::forward<Parser>(parse));
    }
    template <class Parser>
    auto parsed_if_present(std::string_view key, Parser&& parse)
        -> std::optional<std::decay_t<decltype(parse(std::string_view{}))>> {
        const Node* value = optional(key);
        if (value == nullptr) return std::nullopt;
        return parse_node(*value, key, std::forward<Parser>(parse));
    }

    // A problem at the field, or at the mapping when the field is missing.
    void refuse(std::string_view key, std::string id, std::string message, std::string hint = {});

    // Reports every key that was not asked for, with the nearest one that was ("unknown-key").
    // Call it last.
    void refuse_others();

 private:
    const Node* of_kind(const Node* value, std::string_view key, Node::Kind kind) const;
    std::string quoted(std::string_view key) const;

    template <class Parser>
    auto parse_node(const Node& value, std::string_view key, Parser&& parse)
        -> std::optional<std::decay_t<decltype(parse(std::string_view{}))>> {
        const auto text = read_text(value, quoted(key), source_);
        if (!text) return std::nullopt;
        try {
            return parse(std::string_view(*text));
        } catch (const measure::InputError& error) {
            source_.refuse("bad-value", value.place, quoted(key) + ": " + error.what(),
                           error.hint());
            return std::nullopt;
        }
    }

    const Node& node_;
    std::string what_;
    YamlSource source_;
    bool is_mapping_ = false;
    std::vector<std::string> asked_for_;
};

}  // namespace ashtriage::packs
