// Reading the rules, label cards and seasons that a command works with, and the trees it is about.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "options.hpp"
#include "present/assessment.hpp"

namespace ashtriage::cli {

// From --rules and --preset. Throws packs::BadFile or measure::InputError.
present::Knowledge load_knowledge(const Options& options);

// The site of that name; without a name the only site of the book. Throws measure::InputError, with
// the nearest name or the list of sites, when that is none or not one.
observe::Site find_site(const book::Book& book, const std::string& name);

// The tree of that label on the site. Throws measure::InputError with the nearest label.
observe::Tree find_tree(const book::Book& book, const observe::Site& site,
                        const std::string& label);

// The label card of that name. Throws measure::InputError with the nearest name.
const treat::LabelCard& find_card(const present::Knowledge& knowledge, const std::string& name);

// The trees that a listing command is about: those of a sheet when one is named (CSV or YAML by its
// name, CSV from standard input), else those of a site of the book. Trees of the site that nobody
// has walked round yet are named on standard error.
std::vector<present::TreeAssessment> assessed_trees(const Options& options,
                                                    const present::Knowledge& knowledge,
                                                    const std::string& sheet,
                                                    const std::string& site);

}  // namespace ashtriage::cli
