#include "season/read_seasons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"
#include "season/read_calendar.hpp"
#include "season/read_method_season.hpp"
#include "season/read_whole_number.hpp"

namespace ashtriage::season {

using packs::Fields;
using packs::Node;

namespace {

class SeasonsReader {
 public:
    SeasonsReader(const Node& root, const std::string& file,
                  const std::vector<packs::Source>& sources, packs::Problems& problems)
        : source_{file, problems},
          top_(root, "the seasons file", source_),
          known_sources_(sources) {}

    Seasons read() {
        Seasons seasons;
        const std::string name = top_.text("seasons");
        if (!name.empty() && name != "ash-treatment") {
            top_.refuse("seasons", "unknown-value",
                        fmt::format("'seasons' is '{}'; expected 'ash-treatment'", name));
        }
        seasons.edition = top_.text("edition");
        read_anchor(seasons.anchor);
        read_give_or_take(seasons);
        if (const Node* calendar = top_.mapping("calendar")) {
            seasons.calendar = read_calendar(*calendar, known_sources_, source_);
        }
        if (const Node* methods = top_.mapping("methods")) {
            for (const packs::Entry& entry : methods->entries) {
                seasons.methods.push_back(
                    read_method(entry.key, entry.value, "the method", seasons));
            }
        }
        if (const Node* list = top_.list_or_null("not_offered")) {
            for (const Node& item : list->items) read_not_offered(item, seasons);
        }
        top_.refuse_others();
        return seasons;
    }

 private:
    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    void read_anchor(Anchor& anchor) {
        const Node* node = top_.mapping("anchor");
        if (node == nullptr) return;
        Fields fields(*node, "the anchor", source_);
        anchor.name = fields.text("name");
        anchor.latitude = fields.number("latitude", {0.0, 90.0});
        anchor.longitude = fields.number("longitude", {-180.0, 0.0});
        const auto elevation = fields.parsed(
            "elevation", [](std::string_view text) { return measure::parse_length(text); });
        anchor.elevation = elevation.value_or(measure::Length());
        anchor.sources = sources(fields);
        fields.refuse_others();
    }

    void read_give_or_take(Seasons& seasons) {
        const Node* node = top_.mapping("estimate_days");
        if (node == nullptr) return;
        Fields fields(*node, "'estimate_days'", source_);
        seasons.give_or_take_days = read_whole_number(fields, "days", {0.0, 60.0});
        seasons.give_or_take_sources = sources(fields);
        fields.refuse_others();
    }

    void read_not_offered(const Node& item, Seasons& seasons) {
        Fields fields(item, "an entry of 'not_offered'", source_);
        if (!fields.is_mapping()) return;
        NotOffered left_out;
        left_out.title = fields.text("title");
        left_out.why = fields.text("why");
        left_out.sources = sources(fields);
        if (const Node* window = fields.mapping_or_null("on_request")) {
            left_out.on_request = read_on_request(*window, seasons);
        }
        fields.refuse_others();
        seasons.not_offered.push_back(std::move(left_out));
    }

    MethodSeason read_method(const std::string& key, const Node& node, std::string_view what,
                             const Seasons& seasons) {
        return read_method_season(key, node, fmt::format("{} '{}'", what, key), seasons.calendar,
                                  known_sources_, source_);
    }

    // One entry: the name of the window, as methods have theirs.
    std::optional<MethodSeason> read_on_request(const Node& node, const Seasons& seasons) {
        if (node.entries.size() != 1) {
            source_.refuse("not-one-window", node.place,
                           fmt::format("'on_request' has {} windows", node.entries.size()),
                           "give one, under its name");
            return std::nullopt;
        }
        const packs::Entry& entry = node.entries.front();
        if (std::ranges::find(seasons.methods, entry.key, &MethodSeason::method) !=
            seasons.methods.end()) {
            source_.refuse("name-taken", entry.value.place,
                           fmt::format("'{}' is a method above", entry.key),
                           "give the window on request a name of its own");
            return std::nullopt;
        }
        return read_method(entry.key, entry.value, "the window on request", seasons);
    }

    packs::YamlSource source_;
    Fields top_;
    const std::vector<packs::Source>& known_sources_;
};

}  // namespace

Seasons read_seasons(const std::vector<packs::RuleFile>& files,
                     const std::vector<packs::Source>& sources) {
    const packs::RuleFile* file = packs::find_rule_file(files, "seasons.yaml");
    if (file == nullptr) {
        throw measure::InputError("there is no file 'seasons.yaml' among the rule files");
    }
    packs::Problems problems;
    problems.add_file(file->shown_name(), file->text);
    const Node root = packs::read_yaml(file->text, file->shown_name(), problems);
    problems.throw_if_any();
    Seasons seasons = SeasonsReader(root, file->shown_name(), sources, problems).read();
    problems.throw_if_any();
    return seasons;
}

}  // namespace ashtriage::season
