#include "book/application_filing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "treat/dose.hpp"

namespace ashtriage::book {

namespace {

using measure::InputError;
using treat::ApplicationRecord;
using treat::LabelCard;

observe::Site site_of(const Book& book, const std::string& name) {
    if (const auto site = book.find_site(name)) return *site;
    std::vector<std::string> known;
    for (const observe::Site& site : book.sites()) known.push_back(site.name);
    throw InputError("There is no site \"" + name + "\" in the book", {},
                     packs::nearest_hint(name, known));
}

void find_trees(const Book& book, ApplicationRecord& record, const std::string& site_name) {
    const std::vector<observe::Tree> trees = book.trees(record.site);
    std::vector<std::string> known;
    for (const observe::Tree& tree : trees) known.push_back(tree.label);
    for (treat::TreatedTree& treated : record.trees) {
        const auto tree = std::ranges::find(trees, treated.label, &observe::Tree::label);
        if (tree == trees.end()) {
            throw InputError(
                fmt::format("There is no tree \"{}\" at \"{}\"", treated.label, site_name), {},
                packs::nearest_hint(treated.label, known));
        }
        treated.tree = tree->id;
    }
}

// What the sheet says and the card says otherwise: one of them is wrong.
void take_from_card(std::string& entry, const std::string& of_card, const std::string& called,
                    const std::string& card) {
    if (entry.empty()) entry = of_card;
    if (entry == of_card) return;
    throw InputError(fmt::format("The sheet gives the {} as \"{}\", and the label card \"{}\" as "
                                 "\"{}\"",
                                 called, entry, card, of_card),
                     {}, "Hold both against the label, and mend the one that is wrong.");
}

void take_actives_from_card(ApplicationRecord& record, const LabelCard& card) {
    std::vector<std::string> of_card{card.active_ingredient};
    for (const treat::OtherActive& other : card.other_actives) of_card.push_back(other.name);
    if (record.actives.empty()) {
        for (const std::string& name : of_card) record.actives.push_back({name, {}});
    }
    for (const treat::AppliedActive& active : record.actives) {
        if (std::ranges::find(of_card, active.name) != of_card.end()) continue;
        throw InputError(fmt::format("The label card \"{}\" has no active ingredient \"{}\"",
                                     card.key, active.name),
                         {}, packs::nearest_hint(active.name, of_card));
    }
}

// The active ingredient of this name in so much of the product, rounded up.
measure::Mass worked_out(const LabelCard& card, const std::string& active,
                         const treat::Amount& product) {
    const treat::Strength* strength = &card.strength;
    for (const treat::OtherActive& other : card.other_actives) {
        if (other.name == active) strength = &other.strength;
    }
    return treat::active_in(*strength, product, measure::Rounding::up);
}

// An amount that was written down as rounded may differ from the one worked out by so much.
constexpr std::int64_t one_in = 100;

bool agree(measure::Mass stated, measure::Mass worked_out) {
    const measure::Mass more = std::max(stated, worked_out);
    return more - std::min(stated, worked_out) <= more.scaled(1, one_in, measure::Rounding::up);
}

void work_out_actives(ApplicationRecord& record, const LabelCard& card) {
    if (!record.total_product) return;
    for (treat::AppliedActive& active : record.actives) {
        const measure::Mass mass = worked_out(card, active.name, *record.total_product);
        if (active.mass && !agree(*active.mass, mass)) {
            throw InputError(
                fmt::format(
                    "The sheet gives {} of {}, and by the label card \"{}\" there are {} in "
                    "the product that was used",
                    treat::plain_text(*active.mass), active.name, card.key,
                    treat::plain_text(mass)),
                {}, "Leave its 'mass' empty, and it is worked out; or mend the amount of product.");
        }
        // What counts on the acre is never less than what was in the product.
        active.mass = std::max(active.mass.value_or(mass), mass);
    }
}

void take_from_card(ApplicationRecord& record, const LabelCard& card) {
    if (card.example || !card.from_label) {
        throw InputError(
            fmt::format("\"{}\" is an EXAMPLE card and nobody's label: nothing can be recorded by "
                        "it",
                        card.key),
            {},
            "Copy the label that was used onto a card of your own (\"ashtriage labels new\"), and "
            "name that card on the sheet.");
    }
    const treat::FromLabel& label = *card.from_label;
    take_from_card(record.product_name, label.product_name, "name of the product", card.key);
    take_from_card(record.registration_number, label.registration_number, "registration number",
                   card.key);
    if (!record.restricted_use) record.restricted_use = label.restricted_use;
    if (*record.restricted_use != label.restricted_use) {
        throw InputError(
            fmt::format("The sheet and the label card \"{}\" differ on whether the product is for "
                        "restricted use",
                        card.key),
            {}, "Hold both against the label, and mend the one that is wrong.");
    }
    if (record.method.empty()) record.method = treat::words(card.application);
    const treat::CountedUse use = treat::counted_use(card.application);
    if (record.counted_as.value_or(use) != use) {
        throw InputError(
            fmt::format(
                "The sheet counts the use as \"{}\", and the label card \"{}\" is for a {}, "
                "which counts as \"{}\" on the acre",
                treat::words(*record.counted_as), card.key, treat::words(card.application),
                treat::words(use)),
            {}, "Leave it empty, and it is taken from the card.");
    }
    record.counted_as = use;
    take_actives_from_card(record, card);
    work_out_actives(record, card);
}

}  // namespace

void leave_actives_to_be_worked_out(ApplicationRecord& record, const LabelCard& card) {
    if (!record.total_product) return;
    for (treat::AppliedActive& active : record.actives) {
        if (active.mass == worked_out(card, active.name, *record.total_product)) {
            active.mass.reset();
        }
    }
}

ApplicationRecord application_of(const Book& book, const treat::ApplicationSheet& sheet,
                                 const LabelCard* card, const std::string& card_text) {
    ApplicationRecord record = sheet.record;
    const observe::Site site = site_of(book, sheet.site);
    record.site = site.id;
    find_trees(book, record, site.name);
    if (!record.total_product) record.total_product = treat::product_on_trees(record);
    if (card != nullptr) {
        take_from_card(record, *card);
        record.label_card_text = card_text;
    }
    if (record.correction) {
        const auto corrected = book.find_application(record.correction->of);
        if (corrected) {
            record.written_on = corrected->record.written_on;
            // The label as it was then, even if the card has been changed since.
            if (corrected->record.label_card == record.label_card) {
                record.label_card_text = corrected->record.label_card_text;
            }
        }
    }
    return record;
}

}  // namespace ashtriage::book
