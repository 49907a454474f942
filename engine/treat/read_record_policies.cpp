#include "treat/read_record_policies.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

constexpr std::string_view not_known = "not known";
constexpr std::string_view not_checked = "not checked";
constexpr packs::Bounds days_allowed{0.0, 366.0};
constexpr packs::Bounds years_allowed{1.0, 100.0};

bool says(const Node& node, std::string_view words) {
    return node.kind == Node::Kind::scalar && node.text == words;
}

// 7 CFR Part 110, in any of the ways in which it is cited.
bool names_rescinded_rule(std::string text) {
    std::erase_if(text, [](unsigned char c) { return std::isspace(c) != 0 || c == '.'; });
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text.find("7cfr110") != std::string::npos ||
           text.find("7cfrpart110") != std::string::npos;
}

class RecordPoliciesReader {
 public:
    RecordPoliciesReader(const Node& root, const std::string& file,
                         const std::vector<packs::Source>& sources, packs::Problems& problems)
        : source_{file, problems},
          top_(root, "the file of record policies", source_),
          known_sources_(sources) {}

    RecordPolicies read() {
        RecordPolicies policies;
        const std::string name = top_.text("records");
        if (!name.empty() && name != "application-records") {
            top_.refuse("records", "unknown-value",
                        fmt::format("'records' is '{}'; expected 'application-records'", name));
        }
        policies.edition = top_.text("edition");
        read_remind_after(policies);
        if (const Node* list = top_.mapping("policies")) {
            for (const packs::Entry& entry : list->entries) {
                policies.policies.push_back(read_policy(entry));
            }
            // A policy that could not be read would be compared for what it does not say.
            if (source_.problems.empty()) check_strictest(*list, policies);
        }
        top_.refuse_others();
        return policies;
    }

 private:
    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    // 0 where it is no whole number, which is reported.
    int whole(const Node& node, const std::string& name, const packs::Bounds& bounds) {
        const auto number = packs::read_number(node, name, source_, bounds);
        if (!number) return 0;
        const int whole = static_cast<int>(*number);
        if (static_cast<double>(whole) != *number) {
            source_.refuse("not-a-whole-number", node.place,
                           fmt::format("{} is {}; expected a whole number", name, *number));
        }
        return whole;
    }

    void read_remind_after(RecordPolicies& policies) {
        const Node* node = top_.mapping("remind_after");
        if (node == nullptr) return;
        Fields fields(*node, "'remind_after'", source_);
        if (const Node* days = fields.list("days")) {
            for (const Node& day : days->items) {
                policies.remind_after_days.push_back(
                    whole(day, "a day of 'remind_after'", days_allowed));
            }
        }
        const auto& days = policies.remind_after_days;
        if (std::ranges::adjacent_find(days, std::ranges::greater_equal()) != days.end()) {
            fields.refuse("days", "days-out-of-order", "the days of 'remind_after' do not rise");
        }
        policies.remind_sources = sources(fields);
        fields.refuse_others();
    }

    std::optional<SourcedNumber> read_number(Fields& fields, std::string_view called,
                                             const packs::Bounds& bounds) {
        const Node* node = fields.required(called);
        if (node == nullptr) return std::nullopt;
        SourcedNumber number;
        number.number = whole(*node, fmt::format("'{}' of {}", called, fields.what()), bounds);
        number.sources = sources(fields);
        return number;
    }

    // The mapping of a duty, or null where the file says that it is not known.
    const Node* duty(Fields& policy, std::string_view name) {
        const Node* node = policy.required(name);
        if (node == nullptr || says(*node, not_known)) return nullptr;
        if (node->kind == Node::Kind::scalar) {
            policy.refuse(name, "unknown-value",
                          fmt::format("'{}' of {} is '{}'; expected a mapping, or '{}'", name,
                                      policy.what(), node->text, not_known));
            return nullptr;
        }
        return node;
    }

    std::optional<SourcedNumber> read_duty(Fields& policy, std::string_view name,
                                           std::string_view called, const packs::Bounds& bounds) {
        const Node* node = duty(policy, name);
        if (node == nullptr) return std::nullopt;
        Fields fields(*node, fmt::format("'{}' of {}", name, policy.what()), source_);
        if (!fields.is_mapping()) return std::nullopt;
        auto number = read_number(fields, called, bounds);
        fields.refuse_others();
        return number;
    }

    void read_customer_copy(Fields& policy, RecordPolicy& read) {
        const Node* node = duty(policy, "customer_copy");
        if (node == nullptr) return;
        Fields fields(*node, fmt::format("'customer_copy' of {}", policy.what()), source_);
        if (!fields.is_mapping()) return;
        read.customer_copy_within_days = read_number(fields, "within_days", days_allowed);
        read.customer_copy_for =
            static_cast<ForProducts>(fields.choice("for", {"all", "restricted_use"}));
        fields.refuse_others();
    }

    // One field by name, or a list of names that belong together.
    std::vector<const RecordField*> read_fields_together(const Node& node,
                                                         const std::string& name) {
        std::vector<const RecordField*> together;
        for (const std::string& written : packs::read_texts(node, name, source_)) {
            if (const RecordField* field = find_record_field(written)) {
                together.push_back(field);
                continue;
            }
            std::vector<std::string> names;
            for (const RecordField& field : record_fields()) names.emplace_back(field.name);
            source_.refuse("unknown-field", node.place,
                           fmt::format("'{}' is not a field of a record", written),
                           packs::nearest_hint(written, names));
        }
        return together;
    }

    RequiredFields read_required_entry(const Node& item, const std::string& what) {
        RequiredFields required;
        const std::string name = "an entry of 'fields' of " + what;
        if (item.kind != Node::Kind::mapping) {
            required.either.push_back(read_fields_together(item, name));
            return required;
        }
        Fields choice(item, name, source_);
        if (const Node* lists = choice.list("either")) {
            for (const Node& list : lists->items) {
                required.either.push_back(read_fields_together(list, "a list of 'either'"));
            }
            if (lists->items.size() < 2) {
                choice.refuse("either", "no-choice",
                              fmt::format("'either' of {} holds fewer than two lists", what));
            }
        }
        choice.refuse_others();
        return required;
    }

    void read_required(Fields& policy, RecordPolicy& read) {
        const Node* node = policy.mapping("required");
        if (node == nullptr) return;
        Fields fields(*node, fmt::format("'required' of {}", policy.what()), source_);
        if (const Node* list = fields.list("fields")) {
            for (const Node& item : list->items) {
                read.required.push_back(read_required_entry(item, policy.what()));
            }
        }
        read.required_sources = sources(fields);
        fields.refuse_others();
    }

    void read_checked_on(Fields& policy, RecordPolicy& read) {
        const Node* node = policy.required("checked_on");
        if (node == nullptr || says(*node, not_checked)) return;
        read.checked_on = policy.parsed("checked_on", measure::parse_date);
    }

    RecordPolicy read_policy(const packs::Entry& entry) {
        RecordPolicy policy;
        policy.key = entry.key;
        Fields fields(entry.value, fmt::format("the record policy '{}'", entry.key), source_);
        if (!fields.is_mapping()) return policy;
        policy.jurisdiction = fields.text("jurisdiction");
        policy.about = fields.text("about");
        policy.applies_to = static_cast<ForProducts>(
            fields.choice("applies_to", {"all", "restricted_use", std::string(not_known)}));
        policy.written_within_days = read_duty(fields, "written", "within_days", days_allowed);
        policy.kept_years = read_duty(fields, "kept", "years", years_allowed);
        read_customer_copy(fields, policy);
        read_required(fields, policy);
        read_checked_on(fields, policy);
        fields.refuse_others();
        if (names_rescinded_rule(policy.jurisdiction) || names_rescinded_rule(policy.about)) {
            fields.refuse("jurisdiction", "rescinded",
                          fmt::format("{} goes by 7 CFR Part 110, which is not in force: it was "
                                      "rescinded with effect of 11 July 2025 (90 FR 20083)",
                                      fields.what()),
                          "name the rule in force, such as 40 CFR 171.303(b)(7)(vi), 7 U.S.C. "
                          "136i-1 or that of the state");
        }
        return policy;
    }

    // The strictest stands in for what others leave open, and is what holds where nobody has
    // chosen.
    void check_strictest(const Node& list, const RecordPolicies& policies) {
        const auto refuse = [&](std::string_view key, std::string message, std::string hint) {
            const Node* node = list.find(key);
            source_.refuse("strictest-is-not", node == nullptr ? list.place : node->place,
                           std::move(message), std::move(hint));
        };
        constexpr auto key = RecordPolicies::strictest_key;
        const auto found = std::ranges::find(policies.policies, key, &RecordPolicy::key);
        if (found == policies.policies.end()) {
            refuse(key, fmt::format("there is no record policy '{}'", key),
                   "add the policy that holds where no other is chosen");
            return;
        }
        for (const RecordPolicy& policy : policies.policies) {
            const std::string beyond = goes_beyond(policy, *found);
            if (beyond.empty()) continue;
            refuse(policy.key,
                   fmt::format("the record policy '{}' is stricter than '{}': {}", policy.key, key,
                               beyond),
                   fmt::format("make '{}' as strict", key));
        }
    }

    static bool requires_field(const RecordPolicy& policy, const RecordField* field) {
        return std::ranges::any_of(policy.required, [&](const RequiredFields& required) {
            return required.either.size() == 1 &&
                   std::ranges::find(required.either.front(), field) !=
                       required.either.front().end();
        });
    }

    // In what a policy asks for more than the strictest does; empty when in nothing.
    static std::string goes_beyond(const RecordPolicy& policy, const RecordPolicy& strictest) {
        const auto number = [](const std::optional<SourcedNumber>& each, int otherwise) {
            return each ? each->number : otherwise;
        };
        constexpr int never = 1'000'000;
        if (strictest.applies_to != ForProducts::all ||
            strictest.customer_copy_for != ForProducts::all) {
            return "it is not for all products";
        }
        if (!strictest.written_within_days || !strictest.kept_years ||
            !strictest.customer_copy_within_days) {
            return "it leaves a day or a number of years open";
        }
        if (number(policy.written_within_days, never) < strictest.written_within_days->number) {
            return "the record is written sooner";
        }
        if (number(policy.kept_years, 0) > strictest.kept_years->number) {
            return "the record is kept longer";
        }
        if (number(policy.customer_copy_within_days, never) <
            strictest.customer_copy_within_days->number) {
            return "the customer gets a copy sooner";
        }
        for (const RequiredFields& required : policy.required) {
            const bool covered = std::ranges::any_of(required.either, [&](const auto& fields) {
                return std::ranges::all_of(fields, [&](const RecordField* field) {
                    return requires_field(strictest, field);
                });
            });
            if (!covered) return fmt::format("it asks for '{}'", required.either[0].front()->name);
        }
        return {};
    }

    packs::YamlSource source_;
    Fields top_;
    const std::vector<packs::Source>& known_sources_;
};

}  // namespace

RecordPolicies read_record_policies(const std::vector<packs::RuleFile>& files,
                                    const std::vector<packs::Source>& sources) {
    const packs::RuleFile* file = packs::find_rule_file(files, "records.yaml");
    if (file == nullptr) {
        throw measure::InputError("there is no file 'records.yaml' among the rule files");
    }
    packs::Problems problems;
    problems.add_file(file->shown_name(), file->text);
    const Node root = packs::read_yaml(file->text, file->shown_name(), problems);
    problems.throw_if_any();
    RecordPolicies policies =
        RecordPoliciesReader(root, file->shown_name(), sources, problems).read();
    problems.throw_if_any();
    return policies;
}

}  // namespace ashtriage::treat
