#include "packs/read_rule_set.hpp"

#include <fmt/format.h>
#include <sys/types.h>

#include <array>
#include <deque>
#include <utility>

// libmd's header uses the types of <sys/types.h>.
#include <sha256.h>

#include "packs/readers.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"

namespace ashtriage::packs {

namespace {

constexpr std::string_view pack_ending = ".yaml";

// Each part with its length before it, so that no two lists of parts run together alike.
class Sha256 {
 public:
    Sha256() { SHA256Init(&state_); }

    void add(std::string_view part) {
        const std::string framed = fmt::format("{}:{}", part.size(), part);
        SHA256Update(&state_, reinterpret_cast<const std::uint8_t*>(framed.data()), framed.size());
    }

    std::string hex() {
        std::array<std::uint8_t, SHA256_DIGEST_LENGTH> digest{};
        SHA256Final(digest.data(), &state_);
        return fmt::format("{:02x}", fmt::join(digest, ""));
    }

 private:
    SHA2_CTX state_{};
};

std::string hash_of(const std::vector<RuleFile>& files, std::string_view preset) {
    Sha256 hash;
    for (const RuleFile& file : files) {
        if (holds_only_cases(file.name)) continue;
        hash.add(file.name);
        hash.add(file.text);
    }
    hash.add(preset);
    return hash.hex();
}

// The parts of a pack that are read in later steps.
struct PackParts {
    const Node* settings = nullptr;
    const Node* presets = nullptr;
    const Node* facts = nullptr;
    const Node* tables = nullptr;
    const Node* cases = nullptr;
};

PackParts read_head(const PackFile& file, Draft& draft) {
    PackParts parts;
    Fields root(file.document, fmt::format("the rule pack '{}'", file.pack), file.source);
    if (!root.is_mapping()) return parts;
    const std::string name = root.text("pack");
    if (!name.empty() && name != file.pack) {
        root.refuse("pack", "wrong-pack-name",
                    fmt::format("the pack is called '{}', but its file '{}{}'", name, file.pack,
                                pack_ending),
                    "pack and file must have the same name");
    }
    const std::string edition = root.text("edition");
    if (!holds_only_cases(file.pack)) draft.set.editions.push_back({file.pack, edition});
    root.text("about");
    parts.settings = root.mapping_or_null("settings");
    parts.presets = root.mapping_or_null("presets");
    parts.facts = root.mapping_or_null("facts");
    parts.tables = root.mapping_or_null("tables");
    parts.cases = root.list_or_null("cases");
    root.refuse_others();
    if (holds_only_cases(file.pack) &&
        (parts.settings || parts.presets || parts.facts || parts.tables)) {
        file.source.refuse(
            "not-only-cases", file.document.place,
            fmt::format("the rule pack '{}' holds more than cases", file.pack),
            "a pack whose name ends in _cases is left out when trees are judged; move "
            "everything else to another pack");
    }
    if (!parts.settings && !parts.presets && !parts.facts && !parts.tables && !parts.cases) {
        file.source.refuse(
            "empty-pack", file.document.place,
            fmt::format("the rule pack '{}' has no facts, tables, settings, presets or "
                        "cases",
                        file.pack),
            "the end of the file may be missing");
    }
    return parts;
}

}  // namespace

RuleSet read_rule_set(const std::vector<RuleFile>& files, std::string_view preset,
                      Reading reading) {
    Problems problems;
    Draft draft;
    draft.set.hash = hash_of(files, preset);
    draft.set.sources = read_sources(files, problems);

    std::deque<PackFile> packs;  // the draft points into it
    bool all_readable = true;
    for (const RuleFile& file : files) {
        if (!is_pack(file.name)) continue;
        if (reading == Reading::rules && holds_only_cases(file.name)) continue;
        std::string pack = file.name.substr(0, file.name.rfind(pack_ending));
        Node document = read_yaml(file.text, file.shown_name(), problems);
        all_readable = all_readable && document.place.line != 0;
        packs.push_back({std::move(pack), {file.shown_name(), problems}, std::move(document)});
    }
    // With a file missing, every name it would have given would be reported as unknown.
    if (!all_readable) problems.throw_if_any();

    std::vector<std::pair<const PackFile*, PackParts>> parts;
    parts.reserve(packs.size());
    const std::size_t before = problems.list().size();
    for (const PackFile& file : packs) parts.emplace_back(&file, read_head(file, draft));
    // With a part misspelt or left out it is the same.
    if (problems.list().size() > before) problems.throw_if_any();

    using Step = void (*)(const Node&, const PackFile&, Draft&);
    const auto for_each_pack = [&](const Node* PackParts::*part, Step step) {
        for (const auto& [file, pack] : parts) {
            if (pack.*part != nullptr) step(*(pack.*part), *file, draft);
        }
    };
    for_each_pack(&PackParts::settings, read_settings);
    for_each_pack(&PackParts::facts, read_facts);
    for_each_pack(&PackParts::tables, read_tables);
    for_each_pack(&PackParts::presets, read_presets);
    if (problems.empty()) use_preset(preset, draft);
    read_relations(draft);
    read_rules(draft);
    read_claims(draft);
    for_each_pack(&PackParts::cases, read_cases);

    check_cycles(draft);
    // A misspelt name elsewhere would make the setting look unused.
    if (problems.empty()) check_settings_used(draft);
    problems.throw_if_any();
    return std::move(draft.set);
}

}  // namespace ashtriage::packs
