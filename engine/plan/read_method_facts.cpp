#include "plan/read_method_facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"
#include "triage/tables.hpp"

namespace ashtriage::plan {

using packs::Fields;
using packs::Node;

namespace {

constexpr double most_years = 20.0;

class MethodFactsReader {
 public:
    MethodFactsReader(const Node& root, const std::string& file, const packs::RuleSet& rules,
                      const season::Seasons& seasons, packs::Problems& problems)
        : source_{file, problems},
          top_(root, "the file of methods", source_),
          rules_(rules),
          seasons_(seasons) {}

    std::vector<MethodFacts> read() {
        const std::string name = top_.text("methods");
        if (!name.empty() && name != "method-facts") {
            top_.refuse("methods", "unknown-value",
                        fmt::format("'methods' is '{}'; expected 'method-facts'", name));
        }
        static_cast<void>(top_.text("edition"));
        std::vector<MethodFacts> methods;
        if (const Node* list = top_.mapping("list")) {
            for (const packs::Entry& entry : list->entries) methods.push_back(read_method(entry));
        }
        refuse_missing(methods);
        top_.refuse_others();
        return methods;
    }

 private:
    std::vector<std::string> sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", rules_.sources);
    }

    Said read_said(Fields& fields) {
        std::string says = fields.text("says");
        return {std::move(says), sources(fields)};
    }

    Said read_said_in(const Node* node, const std::string& what) {
        if (node == nullptr) return {};
        Fields fields(*node, what, source_);
        if (!fields.is_mapping()) return {};
        Said said = read_said(fields);
        fields.refuse_others();
        return said;
    }

    int read_years(Fields& fields, std::string_view key) {
        const double years = fields.number(key, {1.0, most_years});
        const int whole = static_cast<int>(years);
        if (static_cast<double>(whole) != years) {
            fields.refuse(key, "not-a-whole-number",
                          fmt::format("'{}' is {}; expected a whole number of years", key, years));
        }
        return whole;
    }

    Interval::ByWave read_by_wave(const Node& node, const Fields& of, const Interval& interval) {
        Interval::ByWave by_wave;
        Fields fields(node, fmt::format("'by_wave' of {}", of.what()), source_);
        if (!fields.is_mapping()) return by_wave;
        by_wave.coming_years = read_years(fields, "coming");
        by_wave.here_years = read_years(fields, "here");
        by_wave.past_years = read_years(fields, "past");
        by_wave.sources = sources(fields);
        fields.refuse_others();
        const auto [least, most] =
            std::minmax({by_wave.coming_years, by_wave.here_years, by_wave.past_years});
        if (least < interval.from_years || most > interval.to_years) {
            fields.refuse("coming", "outside-interval",
                          fmt::format("{} goes beyond {} to {} years", fields.what(),
                                      interval.from_years, interval.to_years));
        }
        return by_wave;
    }

    Interval read_interval(Fields& method) {
        Interval interval;
        const Node* node = method.mapping("interval");
        if (node == nullptr) return interval;
        Fields fields(*node, fmt::format("'interval' of {}", method.what()), source_);
        interval.from_years = read_years(fields, "from_years");
        interval.to_years = read_years(fields, "to_years");
        interval.words = read_said(fields);
        if (const Node* by_wave = fields.mapping_or_null("by_wave")) {
            interval.by_wave = read_by_wave(*by_wave, fields, interval);
        } else if (interval.from_years < interval.to_years) {
            fields.refuse("by_wave", "missing-key",
                          fmt::format("{} goes from {} to {} years and does not say which when",
                                      fields.what(), interval.from_years, interval.to_years),
                          "add by_wave: {coming: ..., here: ..., past: ..., source: ...}");
        }
        fields.refuse_others();
        if (interval.from_years > interval.to_years) {
            fields.refuse("from_years", "falling",
                          fmt::format("{} goes from {} years down to {}", fields.what(),
                                      interval.from_years, interval.to_years),
                          "write the shorter interval first");
        }
        return interval;
    }

    static std::optional<measure::Length> read_up_to(Fields& fields) {
        return fields.parsed_if_present(
            "up_to", [](std::string_view text) { return measure::parse_length(text); });
    }

    static measure::Mass read_mass(Fields& fields, std::string_view key) {
        return fields.parsed(key, [](std::string_view text) { return measure::parse_mass(text); })
            .value_or(measure::Mass());
    }

    // Each entry but the last says up to which size it holds, rising.
    template <class BySize>
    void check_sizes(Fields& method, std::string_view key, const std::vector<BySize>& entries) {
        if (entries.empty()) return;
        bool in_order = !entries.back().up_to;
        for (std::size_t i = 0; i + 1 < entries.size(); ++i) {
            in_order = in_order && entries[i].up_to &&
                       (i == 0 || *entries[i - 1].up_to < *entries[i].up_to);
        }
        if (!in_order) {
            method.refuse(key, "sizes-out-of-order",
                          fmt::format("'{}' of {} does not cover every stem diameter once", key,
                                      method.what()),
                          "give each entry but the last an 'up_to', each larger than the one "
                          "before");
        }
    }

    std::vector<Rate> read_rates(Fields& method) {
        std::vector<Rate> rates;
        const Node* list = method.list_or_null("rates");
        if (list == nullptr) return rates;
        for (const Node& item : list->items) {
            Fields fields(item, fmt::format("a rate of {}", method.what()), source_);
            if (!fields.is_mapping()) continue;
            Rate rate;
            rate.up_to = read_up_to(fields);
            rate.from = read_mass(fields, "from");
            rate.to = read_mass(fields, "to");
            rate.sources = sources(fields);
            rate.from_memory = std::ranges::any_of(rate.sources, [&](const std::string& key) {
                const packs::Source* known = rules_.find_source(key);
                return known != nullptr && known->evidence == packs::Evidence::memory;
            });
            fields.refuse_others();
            if (rate.from > rate.to) {
                fields.refuse("from", "falling",
                              fmt::format("{} falls from 'from' to 'to'", fields.what()),
                              "write the lower rate first");
            }
            rates.push_back(std::move(rate));
        }
        check_sizes(method, "rates", rates);
        return rates;
    }

    std::vector<Evidence> read_evidence(Fields& method) {
        std::vector<Evidence> evidence;
        const Node* list = method.list("evidence");
        if (list == nullptr) return evidence;
        for (const Node& item : list->items) {
            Fields fields(item, fmt::format("an entry of 'evidence' of {}", method.what()),
                          source_);
            if (!fields.is_mapping()) continue;
            std::optional<measure::Length> up_to = read_up_to(fields);
            evidence.push_back({up_to, read_said(fields)});
            fields.refuse_others();
        }
        check_sizes(method, "evidence", evidence);
        return evidence;
    }

    // The table of that name, which must be able to give `needed` and nothing but `allowed`.
    reason::TableIndex read_table(Fields& method, std::string_view key, std::string_view needed,
                                  const std::vector<std::string_view>& allowed) {
        const std::string name = method.text(key);
        if (name.empty()) return 0;
        const auto index = rules_.model.find_table(name);
        if (!index) {
            std::vector<std::string> names;
            for (const reason::Table& table : rules_.model.tables) names.push_back(table.name);
            method.refuse(key, "unknown-table", fmt::format("there is no table '{}'", name),
                          packs::nearest_hint(name, names));
            return 0;
        }
        const reason::Table& table = rules_.model.tables[*index];
        const bool fits = table.hit_policy != reason::HitPolicy::collect &&
                          std::ranges::find(table.gives, needed) != table.gives.end() &&
                          std::ranges::all_of(table.gives, [&](const std::string& outcome) {
                              return std::ranges::find(allowed, outcome) != allowed.end();
                          });
        if (!fits) {
            method.refuse(key, "unsuitable-table",
                          fmt::format("the table '{}' does not give what '{}' needs: {}", name, key,
                                      fmt::join(allowed, ", ")));
        }
        return *index;
    }

    MethodFacts read_method(const packs::Entry& entry) {
        MethodFacts facts;
        facts.method = entry.key;
        Fields fields(entry.value, fmt::format("the method '{}'", entry.key), source_);
        if (!fields.is_mapping()) return facts;
        facts.title = fields.text("title");
        facts.active_ingredient = fields.text("active_ingredient");
        facts.fit = read_table(fields, "fit", fit::excluded,
                               {fit::excluded, fit::doubtful, fit::fair, fit::good});
        facts.ready = read_table(fields, "ready", ready::wait, {ready::wait, ready::go_on});
        facts.interval = read_interval(fields);
        facts.wounds = fields.yes_no("wounds");
        facts.wound =
            read_said_in(fields.mapping("wound"), fmt::format("'wound' of {}", fields.what()));
        facts.rates = read_rates(fields);
        facts.evidence = read_evidence(fields);
        if (const Node* dates = fields.mapping_or_null("dates")) {
            facts.dates = read_said_in(dates, fmt::format("'dates' of {}", fields.what()));
        }
        if (facts.dates.has_value() == has_season(facts.method)) {
            fields.refuse("dates", "dates-and-season",
                          fmt::format("{} has {}", fields.what(),
                                      facts.dates ? "both 'dates' and a season in seasons.yaml"
                                                  : "neither 'dates' nor a season in "
                                                    "seasons.yaml"),
                          "give the dates in one place");
        }
        fields.refuse_others();
        return facts;
    }

    bool has_season(std::string_view method) const {
        return std::ranges::any_of(seasons_.methods, [&](const season::MethodSeason& season) {
            return season.method == method;
        });
    }

    void refuse_missing(const std::vector<MethodFacts>& methods) {
        const auto table = rules_.model.find_table(triage::table::method);
        if (!table) return;
        for (const std::string& outcome : rules_.model.tables[*table].gives) {
            if (outcome == triage::outcome::no_method_fits ||
                std::ranges::find(methods, outcome, &MethodFacts::method) != methods.end()) {
                continue;
            }
            top_.refuse("list", "missing-method",
                        fmt::format("the table 'method' can give '{}', and nothing is said of it",
                                    outcome));
        }
    }

    packs::YamlSource source_;
    Fields top_;
    const packs::RuleSet& rules_;
    const season::Seasons& seasons_;
};

}  // namespace

int Interval::years(const std::optional<Wave>& wave) const {
    if (!by_wave || !wave) return from_years;
    if (*wave == Wave::coming) return by_wave->coming_years;
    return *wave == Wave::here ? by_wave->here_years : by_wave->past_years;
}

std::vector<MethodFacts> read_method_facts(const std::vector<packs::RuleFile>& files,
                                           const packs::RuleSet& rules,
                                           const season::Seasons& seasons) {
    const packs::RuleFile* file = packs::find_rule_file(files, "method_facts.yaml");
    if (file == nullptr) {
        throw measure::InputError("there is no file 'method_facts.yaml' among the rule files");
    }
    packs::Problems problems;
    problems.add_file(file->shown_name(), file->text);
    const Node root = packs::read_yaml(file->text, file->shown_name(), problems);
    problems.throw_if_any();
    std::vector<MethodFacts> methods =
        MethodFactsReader(root, file->shown_name(), rules, seasons, problems).read();
    problems.throw_if_any();
    return methods;
}

}  // namespace ashtriage::plan
