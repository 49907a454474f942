#include "present/work_to_schedule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

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

    void add(const PropertyToSchedule& each, const TreeAssessment& tree) {
        const std::string& label = tree.tree.label;
        if (!tree.treatment || !tree.treatment->card || !tree.treatment->dose) {
            // Most trees of a property are not to be treated at all; they need no line each.
            if (is_to_be_treated(tree)) leave_out(each, label, why_not_treated(tree));
            return;
        }
        const LabelCard& card = *tree.treatment->card;
        const season::NextWindow& next = tree.treatment->window;
        if (!next.window) {
            leave_out(each, label, "its method has no window at this place");
            return;
        }
        const std::vector<Date> earlier =
            treat::earlier_on_tree(each.before, tree.tree.id, card.active_ingredient);
        const Date first =
            allowed_from(card, earlier, std::max(next.window->opens, each.property.as_of));
        if (first > next.window->closes) {
            leave_out(each, label,
                      fmt::format("the label allows {} again from {} on, after the window that "
                                  "closes on {}",
                                  card.active_ingredient, measure::long_text(first),
                                  measure::long_text(next.window->closes)));
            return;
        }
        PlannedTree planned = planned_tree(tree, card, first, earlier);
        if (planned.ruled_out()) {
            leave_out(each, label, stops_of(planned));
            return;
        }
        if (!make_room(each, card, first)) {
            leave_out(each, label, no_account_);
            return;
        }
        plan::TreeToVisit due;
        due.site = each.property.site.name;
        due.place = location_of(&each.property.site, {});
        due.tree = label;
        due.method = tree.treatment->method;
        due.dbh = planned.dose.dbh;
        due.release = first;
        due.deadline = next.window->closes;
        due.priority = planned.rank;
        due.needs_certified = !card.from_label || card.from_label->restricted_use;
        if (card.limits.active_per_acre_per_year) {
            due.active_ingredient = card.active_ingredient;
            due.active =
                treat::active_in(card.strength, planned.dose.find(treat::Part::product)->measured,
                                 measure::Rounding::up);
        }
        work_.example = work_.example || card.example;
        work_.trees.push_back(std::move(due));
        work_.planned.push_back(std::move(planned));
    }

    PlannedTree planned_tree(const TreeAssessment& tree, const LabelCard& card, const Date& first,
                             const std::vector<Date>& earlier) const {
        PlannedTree planned;
        planned.tree = tree.tree;
        planned.card = card;
        planned.dose = *tree.treatment->dose;
        planned.rank = rank_of(tree, knowledge_.judge.rules());
        treat::IntendedUse use;
        use.on = first;
        use.earlier = earlier;
        use.distance_to_water = distance_to_water(tree, knowledge_.judge.rules());
        planned.findings = treat::findings_about(card, planned.dose, use);
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
