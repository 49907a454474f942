#include "work_options.hpp"

#include "book/site_history.hpp"
#include "knowledge.hpp"
#include "measure/parse.hpp"

namespace ashtriage::cli {

void add_work_options(CLI::App& command, WorkOptions& asked) {
    command.add_option("tree", asked.trees,
                       "Labels of trees; without any, all that are to be treated");
    command.add_option("--site", asked.site, "The site, if the book has more than one");
    command.add_option("--card", asked.card,
                       "A label card (\"ashtriage labels list\"); without it, that of each tree's "
                       "method");
    command.add_option("--rate", asked.rate, "low, usual or high, within the card")
        ->check(CLI::IsMember({"low", "usual", "high"}))
        ->capture_default_str();
    command.add_option(
        "--area", asked.area,
        "Ground to be treated for each tree, for cards that count by it: \"500 sq ft\"");
    command.add_option("--mixed-with", asked.mixed_with,
                       "Something else that goes into the tank; may be said again");
    command.add_flag("--certified", asked.certified,
                     "A certified applicator applies or supervises it");
    command.add_flag("--food-tree", asked.food_tree, "The trees may yield food or feed");
}

treat::RateLevel rate_named(const std::string& name) {
    if (name == "low") return treat::RateLevel::low;
    return name == "high" ? treat::RateLevel::high : treat::RateLevel::usual;
}

present::WorkAsked work_asked(const WorkOptions& asked) {
    present::WorkAsked work;
    work.labels = asked.trees;
    work.card = asked.card;
    work.rate = rate_named(asked.rate);
    if (!asked.area.empty()) {
        work.treated_area = value_of("--area", [&] { return measure::parse_area(asked.area); });
    }
    work.mixed_with = asked.mixed_with;
    if (asked.certified) work.certified = true;
    work.may_yield_food = asked.food_tree;
    return work;
}

present::PlannedWork planned_work(const Options& options, const WorkOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    if (!asked.card.empty()) {
        value_of("--card", [&] { return find_card(knowledge, asked.card).key; });
    }
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const auto property =
        present::assess_property(book, knowledge, find_site(book, asked.site), options.date());
    return present::plan_work(property, knowledge, book::site_history(book, property.site.id),
                              work_asked(asked));
}

}  // namespace ashtriage::cli
