#include "present/schedule_listing.hpp"

#include <algorithm>

#include "measure/date.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/place_cautions.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

std::string day(const season::NextWindow& next, measure::Date season::Window::*which) {
    return next.window ? measure::text((*next.window).*which) : std::string{};
}

}  // namespace

std::vector<plan::TreatableTree> trees_to_treat(const std::vector<PropertyAssessment>& properties) {
    std::vector<plan::TreatableTree> trees;
    for (const PropertyAssessment& property : properties) {
        for (const TreeAssessment& tree : property.trees) {
            if (!tree.treatment) continue;
            trees.push_back({property.site.name, tree.tree.label, tree.treatment->method,
                             location_of(&property.site, tree.tree), tree.not_before});
        }
    }
    return trees;
}

std::string schedule_text(const std::vector<plan::ScheduledTree>& scheduled) {
    if (scheduled.empty()) return paragraph("No tree is due for treatment.");
    TextTable table({"From", "To", "Site", "Tree", "Method"});
    int give_or_take = 0;
    bool examples = false;
    PlaceCautions places;
    for (const plan::ScheduledTree& entry : scheduled) {
        const bool none = !entry.next.window;
        table.add({none ? "no dates" : day(entry.next, &season::Window::opens),
                   none ? "" : day(entry.next, &season::Window::closes), entry.tree.site,
                   entry.tree.label, packs::plain_name(entry.tree.method)});
        if (!none) {
            give_or_take = std::max(give_or_take, entry.next.window->give_or_take_days);
            places.add(entry.tree.site, entry.next.window->cautions);
        }
        examples = examples || entry.example_card;
    }
    std::string text = table.text() + "\n";
    text += paragraph("Both days belong to the window. The dates are estimates, give or take " +
                      std::to_string(give_or_take) +
                      " days; the label, the leaves on the tree and the soil decide.");
    text += places.text();
    if (examples) {
        text += paragraph(
            "EXAMPLE label cards stand behind this schedule: nothing may be applied "
            "by them. Copy the label in your hand onto a card of your own first.");
    }
    return text + paragraph(general_caution());
}

std::string schedule_csv(const std::vector<plan::ScheduledTree>& scheduled) {
    std::string text =
        csv_row({"opens", "best_until", "closes", "site", "tree", "method", "example_card"});
    for (const plan::ScheduledTree& entry : scheduled) {
        text += csv_row({day(entry.next, &season::Window::opens),
                         day(entry.next, &season::Window::best_until),
                         day(entry.next, &season::Window::closes), csv_text_field(entry.tree.site),
                         csv_text_field(entry.tree.label), csv_plain_field(entry.tree.method),
                         entry.example_card ? "yes" : "no"});
    }
    return text;
}

std::string schedule_json(const std::vector<plan::ScheduledTree>& scheduled) {
    Json json = Json::array();
    for (const plan::ScheduledTree& entry : scheduled) {
        json.push_back({{"opens", day(entry.next, &season::Window::opens)},
                        {"best_until", day(entry.next, &season::Window::best_until)},
                        {"closes", day(entry.next, &season::Window::closes)},
                        {"site", entry.tree.site},
                        {"tree", entry.tree.label},
                        {"method", entry.tree.method},
                        {"example_card", entry.example_card}});
    }
    return json.dump(2) + "\n";
}

}  // namespace ashtriage::present
