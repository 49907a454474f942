#include "packs/coverage.hpp"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <utility>
#include <variant>

#include "packs/applicability.hpp"
#include "packs/case_needed.hpp"
#include "packs/prepared_rules.hpp"
#include "packs/wording.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

using reason::Condition;
using reason::ConditionTrace;
using reason::RuleIndex;
using reason::RuleTrace;
using reason::TableIndex;
using reason::Truth;

bool is_test(const Condition& condition) {
    return !std::holds_alternative<std::monostate>(condition.test);
}

// What a condition comes to whatever is observed, because of switches; nothing when it depends.
std::optional<bool> settled(const Condition& condition) {
    if (is_test(condition)) return std::nullopt;
    if (condition.kind == Condition::Kind::negation) {
        const auto part = settled(condition.parts.front());
        return part ? std::optional(!*part) : std::nullopt;
    }
    const bool all = condition.kind == Condition::Kind::all;
    bool depends = false;
    for (const Condition& part : condition.parts) {
        const auto comes_to = settled(part);
        if (comes_to == !all) return !all;
        depends = depends || !comes_to;
    }
    return depends ? std::nullopt : std::optional(all);
}

struct PlacedTest {
    const Condition* test = nullptr;
    Place place;
    bool counts = true;  // it is in no part that switches have settled
};

void add_tests(const Condition& condition, bool counts, const std::vector<Place>& places,
               std::vector<PlacedTest>& tests) {
    counts = counts && !settled(condition);
    if (is_test(condition)) tests.push_back({&condition, places[tests.size()], counts});
    for (const Condition& part : condition.parts) add_tests(part, counts, places, tests);
}

// The verdicts on the tests, in the order of add_tests.
void add_verdicts(const ConditionTrace& trace, std::vector<Truth>& verdicts) {
    if (is_test(*trace.condition)) verdicts.push_back(trace.truth);
    for (const ConditionTrace& part : trace.parts) add_verdicts(part, verdicts);
}

// Where a test stands within a rule, the same under every preset.
using PlaceKey = std::pair<std::size_t, std::size_t>;

PlaceKey key_of(Place place) {
    return {place.line, place.column};
}

// What has been seen of one test, or one rule, so far.
struct Seen {
    bool counts = false;  // under some preset
    std::string preset;   // the first under which it counts
    std::string words;
    std::string case_for_yes;  // met, held
    std::string case_for_no;   // not met
    std::string yes_by;        // the first case that brought it about
    std::string no_by;
};

struct SeenRule {
    Seen whole;
    std::string decided_by;
    std::map<PlaceKey, Seen> tests;
};

// The rules under one preset, with what switches leave of them.
class RulesInUse {
 public:
    explicit RulesInUse(const PreparedRules& rules) : rules_(&rules) {
        const reason::Model& model = rules.engine.model();
        for (TableIndex table = 0; table < model.tables.size(); ++table) {
            std::vector<std::vector<PlacedTest>>& of_table = tests_.emplace_back();
            for (RuleIndex rule = 0; rule < model.tables[table].rules.size(); ++rule) {
                add_tests(model.tables[table].rules[rule].when, true,
                          rules.rule_set.tables[table].rules[rule].tests, of_table.emplace_back());
            }
        }
    }

    const RuleSet& rule_set() const { return rules_->rule_set; }
    const reason::Engine& engine() const { return rules_->engine; }
    const std::vector<PlacedTest>& tests(TableIndex table, RuleIndex rule) const {
        return tests_[table][rule];
    }

    // The tables that the case expects something of and all that these rest on.
    std::vector<TableIndex> exercised_by(const Case& tested) const {
        std::vector<bool> found(tests_.size(), false);
        for (const Expectation& expected : tested.expected) mark(expected.table, found);
        std::vector<TableIndex> tables;
        for (TableIndex table = 0; table < found.size(); ++table) {
            if (found[table]) tables.push_back(table);
        }
        return tables;
    }

 private:
    void mark(TableIndex table, std::vector<bool>& found) const {
        if (found[table]) return;
        found[table] = true;
        for (const std::vector<PlacedTest>& rule : tests_[table]) {
            for (const PlacedTest& placed : rule) {
                const auto* outcome = std::get_if<reason::OutcomeTest>(&placed.test->test);
                if (placed.counts && outcome != nullptr) mark(outcome->table, found);
            }
        }
    }

    const PreparedRules* rules_;
    std::vector<std::vector<std::vector<PlacedTest>>> tests_;  // by table and rule
};

class Tally {
 public:
    explicit Tally(const reason::Model& model) {
        for (const reason::Table& table : model.tables) seen_.emplace_back(table.rules.size());
    }

    // Notes what there is to exercise under one preset.
    void add_rules(const RulesInUse& rules) {
        for (TableIndex table = 0; table < seen_.size(); ++table) {
            for (RuleIndex rule = 0; rule < seen_[table].size(); ++rule) {
                SeenRule& seen = seen_[table][rule];
                const Condition& when = rules.engine().model().tables[table].rules[rule].when;
                note(when, settled(when) != false, rules.rule_set(), seen.whole);
                for (const PlacedTest& placed : rules.tests(table, rule)) {
                    note(*placed.test, placed.counts, rules.rule_set(),
                         seen.tests[key_of(placed.place)]);
                }
            }
        }
    }

    void add_case(const Case& tested, const RulesInUse& rules) {
        const auto given = with_applicability(rules.rule_set(), tested.given);
        for (const TableIndex table : rules.exercised_by(tested)) {
            for (const RuleTrace& trace : rules.engine().explain(table, given)) {
                SeenRule& seen = seen_[table][trace.rule];
                if (trace.holds == Truth::yes) set_first(seen.whole.yes_by, tested.id);
                if (trace.decides) set_first(seen.decided_by, tested.id);
                add_tests_of(tested.id, rules.tests(table, trace.rule), trace, seen);
            }
        }
    }

    std::vector<CoverageItem> items_of(TableIndex index, const RuleSet& rule_set) const {
        const reason::Table& table = rule_set.model.tables[index];
        std::vector<CoverageItem> items;
        for (RuleIndex rule = 0; rule < table.rules.size(); ++rule) {
            const SeenRule& seen = seen_[index][rule];
            const std::string& id = table.rules[rule].id;
            const std::size_t line = rule_set.tables[index].rules[rule].place.line;
            const auto add = [&](Aim aim, const Seen& of, const std::string& words, std::size_t at,
                                 const std::string& reached_by, const std::string& case_needed) {
                items.push_back({aim, id, words, at, reached_by,
                                 reached_by.empty() ? case_in_full(of, case_needed, table.name)
                                                    : std::string()});
            };
            add(Aim::held, seen.whole, {}, line, seen.whole.yes_by, seen.whole.case_for_yes);
            if (!seen.whole.counts) continue;  // one finding, not one for each of its parts
            if (table.hit_policy != reason::HitPolicy::collect) {
                add(Aim::decided, seen.whole, {}, line, seen.decided_by,
                    case_for_deciding(table, rule));
            }
            for (const auto& [key, test] : seen.tests) {
                add(Aim::met, test, test.words, key.first, test.yes_by, test.case_for_yes);
                add(Aim::not_met, test, test.words, key.first, test.no_by, test.case_for_no);
            }
        }
        return items;
    }

 private:
    static void set_first(std::string& by, const std::string& id) {
        if (by.empty()) by = id;
    }

    // What is said of it comes from the first preset under which it counts.
    static void note(const Condition& condition, bool counts, const RuleSet& rule_set, Seen& seen) {
        if (seen.counts || (!counts && !seen.words.empty())) return;
        seen.counts = counts;
        seen.preset = rule_set.preset;
        seen.case_for_yes = case_needed(condition, true, rule_set);
        if (is_test(condition)) seen.case_for_no = case_needed(condition, false, rule_set);
        seen.words = condition_text(condition, rule_set);
    }

    static void add_tests_of(const std::string& id, const std::vector<PlacedTest>& tests,
                             const RuleTrace& trace, SeenRule& seen) {
        std::vector<Truth> verdicts;
        add_verdicts(trace.condition, verdicts);
        for (std::size_t i = 0; i < tests.size(); ++i) {
            if (!tests[i].counts) continue;
            Seen& test = seen.tests[key_of(tests[i].place)];
            if (verdicts[i] == Truth::yes) set_first(test.yes_by, id);
            if (verdicts[i] == Truth::no) set_first(test.no_by, id);
        }
    }

    static std::string case_for_deciding(const reason::Table& table, RuleIndex rule) {
        const bool in_turn = table.hit_policy == reason::HitPolicy::first;
        return fmt::format("a case in which the rule holds{} and {} comes out as {}",
                           in_turn ? ", none before it does" : "", plain_name(table.name),
                           plain_name(table.gives[table.rules[rule].gives]));
    }

    static std::string case_in_full(const Seen& seen, const std::string& case_needed,
                                    const std::string& table) {
        if (!seen.counts) {
            return "a preset that switches it on, and a case under that preset: it is off by "
                   "default and under every preset there is";
        }
        return fmt::format(
            "{}{}, and that expects something of {}", case_needed,
            seen.preset.empty() ? "" : fmt::format(", under the preset {}", seen.preset),
            plain_name(table));
    }

    std::vector<std::vector<SeenRule>> seen_;  // by table and rule
};

std::string shown_file(const std::vector<RuleFile>& files, const std::string& pack) {
    const std::string name = pack + ".yaml";
    const RuleFile* file = find_rule_file(files, name);
    return file == nullptr ? name : file->shown_name();
}

Share share_of(const std::map<std::string, bool>& reached) {
    Share share;
    share.all = reached.size();
    for (const auto& [name, done] : reached) share.reached += done ? 1U : 0U;
    return share;
}

}  // namespace

Share TableCoverage::rules() const {
    std::map<std::string, bool> reached;
    for (const CoverageItem& item : items) {
        if (item.aim != Aim::held && item.aim != Aim::decided) continue;
        bool& rule = reached.try_emplace(item.rule, true).first->second;
        rule = rule && item.reached();
    }
    return share_of(reached);
}

Share TableCoverage::sides() const {
    Share share;
    for (const CoverageItem& item : items) {
        if (item.aim != Aim::met && item.aim != Aim::not_met) continue;
        ++share.all;
        share.reached += item.reached() ? 1U : 0U;
    }
    return share;
}

std::vector<TableCoverage> case_coverage(const std::vector<RuleFile>& files) {
    const RuleSet all = read_rule_set(files, {}, Reading::rules_and_cases);
    RulesByPreset by_preset(files);
    std::map<std::string, RulesInUse> in_use;
    Tally tally(all.model);
    const auto add_preset = [&](const std::string& preset) {
        tally.add_rules(in_use.emplace(preset, by_preset.under(preset)).first->second);
    };
    add_preset({});
    for (const Preset& preset : all.presets) add_preset(preset.name);
    for (const Case& tested : all.cases) tally.add_case(tested, in_use.at(tested.preset));

    std::vector<TableCoverage> tables;
    for (TableIndex table = 0; table < all.model.tables.size(); ++table) {
        tables.push_back({all.model.tables[table].name, shown_file(files, all.tables[table].pack),
                          tally.items_of(table, all)});
    }
    return tables;
}

}  // namespace ashtriage::packs
