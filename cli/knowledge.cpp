#include "knowledge.hpp"

#include <iostream>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "present/text_layout.hpp"
#include "sheet_file.hpp"

namespace ashtriage::cli {

namespace {

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "\"" : ", \"") + name + "\"";
    return text;
}

// A tree that is left out of a listing must not be taken for one without a fault.
void name_not_walked(const present::PropertyAssessment& property) {
    if (property.not_walked.empty()) return;
    std::vector<std::string> labels;
    for (const observe::Tree& tree : property.not_walked) labels.push_back(tree.label);
    std::cerr << present::paragraph("Not listed, since nobody had walked round them by " +
                                    measure::long_text(property.as_of) + ": " + listed(labels) +
                                    ".");
}

}  // namespace

present::Knowledge load_knowledge(const Options& options) {
    return present::read_knowledge(packs::rule_files(options.rules), options.preset);
}

observe::Site find_site(const book::Book& book, const std::string& name) {
    if (!name.empty()) {
        if (auto site = book.find_site(name)) return *site;
    }
    std::vector<std::string> names;
    for (const observe::Site& site : book.sites()) names.push_back(site.name);
    if (names.empty()) {
        throw measure::InputError("The book has no site yet", {},
                                  "Begin with \"ashtriage walk --site NAME --tree LABEL\" or "
                                  "\"ashtriage walk --from SHEET\".");
    }
    if (name.empty()) {
        if (names.size() == 1) return *book.find_site(names.front());
        throw measure::InputError("The book has more than one site", "--site",
                                  "Name one of " + listed(names) + ".");
    }
    const std::string near = packs::nearest(name, names);
    throw measure::InputError(
        "There is no site \"" + name + "\" in the book", "--site",
        near.empty() ? "The book has " + listed(names) + "." : "Did you mean \"" + near + "\"?");
}

observe::Tree find_tree(const book::Book& book, const observe::Site& site,
                        const std::string& label) {
    if (auto tree = book.find_tree(site.id, label)) return *tree;
    std::vector<std::string> labels;
    for (const observe::Tree& tree : book.trees(site.id)) labels.push_back(tree.label);
    const std::string near = packs::nearest(label, labels);
    throw measure::InputError(
        "There is no tree \"" + label + "\" at \"" + site.name + "\"", {},
        near.empty() ? "It has " + listed(labels) + "." : "Did you mean \"" + near + "\"?");
}

const treat::LabelCard& find_card(const present::Knowledge& knowledge, const std::string& name) {
    std::vector<std::string> names;
    for (const treat::LabelCard& card : knowledge.cards) {
        if (card.key == name) return card;
        names.push_back(card.key);
    }
    const std::string near = packs::nearest(name, names);
    throw measure::InputError(
        "There is no label card \"" + name + "\"", {},
        near.empty() ? "\"ashtriage labels list\" lists them." : "Did you mean \"" + near + "\"?");
}

std::vector<present::TreeAssessment> assessed_trees(const Options& options,
                                                    const present::Knowledge& knowledge,
                                                    const std::string& sheet,
                                                    const std::string& site) {
    if (sheet.empty()) {
        const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
        auto property =
            present::assess_property(book, knowledge, find_site(book, site), options.date());
        name_not_walked(property);
        return std::move(property.trees);
    }
    const observe::WalkSheet read = read_sheet_file(sheet, knowledge.judge.rules(), options.date());
    std::vector<present::TreeAssessment> trees;
    for (const observe::SheetTree& entry : read.trees) {
        try {
            trees.push_back(present::assess_tree(knowledge, read.site ? &*read.site : nullptr,
                                                 entry.tree, entry.walk_around, nullptr,
                                                 options.date()));
        } catch (const measure::InputError& error) {
            throw error.at(entry.place);
        }
    }
    return trees;
}

}  // namespace ashtriage::cli
