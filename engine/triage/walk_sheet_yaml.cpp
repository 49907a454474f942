#include <algorithm>
#include <set>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"
#include "triage/sheet_entries.hpp"
#include "triage/tables.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::triage {

namespace {

using packs::Fields;
using packs::Node;

measure::Length distance(std::string_view text) {
    return measure::parse_length(text);
}

observe::Client read_client(const Node& node, const packs::YamlSource& source) {
    Fields fields(node, "the client", source);
    observe::Client client;
    client.name = fields.text("name");
    client.address = fields.text_or("address", {});
    client.telephone = fields.text_or("telephone", {});
    client.email = fields.text_or("email", {});
    fields.refuse_others();
    return client;
}

// Latitude and longitude go together; elevation is of use only with them.
std::optional<observe::Position> read_position(Fields& fields) {
    const auto latitude = fields.parsed_if_present(
        "latitude", [](std::string_view text) { return parse_degrees(text, 90); });
    const auto longitude = fields.parsed_if_present(
        "longitude", [](std::string_view text) { return parse_degrees(text, 180); });
    const auto elevation = fields.parsed_if_present("elevation", distance);
    if (fields.has("latitude") != fields.has("longitude")) {
        fields.refuse(fields.has("latitude") ? "latitude" : "longitude", "half-a-position",
                      "Latitude and longitude go together", "Give both or neither.");
    }
    if (!latitude || !longitude) return std::nullopt;
    return observe::Position{*latitude, *longitude, elevation};
}

observe::Site read_site(const Node& node, const packs::YamlSource& source,
                        const packs::RuleSet& rules) {
    Fields fields(node, "the site", source);
    observe::Site site;
    site.name = fields.text("name");
    site.address = fields.text_or("address", {});
    site.area = fields.parsed_if_present(
        "area", [](std::string_view text) { return measure::parse_area(text); });
    if (const auto soil = fields.parsed_if_present(
            "soil", [&](std::string_view text) { return finding_of(rules, fact::soil, text); })) {
        site.soil = soil->value;
    }
    site.distance_to_water = fields.parsed_if_present("distance_to_water", distance);
    site.infestation_distance = fields.parsed_if_present("infestation_distance", distance);
    if (fields.has("in_quarantined_county")) {
        site.in_quarantined_county = fields.yes_no("in_quarantined_county");
    }
    site.position = read_position(fields);
    fields.refuse_others();
    return site;
}

std::vector<observe::Finding> read_findings(const Node& node, const std::string& tree,
                                            const packs::YamlSource& source,
                                            const packs::RuleSet& rules) {
    std::vector<observe::Finding> findings;
    for (const packs::Entry& entry : node.entries) {
        const auto value = packs::read_text(entry.value, "'" + entry.key + "'", source);
        if (!value) continue;
        try {
            findings.push_back(finding_of(rules, entry.key, *value));
        } catch (const measure::InputError& error) {
            source.refuse("bad-finding", entry.place, "Tree " + tree + ": " + error.what(),
                          error.hint());
        }
    }
    return findings;
}

observe::SheetTree read_tree(const Node& node, const packs::YamlSource& source,
                             const packs::RuleSet& rules, const measure::Date& date,
                             const std::string& observer) {
    Fields fields(node, "the tree", source);
    observe::SheetTree read;
    read.place = source.file + ":" + std::to_string(node.place.line);
    read.tree.label = fields.text("tree");
    read.tree.place = fields.text_or("place", {});
    read.tree.position = read_position(fields);
    read.walk_around.date = fields.parsed_if_present("date", measure::parse_date).value_or(date);
    read.walk_around.observer = fields.text_or("observer", observer);
    read.walk_around.stems = fields.parsed_if_present("stems", observe::parse_stems)
                                 .value_or(std::vector<observe::Stem>{});
    read.walk_around.notes = fields.text_or("notes", {});
    if (const Node* facts = fields.mapping_or_null("facts")) {
        read.walk_around.findings = read_findings(*facts, read.tree.label, source, rules);
    }
    fields.refuse_others();
    return read;
}

}  // namespace

observe::WalkSheet read_walk_sheet_yaml(std::string_view text, const std::string& file,
                                        const packs::RuleSet& rules, measure::Date default_date) {
    packs::Problems problems;
    const Node root = packs::read_yaml(text, file, problems);
    problems.throw_if_any();

    const packs::YamlSource source{file, problems};
    observe::WalkSheet sheet;
    Fields fields(root, "the sheet", source);
    if (const Node* client = fields.mapping_or_null("client")) {
        sheet.client = read_client(*client, source);
    }
    if (const Node* site = fields.mapping_or_null("site")) {
        sheet.site = read_site(*site, source, rules);
    }
    const auto date = fields.parsed_if_present("date", measure::parse_date).value_or(default_date);
    const std::string observer = fields.text_or("observer", {});
    std::set<std::string> labels;
    if (const Node* trees = fields.list("trees")) {
        for (const Node& node : trees->items) {
            sheet.trees.push_back(read_tree(node, source, rules, date, observer));
            if (!labels.insert(sheet.trees.back().tree.label).second) {
                source.refuse(
                    "tree-twice", node.place,
                    "The tree \"" + sheet.trees.back().tree.label + "\" stands here twice",
                    "Each tree of a sheet needs a label of its own.");
            }
        }
    }
    fields.refuse_others();
    problems.throw_if_any();
    return sheet;
}

}  // namespace ashtriage::triage
