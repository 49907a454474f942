#include "present/due_trees.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "packs/words.hpp"
#include "present/method_comparison.hpp"
#include "present/planned_work.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

using measure::Date;
using plan::DueState;
using plan::EarlierTreatment;

namespace {

// The one level that the walk-around recorded of a fact; empty when it is none or several.
std::string level_of(const TreeAssessment& tree, const packs::RuleSet& rules,
                     std::string_view name) {
    const auto fact = rules.model.find_fact(name);
    if (!fact) return {};
    const reason::LevelSet* known = tree.facts.values[*fact].level_set();
    if (known == nullptr) return {};
    std::string found;
    const auto& levels = rules.model.facts[*fact].levels;
    for (reason::LevelIndex level = 0; level < levels.size(); ++level) {
        if (!reason::has_level(*known, level)) continue;
        if (!found.empty()) return {};
        found = levels[level];
    }
    return found;
}

plan::SaidOfTreatment said_of_treatment(const std::string& level) {
    if (level.empty()) return plan::SaidOfTreatment::nothing;
    if (level == triage::level::never) return plan::SaidOfTreatment::never;
    return level == triage::level::this_season ? plan::SaidOfTreatment::this_season
                                               : plan::SaidOfTreatment::earlier;
}

// Few trees with signs, or many with few dead: the wave is still to come.
std::optional<plan::Wave> wave_of(const std::string& borer_pressure) {
    if (borer_pressure.empty()) return std::nullopt;
    return borer_pressure == triage::level::high ? plan::Wave::here : plan::Wave::coming;
}

bool mentions(const std::string& text, const std::string& part) {
    return !part.empty() &&
           packs::normalised(text).find(packs::normalised(part)) != std::string::npos;
}

// The method by which a product was applied, by how a record words it; empty when none is meant, or
// more than one.
std::string method_of_record(const std::vector<plan::MethodFacts>& methods,
                             const std::string& words, const std::string& active_ingredient) {
    std::string found;
    for (const plan::MethodFacts& method : methods) {
        if (!mentions(method.active_ingredient, active_ingredient) ||
            !mentions(method.title, words)) {
            continue;
        }
        if (!found.empty()) return {};
        found = method.method;
    }
    return found;
}

class Assembly {
 public:
    Assembly(const Knowledge& knowledge, const std::optional<plan::Wave>& wave, const Date& as_of)
        : knowledge_(knowledge), wave_(wave) {
        report_.as_of = as_of;
    }

    void add(const PropertyDue& each) {
        const PropertyAssessment& property = each.property;
        take_records(property.site, each.applications);
        for (const TreeAssessment& tree : property.trees) add_walked(property.site, tree);
        for (const observe::Tree& tree : property.not_walked) add_not_walked(property.site, tree);
    }

    DueReport report() {
        std::ranges::stable_sort(report_.rows, {}, [](const DueRow& row) {
            const Date last_of_all = std::chrono::year(9999) / std::chrono::December / 31;
            return std::tuple(row.due.state, row.due.window ? row.due.window->closes : last_of_all);
        });
        return std::move(report_);
    }

 private:
    plan::DueRules rules() const {
        return {&knowledge_.methods, &knowledge_.seasons, &knowledge_.cards, &knowledge_.year};
    }

    void take_records(const observe::Site& site,
                      const std::vector<treat::ApplicationRecord>& records) {
        treated_.clear();
        notes_.clear();
        for (const treat::ApplicationRecord& record : records) {
            if (record.work_date > report_.as_of) continue;
            take_record(site, record);
        }
    }

    void take_record(const observe::Site& site, const treat::ApplicationRecord& record) {
        const std::string which = fmt::format("Application {} of {} at {}", record.id,
                                              measure::long_text(record.work_date), site.name);
        if (std::ranges::none_of(record.trees,
                                 [](const auto& tree) { return tree.tree.has_value(); })) {
            report_.notes.push_back(which + " names no tree of the book: it is not counted here.");
            return;
        }
        for (const treat::TreatedTree& tree : record.trees) {
            if (!tree.tree) continue;
            for (const treat::AppliedActive& active : record.actives) {
                treated_[*tree.tree].push_back(
                    {record.work_date, active.name,
                     method_of_record(knowledge_.methods, record.method, active.name)});
            }
            if (record.actives.empty()) {
                treated_[*tree.tree].push_back({record.work_date, {}, {}});
                notes_[*tree.tree].push_back(
                    which +
                    " names no active ingredient: from when on a label allows it again is "
                    "not known. Complete that record.");
            }
        }
    }

    plan::DueTree due_tree(const observe::Site& site, const observe::Tree& tree) const {
        plan::DueTree due;
        due.site = site.name;
        due.label = tree.label;
        due.location = location_of(&site, tree);
        due.wave = wave_;
        if (const auto found = treated_.find(tree.id); found != treated_.end()) {
            due.earlier = found->second;
        }
        return due;
    }

    std::vector<std::string> notes_of(const observe::Tree& tree) const {
        const auto found = notes_.find(tree.id);
        return found == notes_.end() ? std::vector<std::string>{} : found->second;
    }

    void add_not_walked(const observe::Site& site, const observe::Tree& tree) {
        const plan::DueTree due = due_tree(site, tree);
        report_.rows.push_back(
            {due, plan::due_on(due, rules(), report_.as_of), std::nullopt, notes_of(tree)});
    }

    // The method that comes next: that of the recommendation; where a treated tree is only to be
    // watched for now, the one that it had.
    void take_method(const TreeAssessment& tree, plan::DueTree& due,
                     std::vector<std::string>& notes) const {
        if (tree.treatment) {
            due.method = tree.treatment->method;
            return;
        }
        due.why_not = why_not_treated(tree);
        const auto last = std::ranges::max_element(due.earlier, {}, &EarlierTreatment::on);
        const triage::Recommendation& recommended = tree.recommendation;
        if (last == due.earlier.end() || last->method.empty() || !recommended.decided() ||
            recommended.possible.front() != triage::outcome::monitor) {
            return;
        }
        due.method = last->method;
        notes.push_back(
            "By the last walk-around the tree is to be watched, so the date goes by "
            "the method that it had.");
    }

    void add_walked(const observe::Site& site, const TreeAssessment& tree) {
        const packs::RuleSet& rule_set = knowledge_.judge.rules();
        DueRow row{due_tree(site, tree.tree), {}, std::nullopt, notes_of(tree.tree)};
        row.tree.walked_on = tree.walk_around.date;
        row.tree.said =
            said_of_treatment(level_of(tree, rule_set, triage::fact::treatment_history));
        if (!wave_) {
            row.tree.wave = wave_of(level_of(tree, rule_set, triage::fact::borer_pressure));
        }
        take_method(tree, row.tree, row.notes);
        row.due = plan::due_on(row.tree, rules(), report_.as_of);
        if (row.due.window_passed && waits(row.due.state))
            row.instead = instead_of(site, tree, row);
        report_.rows.push_back(std::move(row));
    }

    // Ought to be treated this season.
    static bool waits(DueState state) {
        return state == DueState::missed || state == DueState::never_treated ||
               state == DueState::not_recorded;
    }

    // Only methods that nothing unknown can still rule out.
    std::optional<plan::StillInTime> instead_of(const observe::Site& site,
                                                const TreeAssessment& tree,
                                                const DueRow& row) const {
        const ComparedTree compared = compare_methods_for(knowledge_, &site, tree, report_.as_of);
        if (!compared.methods) return std::nullopt;
        std::vector<std::string> methods;
        for (const plan::MethodAnswer& answer : compared.methods->ranked) {
            methods.push_back(answer.facts->method);
        }
        return plan::still_in_time(methods, row.tree, rules(), report_.as_of);
    }

    const Knowledge& knowledge_;
    const std::optional<plan::Wave>& wave_;
    DueReport report_;
    std::map<observe::TreeId, std::vector<EarlierTreatment>> treated_;  // on the site at hand
    std::map<observe::TreeId, std::vector<std::string>> notes_;
};

}  // namespace

DueReport due_report(const std::vector<PropertyDue>& properties, const Knowledge& knowledge,
                     const std::optional<plan::Wave>& wave, const Date& as_of) {
    Assembly assembly(knowledge, wave, as_of);
    for (const PropertyDue& each : properties) assembly.add(each);
    return assembly.report();
}

bool any_late(const DueReport& report) {
    return std::ranges::any_of(report.rows, [](const DueRow& row) {
        return row.due.state == DueState::overdue || row.due.state == DueState::missed;
    });
}

}  // namespace ashtriage::present
