// Everything there is to say about a tree or a property, put together and ready to be shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"
#include "plan/treatment.hpp"
#include "present/knowledge.hpp"
#include "season/seasons.hpp"
#include "treat/label_card.hpp"
#include "triage/recommend.hpp"

namespace ashtriage::present {

struct TreeAssessment {
    observe::Tree tree;
    observe::WalkAround walk_around;
    triage::TreeFacts facts;
    triage::Recommendation recommendation;
    // Only where the recommendation is to treat, a method fits, and no hazard has to be judged
    // first.
    std::optional<plan::Treatment> treatment;
    // After a treatment this season: the first day of next year, before which no window is looked
    // for.
    std::optional<measure::Date> not_before;
    std::vector<std::string> doubts;  // entries that may be slips, as questions

    // To be treated, and by none of the methods there are; the recommendation's `method` says why.
    bool no_method_fits() const;
};

struct PropertyAssessment {
    observe::Client client;
    observe::Site site;
    measure::Date as_of{};
    std::vector<TreeAssessment> trees;      // in the order of the book
    std::vector<observe::Tree> not_walked;  // trees without a walk-around
};

// Where a tree stands: its own position, else the site's. `site` may be null.
std::optional<season::Location> location_of(const observe::Site* site, const observe::Tree& tree);

// `site` and `previous` (the walk-around before this one) may be null.
TreeAssessment assess_tree(const Knowledge& knowledge, const observe::Site* site,
                           const observe::Tree& tree, const observe::WalkAround& walk_around,
                           const observe::WalkAround* previous, const measure::Date& as_of);

// The trees of a site by their latest walk-arounds up to and including `as_of`.
PropertyAssessment assess_property(const book::Book& book, const Knowledge& knowledge,
                                   const observe::Site& site, const measure::Date& as_of);

// One tree of a site likewise. Throws measure::InputError when it has no walk-around yet.
TreeAssessment assess_stored_tree(const book::Book& book, const Knowledge& knowledge,
                                  const observe::Site& site, const observe::Tree& tree,
                                  const measure::Date& as_of);

// Indices into `trees`, the most urgent first: by the most urgent hazard flag in the order of the
// rule set, then trees to be removed, then by canopy loss.
std::vector<std::size_t> by_urgency(const std::vector<TreeAssessment>& trees,
                                    const packs::RuleSet& rules);

}  // namespace ashtriage::present
