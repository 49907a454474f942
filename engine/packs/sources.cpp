#include "packs/sources.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "packs/yaml_document.hpp"

namespace ashtriage::packs {

namespace {

// In the order of the enumerators of Evidence.
constexpr std::array<std::string_view, 7> evidence_names = {
    "read", "restated", "memory", "common practice", "computed", "example", "inference"};

}  // namespace

std::string_view evidence_text(Evidence evidence) {
    return evidence_names.at(static_cast<std::size_t>(evidence));
}

std::vector<Source> read_sources(const std::vector<RuleFile>& files, Problems& problems) {
    std::vector<Source> sources;
    const RuleFile* file = find_rule_file(files, "sources.yaml");
    if (file == nullptr) return sources;
    const YamlSource source{file->shown_name(), problems};
    const Node document = read_yaml(file->text, source.file, problems);
    if (document.place.line == 0) return sources;

    const std::vector<std::string> evidences(evidence_names.begin(), evidence_names.end());
    Fields root(document, "the file of sources", source);
    if (const Node* list = root.mapping("sources")) {
        for (const Entry& entry : list->entries) {
            Fields fields(entry.value, fmt::format("the source '{}'", entry.key), source);
            Source read;
            read.key = entry.key;
            read.citation = fields.text("citation");
            read.evidence = static_cast<Evidence>(fields.choice("evidence", evidences));
            fields.refuse_others();
            sources.push_back(std::move(read));
        }
    }
    root.refuse_others();
    std::sort(sources.begin(), sources.end(),
              [](const Source& a, const Source& b) { return a.key < b.key; });
    return sources;
}

const Source* find_source(const std::vector<Source>& sources, std::string_view key) {
    const auto found =
        std::lower_bound(sources.begin(), sources.end(), key,
                         [](const Source& source, std::string_view k) { return source.key < k; });
    return found != sources.end() && found->key == key ? &*found : nullptr;
}

std::vector<std::string> read_source_keys(Fields& fields, std::string_view field,
                                          const std::vector<Source>& sources) {
    std::vector<std::string> keys = fields.texts(field);
    for (const std::string& key : keys) {
        if (find_source(sources, key) != nullptr) continue;
        std::vector<std::string> known;
        known.reserve(sources.size());
        for (const Source& source : sources) known.push_back(source.key);
        std::string hint = nearest_hint(key, known);
        if (hint.empty()) hint = "add it to sources.yaml, with its citation";
        fields.refuse(field, "unknown-source",
                      fmt::format("{} names the unknown source '{}'", fields.what(), key),
                      std::move(hint));
    }
    return keys;
}

}  // namespace ashtriage::packs
