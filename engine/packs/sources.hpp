// Where rules and figures come from: the file sources.yaml and the keys that refer to it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::packs {

// The sources of sources.yaml, sorted by key. Problems with the file go to `problems`; a set of
// files without sources.yaml has no sources.
std::vector<Source> read_sources(const std::vector<RuleFile>& files, Problems& problems);

// The source of that key, or null. `sources` as read_sources gives them.
const Source* find_source(const std::vector<Source>& sources, std::string_view key);

// The field's keys, one or a list, each checked ("unknown-source", "missing-key").
std::vector<std::string> read_source_keys(Fields& fields, std::string_view field,
                                          const std::vector<Source>& sources);

// "read", "restated", "memory", "common practice", "computed", "example" or "inference".
std::string_view evidence_text(Evidence evidence);

}  // namespace ashtriage::packs
