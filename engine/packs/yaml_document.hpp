// The part of YAML that rule files, label cards and sheets are written in: mappings, sequences and
// scalars, in block or flow form, and nothing else. No anchors, aliases, tags, merge keys,
// directives, second documents or keys that are not plain text, and no key twice.
//
// Scalars stay text: whoever reads a field decides what its text means, by one strict routine.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "packs/problem.hpp"

namespace ashtriage::packs {

// What a file may be at most; more is refused with a problem.
inline constexpr std::size_t largest_yaml_file = std::size_t{4} << 20U;   // bytes
inline constexpr std::size_t longest_yaml_line = std::size_t{64} << 10U;  // bytes
inline constexpr std::size_t deepest_yaml_nesting = 32;
inline constexpr std::size_t most_yaml_nodes = 200'000;

struct Entry;

struct Node {
    enum class Kind { scalar, sequence, mapping };

    Kind kind = Kind::scalar;
    std::string text;     // scalar; empty for an empty value, `~` and `null`
    bool quoted = false;  // scalar: written in quotes or as a block of text
    Place place;
    std::vector<Node> items;     // sequence
    std::vector<Entry> entries;  // mapping, in the order of the file, no key twice

    // The value of a mapping's key, or null.
    const Node* find(std::string_view key) const;
    bool is_empty_scalar() const { return kind == Kind::scalar && !quoted && text.empty(); }
};

struct Entry {
    std::string key;
    Place place;  // of the key
    Node value;
};

// "a value", "a list" or "a mapping".
std::string_view kind_text(Node::Kind kind);

// Reads one file. What is wrong goes to `problems` under the name `file`; after the first thing
// that makes the rest unreadable the tree holds what came before it, so a caller must look at
// `problems` before trusting it.
Node read_yaml(std::string_view text, const std::string& file, Problems& problems);

}  // namespace ashtriage::packs
