#include "plan/read_day_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::plan {

using packs::Fields;
using packs::Node;

namespace {

constexpr double most_hours = 240.0;

class DayRulesReader {
 public:
    DayRulesReader(const Node& root, const std::string& file,
                   const std::vector<packs::Source>& sources,
                   const std::vector<std::string>& methods, packs::Problems& problems)
        : source_{file, problems},
          top_(root, "the file of day rules", source_),
          sources_(sources),
          methods_(methods) {}

    std::vector<DayRules> read() {
        const std::string name = top_.text("day");
        if (!name.empty() && name != "day-rules") {
            top_.refuse("day", "unknown-value",
                        fmt::format("'day' is '{}'; expected 'day-rules'", name));
        }
        static_cast<void>(top_.text("edition"));
        std::vector<DayRules> kinds;
        if (const Node* list = top_.mapping("list")) {
            for (const packs::Entry& entry : list->entries) kinds.push_back(read_kind(entry));
        }
        for (const std::string& method : methods_) {
            if (std::ranges::find(claimed_, method) == claimed_.end()) {
                top_.refuse("list", "missing-method",
                            fmt::format("no rules for the day are given for '{}'", method),
                            "add it to the 'methods' of one kind");
            }
        }
        top_.refuse_others();
        return kinds;
    }

 private:
    Said read_said(Fields& fields, std::string_view says, std::string_view source) {
        std::string text = fields.text(says);
        return {std::move(text), packs::read_source_keys(fields, source, sources_)};
    }

    // No day is let through by a rule that it does not keep.
    static DayAnswer read_answer(Fields& fields, std::string_view key) {
        return fields.choice(key, {"check", "no-go"}) == 0 ? DayAnswer::check : DayAnswer::no_go;
    }

    DayNeed read_need(Fields& fields) {
        const DayAnswer otherwise = read_answer(fields, "otherwise");
        return {otherwise, read_said(fields, "says", "source")};
    }

    // What `read` makes of the mapping in that field, which it must read to the end.
    template <class Need, class Read>
    std::optional<Need> read_in(Fields& kind, std::string_view key, Read&& read) {
        const Node* node = kind.mapping_or_null(key);
        if (node == nullptr) return std::nullopt;
        Fields fields(*node, fmt::format("'{}' of {}", key, kind.what()), source_);
        Need need = std::forward<Read>(read)(fields);
        fields.refuse_others();
        return need;
    }

    std::optional<DayNeed> read_need_in(Fields& kind, std::string_view key) {
        return read_in<DayNeed>(kind, key, [&](Fields& fields) { return read_need(fields); });
    }

    std::vector<SoilNeed> read_soil(Fields& kind) {
        std::vector<SoilNeed> needs;
        const Node* node = kind.mapping_or_null("soil");
        if (node == nullptr) return needs;
        Fields states(*node, fmt::format("'soil' of {}", kind.what()), source_);
        for (const treat::SoilState state :
             {treat::SoilState::dry, treat::SoilState::moist, treat::SoilState::saturated,
              treat::SoilState::frozen}) {
            if (auto need = read_need_in(states, treat::words(state))) {
                needs.push_back({state, std::move(*need)});
            }
        }
        states.refuse_others();
        return needs;
    }

    WindNeed read_wind(Fields& fields) {
        const auto speed = [](std::string_view text) { return measure::parse_speed(text); };
        WindNeed need;
        need.from = fields.parsed_if_present("from", speed);
        if (need.from) need.below = read_answer(fields, "below");
        need.to = fields.parsed("to", speed).value_or(measure::Speed());
        need.above = read_answer(fields, "above");
        need.because = read_said(fields, "says", "source");
        if (need.from && *need.from > need.to) refuse_turned_round(fields);
        return need;
    }

    TemperatureNeed read_temperature(Fields& fields) {
        const auto degrees = [](std::string_view text) { return measure::parse_temperature(text); };
        TemperatureNeed need;
        need.from = fields.parsed("from", degrees).value_or(measure::Temperature());
        need.to = fields.parsed("to", degrees).value_or(measure::Temperature());
        need.need = read_need(fields);
        need.best_to = fields.parsed_if_present("best_to", degrees);
        if (need.best_to) need.best_because = read_said(fields, "best_says", "best_source");
        if (need.from > need.to ||
            (need.best_to && (*need.best_to < need.from || *need.best_to > need.to))) {
            refuse_turned_round(fields);
        }
        return need;
    }

    static void refuse_turned_round(Fields& fields) {
        fields.refuse("from", "falling",
                      fmt::format("{} has no room between its limits", fields.what()),
                      "write the lower limit under 'from'");
    }

    RainNeed read_rain(Fields& fields) {
        RainNeed need;
        const double hours = fields.number("free_hours", {1.0, most_hours});
        need.free_hours = static_cast<int>(hours);
        if (static_cast<double>(need.free_hours) != hours) {
            fields.refuse("free_hours", "not-a-whole-number",
                          fmt::format("'free_hours' is {}; expected whole hours", hours));
        }
        need.need = read_need(fields);
        return need;
    }

    void read_methods(Fields& fields, DayRules& kind) {
        kind.methods = fields.texts("methods");
        for (const std::string& method : kind.methods) {
            if (std::ranges::find(methods_, method) == methods_.end()) {
                fields.refuse("methods", "unknown-method",
                              fmt::format("there is no method '{}'", method),
                              packs::nearest_hint(method, methods_));
            } else if (std::ranges::find(claimed_, method) != claimed_.end()) {
                fields.refuse("methods", "duplicate-method",
                              fmt::format("'{}' stands under two kinds", method),
                              "leave it under one");
            }
            claimed_.push_back(method);
        }
    }

    DayRules read_kind(const packs::Entry& entry) {
        DayRules kind;
        kind.kind = entry.key;
        Fields fields(entry.value, fmt::format("the kind '{}'", entry.key), source_);
        if (!fields.is_mapping()) return kind;
        kind.title = fields.text("title");
        read_methods(fields, kind);
        kind.leaves_out = read_need_in(fields, "leaves");
        kind.dry_bark = read_need_in(fields, "bark");
        kind.soil = read_soil(fields);
        kind.wind = read_in<WindNeed>(fields, "wind", [&](Fields& f) { return read_wind(f); });
        kind.no_inversion = read_need_in(fields, "inversion");
        kind.temperature = read_in<TemperatureNeed>(fields, "temperature",
                                                    [&](Fields& f) { return read_temperature(f); });
        kind.rain = read_in<RainNeed>(fields, "rain", [&](Fields& f) { return read_rain(f); });
        kind.no_bloom = read_need_in(fields, "bloom");
        kind.no_bees = read_need_in(fields, "bees");
        if (const Node* list = fields.list_or_null("advice")) {
            for (const Node& item : list->items) {
                Fields advice(item, fmt::format("an entry of 'advice' of {}", fields.what()),
                              source_);
                if (!advice.is_mapping()) continue;
                kind.advice.push_back(read_said(advice, "says", "source"));
                advice.refuse_others();
            }
        }
        fields.refuse_others();
        return kind;
    }

    packs::YamlSource source_;
    Fields top_;
    const std::vector<packs::Source>& sources_;
    const std::vector<std::string>& methods_;
    std::vector<std::string> claimed_;
};

}  // namespace

std::string_view words(DayAnswer answer) {
    if (answer == DayAnswer::go) return "go";
    return answer == DayAnswer::check ? "check" : "no-go";
}

const DayRules& day_rules_for(const std::vector<DayRules>& rules, std::string_view method) {
    std::vector<std::string> names;
    for (const DayRules& kind : rules) {
        if (std::ranges::find(kind.methods, method) != kind.methods.end()) return kind;
        names.insert(names.end(), kind.methods.begin(), kind.methods.end());
    }
    throw measure::InputError(fmt::format("There is no method '{}'", method), {},
                              packs::nearest_hint(method, names));
}

std::vector<DayRules> read_day_rules(const std::vector<packs::RuleFile>& files,
                                     const std::vector<packs::Source>& sources,
                                     const std::vector<std::string>& methods) {
    const packs::RuleFile* file = packs::find_rule_file(files, "day_rules.yaml");
    if (file == nullptr) {
        throw measure::InputError("there is no file 'day_rules.yaml' among the rule files");
    }
    packs::Problems problems;
    problems.add_file(file->shown_name(), file->text);
    const Node root = packs::read_yaml(file->text, file->shown_name(), problems);
    problems.throw_if_any();
    std::vector<DayRules> rules =
        DayRulesReader(root, file->shown_name(), sources, methods, problems).read();
    problems.throw_if_any();
    return rules;
}

}  // namespace ashtriage::plan
