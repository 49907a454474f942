#include "present/trees_without_a_day.hpp"

#include <map>
#include <utility>

namespace ashtriage::present {

namespace {

class Finder {
 public:
    Finder(const std::vector<PropertyToSchedule>& properties, const Knowledge& knowledge)
        : knowledge_(knowledge) {
        for (const PropertyToSchedule& each : properties) {
            for (const TreeAssessment& tree : each.property.trees) {
                trees_[{each.property.site.name, tree.tree.label}] = {&each.property.site, &tree};
            }
        }
    }

    TreeWithoutADay described(const NotScheduled& tree, bool is_due) const {
        TreeWithoutADay described;
        described.tree = tree;
        described.is_due = is_due;
        const auto found = trees_.find({tree.site, tree.tree});
        if (found == trees_.end()) return described;  // nobody has walked round it
        const auto& [site, assessed] = found->second;
        described.place = location_of(site, {});
        described.priority = rank_of(*assessed, knowledge_.judge.rules());
        if (!assessed->treatment) return described;
        described.method = assessed->treatment->method;
        if (const auto& window = assessed->treatment->window.window; window && is_due) {
            described.opens = window->opens;
            described.best_until = window->best_until;
            described.closes = window->closes;
        }
        return described;
    }

 private:
    const Knowledge& knowledge_;
    std::map<std::pair<std::string, std::string>,
             std::pair<const observe::Site*, const TreeAssessment*>>
        trees_;  // by site and label
};

}  // namespace

std::vector<TreeWithoutADay> trees_without_a_day(const std::vector<PropertyToSchedule>& properties,
                                                 const WorkToSchedule& work,
                                                 const Knowledge& knowledge) {
    const Finder finder(properties, knowledge);
    std::vector<TreeWithoutADay> trees;
    for (const NotScheduled& each : work.not_scheduled) {
        trees.push_back(finder.described(each, true));
    }
    for (const NotScheduled& each : work.not_yet_due) {
        trees.push_back(finder.described(each, false));
    }
    return trees;
}

}  // namespace ashtriage::present
