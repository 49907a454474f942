#include "plan/method_choice.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <tuple>
#include <utility>

#include "measure/units.hpp"
#include "triage/open_questions.hpp"
#include "triage/reasons.hpp"
#include "triage/tables.hpp"

namespace ashtriage::plan {

namespace {

using reason::LevelSet;
using reason::Truth;

constexpr std::array worst_to_best{fit::excluded, fit::doubtful, fit::fair, fit::good};

// How good a fit is: 0 for excluded, upward.
int goodness(std::string_view outcome) {
    return static_cast<int>(std::ranges::find(worst_to_best, outcome) - worst_to_best.begin());
}

// The first entry whose sizes reach up to this one; the last has no end.
template <class BySize>
const BySize* for_size(const std::vector<BySize>& entries, measure::Length dbh) {
    const auto found = std::ranges::find_if(
        entries, [&](const BySize& entry) { return !entry.up_to || dbh <= *entry.up_to; });
    return found == entries.end() ? nullptr : &*found;
}

// One comparison of methods: what all of them are held against.
class Comparing {
 public:
    Comparing(const packs::RuleSet& rules, const reason::Engine& engine,
              const season::Seasons& seasons, const triage::TreeFacts& tree,
              const std::optional<season::Location>& location, const measure::Date& as_of,
              const season::KnownYear& known)
        : rules_(rules),
          engine_(engine),
          seasons_(seasons),
          tree_(tree),
          location_(location),
          as_of_(as_of),
          known_(known),
          method_table_(*rules.model.find_table(triage::table::method)),
          methods_(engine.decide(method_table_, tree.values)) {}

    MethodAnswer answer_for(const MethodFacts& method) const {
        MethodAnswer answer;
        answer.facts = &method;
        take_first_choice(answer);
        take_fit(answer);
        take_reasons(answer);
        if (answer.standing != Standing::ruled_out) {
            answer.questions = triage::questions_about(
                rules_, tree_.values,
                triage::facts_worth_asking(rules_, engine_, method.fit, tree_.values));
            take_day(answer);
        }
        if (tree_.dbh) {
            answer.active = active_per_year(method, *tree_.dbh);
            answer.evidence = for_size(method.evidence, *tree_.dbh);
        }
        return answer;
    }

 private:
    void take_first_choice(MethodAnswer& answer) const {
        const auto& gives = rules_.model.tables[method_table_].gives;
        const auto found = std::ranges::find(gives, answer.facts->method);
        if (found == gives.end()) return;
        const auto outcome = static_cast<reason::OutcomeIndex>(found - gives.begin());
        answer.first_choice = methods_.outcome() == outcome;
        answer.may_be_first_choice = reason::has_level(methods_.possible, outcome);
    }

    void take_fit(MethodAnswer& answer) const {
        const reason::Table& table = rules_.model.tables[answer.facts->fit];
        const LevelSet possible = engine_.decide(answer.facts->fit, tree_.values).possible;
        for (reason::OutcomeIndex outcome = 0; outcome < table.gives.size(); ++outcome) {
            if (reason::has_level(possible, outcome)) answer.fits.push_back(table.gives[outcome]);
        }
        std::ranges::sort(answer.fits, std::ranges::greater{}, goodness);
        const bool may_be_excluded =
            std::ranges::find(answer.fits, fit::excluded) != answer.fits.end();
        if (!may_be_excluded && !answer.fits.empty()) {
            answer.standing = Standing::ranked;
        } else if (answer.fits.size() == 1) {
            answer.standing = Standing::ruled_out;
        }
    }

    void take_reasons(MethodAnswer& answer) const {
        const reason::TableIndex table = answer.facts->fit;
        const auto told = [&](const reason::RuleTrace& trace) {
            return triage::reason_of(rules_, engine_, tree_.values, table, trace);
        };
        if (answer.standing == Standing::ruled_out) {
            for (const auto& trace : triage::deciding_rules(rules_, engine_, tree_.values, table)) {
                answer.ruled_out_by.push_back(told(trace));
            }
            return;
        }
        for (const reason::RuleTrace& trace : engine_.explain(table, tree_.values)) {
            if (trace.holds != Truth::yes) continue;
            triage::Reason reason = told(trace);
            auto& list = reason.outcome == fit::doubtful ? answer.against : answer.in_favour;
            list.push_back(std::move(reason));
        }
    }

    void take_day(MethodAnswer& answer) const {
        const auto traces =
            triage::deciding_rules(rules_, engine_, tree_.values, answer.facts->ready);
        for (const reason::RuleTrace& trace : traces) {
            triage::Reason reason =
                triage::reason_of(rules_, engine_, tree_.values, answer.facts->ready, trace);
            if (reason.outcome == ready::wait) answer.wait_for.push_back(std::move(reason));
        }
        if (!answer.facts->dates) {
            answer.window =
                season::next_window(seasons_, answer.facts->method, location_, as_of_, known_);
        }
    }

    const packs::RuleSet& rules_;
    const reason::Engine& engine_;
    const season::Seasons& seasons_;
    const triage::TreeFacts& tree_;
    const std::optional<season::Location>& location_;
    const measure::Date& as_of_;
    const season::KnownYear& known_;
    reason::TableIndex method_table_;
    reason::Outcomes methods_;
};

int best_of(const MethodAnswer& answer) {
    // No fit at all: no rule holds, which rules that are complete never come to.
    return answer.fits.empty() ? 0 : goodness(answer.fits.front());
}

int worst_of(const MethodAnswer& answer) {
    return answer.fits.empty() ? 0 : goodness(answer.fits.back());
}

// 0 in time, 1 without dates, 2 too late.
int lateness(const MethodAnswer& answer) {
    if (answer.in_time_this_year()) return 0;
    return answer.too_late_this_year() ? 2 : 1;
}

// Ascending: what comes first comes into question first.
auto rank(const MethodAnswer& answer) {
    const std::int64_t most = std::numeric_limits<std::int64_t>::max();
    return std::tuple(!answer.first_choice, !answer.may_be_first_choice, lateness(answer),
                      -best_of(answer), -worst_of(answer),
                      answer.active ? answer.active->to_a_year.ticks() : most);
}

void compare_with_first(MethodComparison& comparison) {
    const auto& ranked = comparison.ranked;
    if (ranked.empty() || !ranked.front().first_choice) return;
    const MethodAnswer& first = ranked.front();
    for (std::size_t i = 1; i < ranked.size(); ++i) {
        if (!comparison.fits_better && best_of(ranked[i]) > best_of(first)) {
            comparison.fits_better = i;
        }
        if (first.too_late_this_year() && !comparison.still_in_time &&
            ranked[i].in_time_this_year()) {
            comparison.still_in_time = i;
        }
    }
}

}  // namespace

bool MethodAnswer::too_late_this_year() const {
    return window && (window->state == season::WindowState::passed_so_next_year ||
                      window->state == season::WindowState::none_here);
}

bool MethodAnswer::in_time_this_year() const {
    return window && !too_late_this_year();
}

std::optional<ActivePerYear> active_per_year(const MethodFacts& method, measure::Length dbh) {
    const Rate* rate = for_size(method.rates, dbh);
    if (rate == nullptr) return std::nullopt;
    const std::int64_t inch = measure::units::inch.ticks;
    ActivePerYear active;
    active.from_once = rate->from.scaled(dbh.ticks(), inch, measure::Rounding::nearest);
    active.to_once = rate->to.scaled(dbh.ticks(), inch, measure::Rounding::nearest);
    active.from_a_year = active.from_once / method.interval.to_years;
    active.to_a_year = active.to_once / method.interval.from_years;
    active.from_memory = rate->from_memory;
    active.sources = rate->sources;
    return active;
}

MethodComparison compare_methods(const std::vector<MethodFacts>& methods,
                                 const packs::RuleSet& rules, const reason::Engine& engine,
                                 const season::Seasons& seasons, const triage::TreeFacts& tree,
                                 const std::optional<season::Location>& location,
                                 const measure::Date& as_of, const season::KnownYear& known) {
    const Comparing comparing(rules, engine, seasons, tree, location, as_of, known);
    MethodComparison comparison;
    for (const MethodFacts& method : methods) {
        MethodAnswer answer = comparing.answer_for(method);
        if (answer.first_choice && answer.standing != Standing::ranked) {
            comparison.contradiction =
                "The rules contradict themselves: the table \"method\" comes "
                "to \"" +
                method.method + "\", which \"" + rules.model.tables[method.fit].name +
                "\" rules out. Correct the rules before anybody relies on "
                "them.";
        }
        switch (answer.standing) {
            case Standing::ranked:
                comparison.ranked.push_back(std::move(answer));
                break;
            case Standing::open:
                comparison.open.push_back(std::move(answer));
                break;
            case Standing::ruled_out:
                comparison.ruled_out.push_back(std::move(answer));
                break;
        }
    }
    std::ranges::stable_sort(comparison.ranked, {}, rank);
    std::ranges::stable_sort(comparison.open, {}, rank);
    compare_with_first(comparison);
    return comparison;
}

}  // namespace ashtriage::plan
