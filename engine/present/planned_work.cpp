#include "present/planned_work.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/wording.hpp"
#include "packs/words.hpp"
#include "plan/method_choice.hpp"
#include "present/card_remarks.hpp"
#include "present/intended_use.hpp"
#include "present/words.hpp"
#include "treat/card_choice.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

using treat::LabelCard;

namespace {

class Planner {
 public:
    Planner(const PropertyAssessment& property, const Knowledge& knowledge,
            const treat::SiteHistory& before, const WorkAsked& asked)
        : property_(property), knowledge_(knowledge), before_(before), asked_(asked) {
        work_.site = property.site;
        work_.on = property.as_of;
    }

    PlannedWork plan() {
        refuse_unknown_labels();
        for (const TreeAssessment& tree : property_.trees) {
            if (wanted(tree.tree.label)) add(tree);
        }
        for (const observe::Tree& tree : property_.not_walked) {
            if (wanted(tree.label)) leave_out(tree.label, "nobody has walked round it yet");
        }
        keep_to_the_acre();
        return std::move(work_);
    }

 private:
    bool wanted(const std::string& label) const {
        return asked_.labels.empty() ||
               std::ranges::find(asked_.labels, label) != asked_.labels.end();
    }

    void refuse_unknown_labels() const {
        std::vector<std::string> known;
        for (const TreeAssessment& tree : property_.trees) known.push_back(tree.tree.label);
        for (const observe::Tree& tree : property_.not_walked) known.push_back(tree.label);
        for (const std::string& label : asked_.labels) {
            if (std::ranges::find(known, label) != known.end()) continue;
            throw measure::InputError(
                "There is no tree \"" + label + "\" at \"" + property_.site.name + "\"", {},
                packs::nearest_hint(label, known));
        }
    }

    void leave_out(const std::string& label, std::string why, bool for_want_of_room = false) {
        work_.left_out.push_back({label, std::move(why), for_want_of_room});
    }

    const LabelCard* card_for(const TreeAssessment& tree) const {
        if (asked_.card.empty()) {
            return tree.treatment->card ? &*tree.treatment->card : nullptr;
        }
        const auto card = std::ranges::find(knowledge_.cards, asked_.card, &LabelCard::key);
        return card == knowledge_.cards.end() ? nullptr : &*card;
    }

    void add(const TreeAssessment& tree) {
        const LabelCard* card = tree.treatment ? card_for(tree) : nullptr;
        if (card == nullptr) {
            leave_out(tree.tree.label, why_not_treated(tree));
            return;
        }
        if (asked_.labels.empty()) {
            if (std::string over = over_for_this_year(tree, *card); !over.empty()) {
                leave_out(tree.tree.label, std::move(over));
                return;
            }
        }
        work_.trees.push_back(planned_by(tree, *card));
    }

    // Why a tree that nobody named needs no dose and no room on the acre this year; empty if it
    // may.
    std::string over_for_this_year(const TreeAssessment& tree, const LabelCard& card) const {
        for (const treat::SiteHistory::OnTree* earlier : by_another_product(tree, card)) {
            if (earlier->on.year() != property_.as_of.year()) continue;
            return fmt::format("was treated with {} on {}; name it to see a dose all the same",
                               earlier->active_ingredient, measure::long_text(earlier->on));
        }
        const auto next = next_window(tree, card);
        if (!next || next->state != season::WindowState::passed_so_next_year) return {};
        return fmt::format(
            "this year's window of its method has passed; the next is from {} to {}. Name it to "
            "see "
            "its dose, see \"ashtriage methods {}\" for one that is still in time, or take a day "
            "of "
            "next year (--as-of)",
            measure::long_text(next->window->opens), measure::long_text(next->window->closes),
            tree.tree.label);
    }

    // Nothing where no window is known of the card's method.
    std::optional<season::NextWindow> next_window(const TreeAssessment& tree,
                                                  const LabelCard& card) const {
        const auto& seasons = knowledge_.seasons.methods;
        if (std::ranges::find(seasons, card.method, &season::MethodSeason::method) ==
            seasons.end()) {
            return std::nullopt;
        }
        season::NextWindow next = season::next_window(knowledge_.seasons, card.method,
                                                      location_of(&property_.site, tree.tree),
                                                      property_.as_of, knowledge_.year);
        return next.window ? std::optional(std::move(next)) : std::nullopt;
    }

    // Treatments of the year before the day by a product of which the label at hand knows nothing.
    std::vector<const treat::SiteHistory::OnTree*> by_another_product(const TreeAssessment& tree,
                                                                      const LabelCard& card) const {
        std::vector<const treat::SiteHistory::OnTree*> found;
        for (const treat::SiteHistory::OnTree& earlier : before_.on_trees) {
            const int days_ago = measure::days_between(earlier.on, property_.as_of);
            if (earlier.tree == tree.tree.id && days_ago >= 0 && days_ago < 365 &&
                !treat::has_active(card, earlier.active_ingredient)) {
                found.push_back(&earlier);
            }
        }
        return found;
    }

    PlannedTree planned_by(const TreeAssessment& tree, const LabelCard& card) const {
        PlannedTree planned;
        planned.site = property_.site;
        planned.tree = tree.tree;
        planned.card = card;
        planned.dose =
            treat::dose_for(card, {tree.facts.diameters, asked_.rate, asked_.treated_area});
        planned.rank = rank_of(tree, knowledge_.judge.rules());
        planned.species = species_of(tree, knowledge_.judge.rules());
        treat::IntendedUse use =
            intended_use(tree, card, before_, knowledge_.judge.rules(), property_.as_of);
        use.mixed_with = asked_.mixed_with;
        if (asked_.certified) use.certified = asked_.certified;
        use.may_yield_food = asked_.may_yield_food;
        planned.findings = treat::findings_about(card, planned.dose, use);
        for (treat::Finding& stop : stops_by_method(card, knowledge_)) {
            planned.findings.push_back(std::move(stop));
        }
        warn_of_the_window(tree, card, planned.findings);
        warn_of_another_treatment(tree, card, planned.findings);
        if (asked_.card.empty()) {
            if (auto others = treat::other_cards_for_method(knowledge_.cards, card)) {
                planned.findings.push_back(std::move(*others));
            }
        }
        warn_of_the_method(tree, card, planned.findings);
        return planned;
    }

    // Where the method is not in its window on the day; the label's own season is a stop elsewhere.
    void warn_of_the_window(const TreeAssessment& tree, const LabelCard& card,
                            std::vector<treat::Finding>& findings) const {
        const auto next = next_window(tree, card);
        if (!next || next->state == season::WindowState::open_now) return;
        findings.push_back(
            {treat::Severity::warning, "outside-the-window",
             fmt::format("{}The next window of this method is from {} to {}, give or take {} days.",
                         next->state == season::WindowState::passed_so_next_year
                             ? "This year's window has passed. "
                             : "Not yet: ",
                         measure::long_text(next->window->opens),
                         measure::long_text(next->window->closes),
                         next->window->give_or_take_days)});
    }

    void warn_of_another_treatment(const TreeAssessment& tree, const LabelCard& card,
                                   std::vector<treat::Finding>& findings) const {
        for (const treat::SiteHistory::OnTree* earlier : by_another_product(tree, card)) {
            findings.push_back(
                {treat::Severity::warning, "treated-with-another",
                 fmt::format("It was treated with {} on {}: see \"ashtriage due\" before it is "
                             "treated again.",
                             earlier->active_ingredient, measure::long_text(earlier->on))});
        }
    }

    // What was found on the walk-around may keep the method from the tree: for good, where a card
    // was named and not the method that the rules come to, or until bark and soil are as it asks.
    void warn_of_the_method(const TreeAssessment& tree, const LabelCard& card,
                            std::vector<treat::Finding>& findings) const {
        const plan::MethodComparison methods = methods_for(tree);
        for (const plan::MethodAnswer& answer : methods.ruled_out) {
            if (answer.facts->method != card.method || answer.first_choice) continue;
            findings.push_back(
                {treat::Severity::warning, "method-ruled-out",
                 fmt::format(
                     "The rules exclude this method for the tree:{} See \"ashtriage methods "
                     "{}\".",
                     words_of(answer.ruled_out_by), tree.tree.label)});
        }
        for (const plan::MethodAnswer& answer : methods.ranked) {
            if (answer.facts->method != card.method || answer.wait_for.empty()) continue;
            findings.push_back(
                {treat::Severity::warning, "not-as-it-was-found",
                 fmt::format("Not as it was on the walk-around of {}:{} Look again before anything "
                             "is measured out.",
                             measure::long_text(tree.walk_around.date),
                             words_of(answer.wait_for))});
        }
    }

    static std::string words_of(const std::vector<triage::Reason>& reasons) {
        std::string words;
        for (const triage::Reason& reason : reasons) words += " " + reason.because;
        return words;
    }

    plan::MethodComparison methods_for(const TreeAssessment& tree) const {
        return plan::compare_methods(knowledge_.methods, knowledge_.judge.rules(),
                                     knowledge_.judge.engine(), knowledge_.seasons, tree.facts,
                                     location_of(&property_.site, tree.tree), property_.as_of,
                                     knowledge_.year);
    }

    // Of an active ingredient, where the card of the tree holds it.
    static std::optional<treat::SpentActive> spent_by(const PlannedTree& planned,
                                                      const std::string& active,
                                                      const measure::Date& on) {
        const treat::SpentActive spent{active, treat::counted_use(planned.card.application), on,
                                       active_of(planned)};
        if (planned.card.active_ingredient == active) return spent;
        const treat::MeasuredAmount* product = planned.dose.find(treat::Part::product);
        for (const treat::OtherActive& other : planned.card.other_actives) {
            if (other.name != active || product == nullptr) continue;
            treat::SpentActive of_other = spent;
            of_other.mass =
                treat::active_in(other.strength, product->measured, measure::Rounding::up);
            return of_other;
        }
        return std::nullopt;
    }

    // Each active ingredient that a card limits by the acre, once for each card: the cards that are
    // planned by, and of what else their products hold, the cards that limit that.
    void keep_to_the_acre() {
        std::set<std::string> done;
        const std::vector<PlannedTree> all = work_.trees;
        for (const PlannedTree& planned : all) {
            if (done.insert(planned.card.key).second) keep_to_the_acre(planned.card);
            for (const treat::OtherActive& other : planned.card.other_actives) {
                for (const LabelCard& card : knowledge_.cards) {
                    if (card.active_ingredient == other.name &&
                        card.example == planned.card.example && done.insert(card.key).second) {
                        keep_to_the_acre(card);
                    }
                }
            }
        }
    }

    void keep_to_the_acre(const LabelCard& card) {
        const auto before = treat::acre_account(card, property_.site.area, property_.as_of,
                                                before_.spent, {}, before_.raised);
        if (!before) return;
        std::vector<std::size_t> counted;
        std::vector<treat::Claimant> claimants;
        for (std::size_t i = 0; i < work_.trees.size(); ++i) {
            const PlannedTree& tree = work_.trees[i];
            const auto spent = spent_by(tree, card.active_ingredient, property_.as_of);
            // A tree that may not be treated takes no room from the others.
            if (tree.ruled_out() || !spent || !card.limits.counted.contains(spent->use)) continue;
            counted.push_back(i);
            claimants.push_back({tree.rank, spent->mass});
        }
        const std::string untold =
            treat::untold_words(before_, card.active_ingredient, property_.as_of.year());
        const auto kept = untold.empty() ? treat::largest_set(claimants, before->left())
                                         : std::vector<std::size_t>{};
        treat::AcreAccount account = *before;
        std::vector<PlannedTree> trees;
        for (std::size_t i = 0; i < work_.trees.size(); ++i) {
            const auto at = std::ranges::find(counted, i);
            const auto index = static_cast<std::size_t>(at - counted.begin());
            if (at != counted.end() && std::ranges::find(kept, index) == kept.end()) {
                if (auto moved = moved_from(card, work_.trees[i].tree, account.year)) {
                    trees.push_back(std::move(*moved));
                } else {
                    leave_out(
                        work_.trees[i].tree.label,
                        untold.empty() ? no_room(card, claimants[index].active, *before) : untold,
                        true);
                }
                continue;
            }
            if (at != counted.end()) account.planned += claimants[index].active;
            trees.push_back(std::move(work_.trees[i]));
        }
        work_.trees = std::move(trees);
        work_.accounts.push_back(account);
    }

    // The tree by the next method that fits it and is in time, and whose card allows it and has no
    // such limit; nothing where there is none, or where the card was chosen by name.
    std::optional<PlannedTree> moved_from(const LabelCard& card, const observe::Tree& tree,
                                          int year) const {
        if (!asked_.card.empty()) return std::nullopt;
        const auto assessed = std::ranges::find_if(
            property_.trees,
            [&](const TreeAssessment& each) { return each.tree.label == tree.label; });
        const plan::MethodComparison methods = methods_for(*assessed);
        for (const plan::MethodAnswer& answer : methods.ranked) {
            const LabelCard* other = treat::card_for_method(knowledge_.cards, answer.facts->method);
            if (other == nullptr || treat::has_active(*other, card.active_ingredient) ||
                other->limits.active_per_acre_per_year || answer.too_late_this_year() ||
                answer.fits.front() == plan::fit::doubtful) {
                continue;
            }
            PlannedTree planned = planned_by(*assessed, *other);
            if (planned.ruled_out()) continue;
            planned.findings.push_back(
                {treat::Severity::warning, std::string(moved_finding),
                 fmt::format("Moved to this method: the acre takes no more {} in {}.",
                             card.active_ingredient, year)});
            return planned;
        }
        return std::nullopt;
    }

    std::string no_room(const LabelCard& card, measure::Mass active,
                        const treat::AcreAccount& account) const {
        const bool never_fits = active > account.allowed;
        const std::string why =
            active > account.left() && account.left() > measure::Mass{}
                ? fmt::format(
                      "it takes {} of {} by itself, and the site takes {} more in {}",
                      active.with_unit(measure::units::gram, 2, measure::Rounding::up),
                      card.active_ingredient,
                      account.left().with_unit(measure::units::gram, 2, measure::Rounding::down),
                      account.year)
                : fmt::format("the acre takes no more {} in {}", card.active_ingredient,
                              account.year);
        const std::string other =
            asked_.card.empty() ? "no other method without such a limit fits it and is in time"
                                : "";
        if (never_fits) {
            return fmt::format("{}: by this card it cannot be treated on this site{}{}", why,
                               other.empty() ? "" : ", and ", other);
        }
        return fmt::format("{}: {}, so it waits for {}", why,
                           other.empty() ? "by this card there is no room" : other,
                           account.year + 1);
    }

    const PropertyAssessment& property_;
    const Knowledge& knowledge_;
    const treat::SiteHistory& before_;
    const WorkAsked& asked_;
    PlannedWork work_;
};

}  // namespace

measure::Mass active_of(const PlannedTree& planned) {
    const treat::MeasuredAmount* product = planned.dose.find(treat::Part::product);
    return product == nullptr
               ? measure::Mass()
               : treat::active_in(planned.card.strength, product->measured, measure::Rounding::up);
}

// The owner's value, the best that may still be meant where it is not known.
int rank_of(const TreeAssessment& tree, const packs::RuleSet& rules) {
    constexpr int middle = 2;
    const auto fact = rules.model.find_fact(triage::fact::owner_value);
    if (!fact) return middle;
    const reason::LevelSet* levels = tree.recommendation.facts[*fact].level_set();
    if (levels == nullptr || !tree.recommendation.facts[*fact].is_exact()) return middle;
    const auto& names = rules.model.facts[*fact].levels;
    for (reason::LevelIndex level = 0; level < names.size(); ++level) {
        if (reason::has_level(*levels, level)) return static_cast<int>(names.size() - level);
    }
    return middle;
}

std::string species_of(const TreeAssessment& tree, const packs::RuleSet& rules) {
    const auto fact = rules.model.find_fact(triage::fact::species);
    if (!fact || !tree.recommendation.facts[*fact].is_exact()) return {};
    return packs::spoken_value(rules, *fact, tree.recommendation.facts[*fact]);
}

std::optional<measure::Length> distance_to_water(const TreeAssessment& tree,
                                                 const packs::RuleSet& rules) {
    const auto fact = rules.model.find_fact(triage::fact::distance_to_water);
    if (!fact) return std::nullopt;
    const reason::Interval* feet = tree.recommendation.facts[*fact].interval();
    if (feet == nullptr) return std::nullopt;
    return measure::Length::of(feet->low, measure::units::foot);
}

bool is_to_be_treated(const TreeAssessment& tree) {
    return tree.recommendation.decided() &&
           tree.recommendation.possible.front() == triage::outcome::treat;
}

std::string why_not_treated(const TreeAssessment& tree) {
    const triage::Recommendation& recommended = tree.recommendation;
    if (!recommended.decided()) return "comes out as " + verdict(recommended);
    if (recommended.possible.front() != triage::outcome::treat) {
        return "is not to be treated: " + verdict(recommended);
    }
    if (recommended.treatment_waits) return "a hazard has to be judged before it is treated";
    if (tree.no_method_fits()) return "no method fits it";
    if (tree.facts.diameters.empty()) {
        return "its DBH is not known: measure the stem at 4.5 ft, as a girth or a diameter";
    }
    if (!recommended.method_questions.empty() || recommended.method.empty()) {
        return "its method is still open";
    }
    return "there is no label card for its method";
}

std::string stops_of(const PlannedTree& planned) {
    std::string text;
    for (const auto* findings : {&planned.dose.findings, &planned.findings}) {
        for (const treat::Finding& finding : *findings) {
            if (finding.severity != treat::Severity::stop) continue;
            text += (text.empty() ? "STOP: " : " ") + finding.text;
        }
    }
    return text;
}

bool PlannedTree::stopped() const {
    return dose.stopped() || treat::any_stop(findings);
}

bool PlannedTree::ruled_out() const {
    return dose.stopped() || std::ranges::any_of(findings, [](const treat::Finding& finding) {
               return finding.severity == treat::Severity::stop &&
                      finding.id != treat::example_finding;
           });
}

bool PlannedWork::any_stop() const {
    return std::ranges::any_of(trees, [](const PlannedTree& tree) { return tree.stopped(); });
}

PlannedWork plan_work(const PropertyAssessment& property, const Knowledge& knowledge,
                      const treat::SiteHistory& before, const WorkAsked& asked) {
    return Planner(property, knowledge, before, asked).plan();
}

}  // namespace ashtriage::present
