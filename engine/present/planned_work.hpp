// The treatments of a property on a day: each tree's dose, what the label says to it, and what the
// acre still takes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "present/assessment.hpp"
#include "treat/acre_account.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"
#include "treat/permission.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

struct PlannedTree {
    observe::Site site;
    observe::Tree tree;
    treat::LabelCard card;
    treat::Dose dose;
    std::vector<treat::Finding> findings;  // what the label says to this use
    int rank = 2;                          // by the owner's value: 1 high, 2 middle or unknown, 3
    std::string species;                   // "green ash"; empty where it is not known

    bool stopped() const;
    // Stopped by more than that the card is an example, which it is for all trees alike.
    bool ruled_out() const;
};

// Active ingredient in the product that is measured out for a tree, rounded up.
measure::Mass active_of(const PlannedTree& planned);

// By the owner's value: 1 the highest, 2 middle or unknown, 3 the lowest.
int rank_of(const TreeAssessment& tree, const packs::RuleSet& rules);

// "green ash"; empty where it is not known.
std::string species_of(const TreeAssessment& tree, const packs::RuleSet& rules);

// From the tree, or from its site where that is all that is known; at the nearest it may be.
std::optional<measure::Length> distance_to_water(const TreeAssessment& tree,
                                                 const packs::RuleSet& rules);

// Whether nothing but treating is recommended.
bool is_to_be_treated(const TreeAssessment& tree);

// Why a tree that has no treatment to plan has none.
std::string why_not_treated(const TreeAssessment& tree);

// Every stop of the dose and of the label in one line, "STOP: ..."; empty without one.
std::string stops_of(const PlannedTree& planned);

// A tree that is not treated, and why.
struct LeftOut {
    std::string label;
    std::string why;
    bool for_want_of_room = false;  // on the acre, in this year
};

struct PlannedWork {
    observe::Site site;
    measure::Date on{};
    std::vector<PlannedTree> trees;
    std::vector<LeftOut> left_out;
    std::vector<treat::AcreAccount> accounts;  // `planned` is what is planned here

    bool any_stop() const;
};

struct WorkAsked {
    std::vector<std::string> labels;  // of trees; empty: all that are to be treated
    std::string card;                 // empty: the card for each tree's method
    treat::RateLevel rate = treat::RateLevel::usual;
    std::optional<measure::Area> treated_area;
    std::vector<std::string> mixed_with;
    std::optional<bool> certified;
    bool may_yield_food = false;  // the trees
};

// The id of the warning that a tree is planned by another method than its first choice.
inline constexpr std::string_view moved_finding = "moved-to-another-method";

// Trees that are not to be treated, whose method is open or has no card, and those for which the
// acre has no room left, are left out and say why; where the acre is short, as many as possible of
// the most valued trees are kept, and the others move to the next method that fits them, is in time
// this year and whose label has no such limit, if there is one. Warns where a card that was named
// is for a method that the rules exclude for the tree; a tree for whose method there is more than
// one card, none of them named, is stopped unless they are examples. Where no tree is named, those
// whose window of this year has passed, or that were treated with another product this year, are
// left out. Throws measure::InputError for a label or card that is not there, and where a label
// limits by the acre and the area of the site is not known.
PlannedWork plan_work(const PropertyAssessment& property, const Knowledge& knowledge,
                      const treat::SiteHistory& before, const WorkAsked& asked);

}  // namespace ashtriage::present
