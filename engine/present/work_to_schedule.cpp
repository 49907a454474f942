#include "present/work_to_schedule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>
#include <tuple>
#include <utility>

#include "packs/words.hpp"
#include "plan/label_days.hpp"
#include "present/card_remarks.hpp"
#include "present/intended_use.hpp"
#include "treat/permission.hpp"

namespace ashtriage::present {

using measure::Date;
using treat::LabelCard;

namespace {

// The first day on which the label allows the tree again, or the day itself.
Date allowed_from(const LabelCard& card, const std::vector<Date>& earlier, Date day) {
    for (const Date& last : earlier) {
        const auto next = treat::earliest_next(card.limits, last);
        if (next) day = std::max(day, *next);
    }
    if (!card.limits.applications_per_year) return day;
    const auto in_year_of_the_day =
        std::ranges::count_if(earlier, [&](const Date& date) { return date.year() == day.year(); });
    if (in_year_of_the_day < *card.limits.applications_per_year) return day;
    return std::chrono::year_month_day{day.year() + std::chrono::years{1}, std::chrono::January,
                                       std::chrono::day{1}};
}

class Collector {
 public:
    explicit Collector(const Knowledge& knowledge) : knowledge_(knowledge) {}

    void add(const PropertyToSchedule& each) {
        for (const TreeAssessment& tree : each.property.trees) add(each, tree);
        for (const observe::Tree& tree : each.property.not_walked) {
            leave_out(each, tree.label, "nobody has walked round it yet");
        }
    }

    WorkToSchedule collected() { return std::move(work_); }

 private:
    void leave_out(const PropertyToSchedule& each, const std::string& label, std::string why) {
        work_.not_scheduled.push_back({each.property.site.name, label, std::move(why)});
    }

    static const DueRow& due_row(const PropertyToSchedule& each, const std::string& label) {
        return *std::ranges::find_if(each.due,
                                     [&](const DueRow& row) { return row.tree.label == label; });
    }

    // A tree without a treatment. Most trees of a property are not to be treated at all; they need
    // no line each.
    void add_untreated(const PropertyToSchedule& each, const TreeAssessment& tree,
                       const plan::Due& due) {
        const bool waits = due.state == plan::DueState::overdue ||
                           due.state == plan::DueState::missed || due.state == plan::DueState::due;
        if (is_to_be_treated(tree)) {
            leave_out(each, tree.tree.label, why_not_treated(tree));
        } else if (waits) {
            leave_out(
                each, tree.tree.label,
                fmt::format("it is due by its last treatment, on {}, but {}: walk round it again",
                            measure::long_text(due.last->on), why_not_treated(tree)));
        }
    }

    void add(const PropertyToSchedule& each, const TreeAssessment& tree) {
        const std::string& label = tree.tree.label;
        const DueRow& row = due_row(each, label);
        if (!tree.treatment || !tree.treatment->card || !tree.treatment->dose) {
            add_untreated(each, tree, row.due);
            return;
        }
        if (row.due.due_year && *row.due.due_year > season_of(tree)) {
            work_.not_yet_due.push_back(
                {each.property.site.name, label,
                 fmt::format("treated on {}, due in {}", measure::long_text(row.due.last->on),
                             *row.due.due_year)});
            return;
        }
        if (row.due.state == plan::DueState::not_recorded) {
            leave_out(each, label,
                      "when it was last treated is not in the book: find the record first");
            return;
        }
        const LabelCard& card = *tree.treatment->card;
        const season::NextWindow& next = tree.treatment->window;
        if (!next.window) {
            leave_out(each, label, "its method has no window at this place");
            return;
        }
        const std::vector<Date> earlier = treat::days_on_tree(each.before, tree.tree.id, card);
        Date first = allowed_from(card, earlier, std::max(next.window->opens, each.property.as_of));
        if (first > next.window->closes) {
            leave_out(each, label,
                      fmt::format("the label allows {} again from {} on, after the window that "
                                  "closes on {}",
                                  card.active_ingredient, measure::long_text(first),
                                  measure::long_text(next.window->closes)));
            return;
        }
        if (row.due.first_day && *row.due.first_day <= next.window->closes) {
            first = std::max(first, *row.due.first_day);
        }
        const auto days = plan::label_days(&card, first, next.window->closes);
        if (!days) {
            leave_out(
                each, label,
                fmt::format("no day from {} to {}, when its window closes, is within the "
                            "season of the label",
                            measure::long_text(first), measure::long_text(next.window->closes)));
            return;
        }
        first = days->first;
        PlannedTree planned = planned_tree(each, tree, first);
        if (planned.ruled_out()) {
            leave_out(each, label, stops_of(planned));
            return;
        }
        if (!make_room(each, card, first)) {
            leave_out(each, label, no_account_);
            return;
        }
        if (row.due.window_passed) say_what_is_in_time(each, row);
        plan::TreeToVisit due;
        due.site = each.property.site.name;
        due.place = location_of(&each.property.site, {});
        due.tree = label;
        due.method = tree.treatment->method;
        due.dbh = planned.dose.dbh;
        due.release = first;
        due.deadline = days->last;
        due.best_until = next.window->best_until;
        if (const auto& larger = next.window->larger_stems; larger && due.dbh > larger->over) {
            due.best_until = larger->best_until;
        }
        due.priority = planned.rank;
        due.needs_certified = !card.from_label || card.from_label->restricted_use;
        if (card.limits.active_per_acre_per_year) {
            due.active_ingredient = card.active_ingredient;
            due.active =
                treat::active_in(card.strength, planned.dose.find(treat::Part::product)->measured,
                                 measure::Rounding::up);
        }
        if (row.due.look_again) ++work_.not_walked_this_year;
        work_.places.add(each.property.site.name, next.window->cautions);
        work_.example = work_.example || card.example;
        work_.trees.push_back(std::move(due));
        work_.planned.push_back(std::move(planned));
    }

    // The season in which the tree would be treated if it were due.
    static int season_of(const TreeAssessment& tree) {
        const auto& window = tree.treatment->window.window;
        return window ? static_cast<int>(window->closes.year()) : std::numeric_limits<int>::max();
    }

    void say_what_is_in_time(const PropertyToSchedule& each, const DueRow& row) {
        if (!row.instead) return;
        work_.missed.push_back(
            {each.property.site.name, row.tree.label,
             fmt::format(
                 "this year's window closed on {}, so it is planned for {}; {} would still be "
                 "in time, from {} to {}",
                 measure::long_text(*row.due.window_passed),
                 static_cast<int>(row.due.window->opens.year()),
                 packs::plain_name(row.instead->method), measure::long_text(row.instead->first_day),
                 measure::long_text(row.instead->last_day))});
    }

    PlannedTree planned_tree(const PropertyToSchedule& each, const TreeAssessment& tree,
                             const Date& first) const {
        const LabelCard& card = *tree.treatment->card;
        PlannedTree planned;
        planned.site = each.property.site;
        planned.tree = tree.tree;
        planned.card = card;
        planned.dose = *tree.treatment->dose;
        planned.rank = rank_of(tree, knowledge_.judge.rules());
        planned.species = species_of(tree, knowledge_.judge.rules());
        planned.findings = treat::findings_about(
            card, planned.dose,
            intended_use(tree, card, each.before, knowledge_.judge.rules(), first));
        for (treat::Finding& stop : stops_by_method(card, knowledge_)) {
            planned.findings.push_back(std::move(stop));
        }
        return planned;
    }

    // The account of the active ingredient for the year; false, with the reason, where it cannot be
    // told.
    bool make_room(const PropertyToSchedule& each, const LabelCard& card, const Date& first) {
        if (!card.limits.active_per_acre_per_year) return true;
        const observe::Site& site = each.property.site;
        if (!site.area) {
            no_account_ = fmt::format(
                "the label limits {} by the acre, and the area of the site is not known",
                card.active_ingredient);
            return false;
        }
        no_account_ = treat::untold_words(each.before, card.active_ingredient, first.year());
        if (!no_account_.empty()) return false;
        const auto key =
            std::tuple(site.id, card.active_ingredient, static_cast<int>(first.year()));
        if (!accounts_.insert(key).second) return true;
        const auto account =
            treat::acre_account(card, site.area, first, each.before.spent, {}, each.before.raised);
        work_.rooms.push_back(
            {site.name, card.active_ingredient, static_cast<int>(first.year()), account->left()});
        return true;
    }

    const Knowledge& knowledge_;
    WorkToSchedule work_;
    std::set<std::tuple<observe::SiteId, std::string, int>> accounts_;
    std::string no_account_;
};

}  // namespace

WorkToSchedule work_to_schedule(const std::vector<PropertyToSchedule>& properties,
                                const Knowledge& knowledge) {
    Collector collector(knowledge);
    for (const PropertyToSchedule& each : properties) collector.add(each);
    return collector.collected();
}

}  // namespace ashtriage::present
