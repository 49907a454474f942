#include "present/at_the_tree.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/label_words.hpp"
#include "present/words.hpp"
#include "present/work_listing.hpp"

namespace ashtriage::present {

namespace units = measure::units;
using treat::Application;
using treat::LabelCard;

namespace {

void add(std::vector<LabelSays>& says, std::string heading, std::vector<std::string> lines) {
    std::erase(lines, std::string());
    if (!lines.empty()) says.push_back({std::move(heading), std::move(lines)});
}

// Stem by stem: the sum of several stems is no girth that anybody could measure.
std::string measure_again(const PlannedTree& planned) {
    const auto& stems = planned.dose.stems;
    std::string text = "Measure again: girth at 4.5 ft divided by 3.14. ";
    if (stems.size() < 2) {
        text += "It must come to " + dbh_words(*planned.dose.dbh);
    } else {
        std::vector<std::string> each;
        for (const treat::DosedStem& stem : stems) each.push_back(dbh_words(stem.dbh));
        text += fmt::format("There are {} stems; they must come to {}", stems.size(),
                            packs::joined(each, "and"));
    }
    return text + ". If it does not, stop and have the dose worked out again.";
}

std::string drill(const PlannedTree& planned) {
    const auto& holes = planned.card.holes;
    const auto& stems = planned.dose.stems;
    if (!holes || !planned.dose.holes) {
        return "Drill the holes that the label asks for, into sound wood at the root flare; never "
               "into a wound.";
    }
    std::string text = fmt::format("Drill {} holes", *planned.dose.holes);
    if (stems.size() > 1) {
        std::vector<std::string> each;
        for (const treat::DosedStem& stem : stems) {
            each.push_back(fmt::format("{} in the stem of {}", stem.holes.value_or(0),
                                       stem.dbh.with_unit(units::inch, 1)));
        }
        text += ", " + packs::joined(each, "and");
    }
    text += ", evenly round the trunk";
    if (holes->depth) text += ", " + holes->depth->with_unit(units::inch, 2) + " deep";
    return text + ", no more than " + holes->spacing.with_unit(units::inch, 1) +
           " apart, into sound wood at the root flare; never into a wound.";
}

std::string apply(const PlannedTree& planned) {
    const LabelCard& card = planned.card;
    switch (card.application) {
        case Application::basal_trunk_spray:
            return "Pull soil, mulch and litter back until the root flare is bare. Spray the bark "
                   "from the root flare up to " +
                   (card.spray ? card.spray->up_to.with_unit(units::foot, 1) : std::string("...")) +
                   " all the way round, at low pressure, until it is wet to just before run-off. "
                   "No puddle in the soil.";
        case Application::soil_drench:
            return "Pull mulch and litter back to bare mineral soil. Pour the mix evenly all round "
                   "the base of the trunk. It has to soak in: no puddle, no run-off.";
        case Application::soil_injection:
            return "Inject into the mineral soil all round the base of the trunk, at low pressure "
                   "and as deep as the label says. Nothing may come up again.";
        case Application::trunk_injection:
            return drill(planned);
        case Application::cover_spray:
            return "Spray trunk, branches and, where the label names them, leaves until they are "
                   "wet. Keep the drift on the property.";
    }
    throw measure::InputError("This way of applying a product is not known");
}

}  // namespace

std::string product_words(const LabelCard& card) {
    if (!card.from_label) return card.title + ".";
    const treat::FromLabel& label = *card.from_label;
    std::string text =
        fmt::format("{}, registration number {} ({}, {}).", label.product_name,
                    label.registration_number, card.active_ingredient, words(card.application));
    if (label.signal_word != treat::SignalWord::none) {
        text += fmt::format(" Signal word: {}.", words(label.signal_word));
    }
    if (label.restricted_use) text += " For restricted use.";
    return text;
}

std::string identity_words(const PlannedTree& planned, const measure::Date& on) {
    std::vector<std::string> tree;
    if (!planned.species.empty()) tree.push_back(with_capital(planned.species));
    if (planned.dose.dbh) tree.push_back("DBH " + dbh_words(*planned.dose.dbh));
    std::vector<std::string> where{planned.site.name};
    if (!planned.site.address.empty()) where.push_back(planned.site.address);
    where.push_back(measure::long_text(on));
    std::string text = planned.tree.place.empty() ? "" : with_capital(planned.tree.place) + ". ";
    if (!tree.empty()) text += fmt::format("{}. ", fmt::join(tree, ", "));
    return fmt::format("{}{}.", text, fmt::join(where, ", "));
}

std::vector<LabelSays> label_at_the_tree(const LabelCard& card) {
    std::vector<LabelSays> says;
    add(says, "When and where the label allows it", condition_words(card));
    if (card.from_label) add(says, "Binding: must and must not", card.from_label->mandatory);
    add(says, "Bees and bloom", card.pollinators);
    std::vector<std::string> cautions;
    for (const treat::Caution& caution : card.cautions) cautions.push_back(caution.text);
    add(says, "Cautions", cautions);
    if (card.from_label) add(says, "Re-entry, as the label says it", {card.from_label->re_entry});
    return says;
}

std::vector<LabelSays> label_for_the_day(const LabelCard& card) {
    std::vector<LabelSays> says;
    if (!card.from_label) return says;
    add(says, "First aid", {card.from_label->first_aid});
    add(says, "Advice: should and should not", card.from_label->advisory);
    add(says, "Storage and disposal", {card.from_label->storage_and_disposal});
    return says;
}

std::vector<std::string> steps_at_the_tree(const PlannedTree& planned) {
    std::vector<std::string> steps;
    if (planned.dose.dbh) steps.push_back(measure_again(planned));
    steps.push_back(apply(planned));
    steps.emplace_back(
        "Stop if: the tree is not the one on this card, it is dead or bare, bark or soil are not "
        "as the label asks, wind or rain come up, people or animals come near, bees are at work, a "
        "power line or a hanging limb is within reach.");
    steps.emplace_back(
        "Write down at once: start and end time, amounts really used, wind, temperature, state of "
        "soil and bark, who did it, what was left over.");
    return steps;
}

}  // namespace ashtriage::present
