#include "present/planned_application.hpp"

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "present/label_words.hpp"

namespace ashtriage::present {

namespace units = measure::units;

namespace {

void add_amount(std::optional<treat::Amount>& sum, const treat::Amount& amount) {
    if (!sum) {
        sum = amount;
    } else if (treat::is_volume(*sum)) {
        sum = treat::volume_of(*sum) + treat::volume_of(amount);
    } else {
        sum = treat::mass_of(*sum) + treat::mass_of(amount);
    }
}

}  // namespace

treat::ApplicationRecord planned_application(const PlannedWork& work, const observe::Client& client,
                                             const treat::LabelCard& card) {
    if (card.example || !card.from_label) {
        throw measure::InputError(
            "\"" + card.key +
                "\" is an EXAMPLE card and nobody's label: nothing can be recorded "
                "by it",
            {}, "Copy your own label onto a card of your own (\"ashtriage labels new\").");
    }
    treat::ApplicationRecord record;
    record.site = work.site.id;
    record.written_on = work.on;
    record.work_date = work.on;
    record.customer_name = client.name;
    record.customer_address = client.address;
    record.site_address = work.site.address;
    record.position = work.site.position;
    record.crop = "ash tree";
    record.target_pest = "emerald ash borer";
    record.product_name = card.from_label->product_name;
    record.registration_number = card.from_label->registration_number;
    record.restricted_use = card.from_label->restricted_use;
    record.label_card = card.key;
    record.actives.push_back({card.active_ingredient, {}});
    for (const treat::OtherActive& other : card.other_actives) {
        record.actives.push_back({other.name, {}});
    }
    record.method = treat::words(card.application);
    record.counted_as = treat::counted_use(card.application);
    for (const PlannedTree& planned : work.trees) {
        const treat::MeasuredAmount* product = planned.dose.find(treat::Part::product);
        if (planned.card.key != card.key || planned.stopped() || product == nullptr) continue;
        treat::TreatedTree tree;
        tree.tree = planned.tree.id;
        tree.label = planned.tree.label;
        // As a person would write it down: a girth makes a DBH with digits that nobody measured.
        if (planned.dose.dbh) {
            tree.dbh = measure::Length::of(planned.dose.dbh->text(units::inch, 1), units::inch);
        }
        const auto rate = planned.dose.dbh
                              ? labelled_rate(card, *planned.dose.dbh, planned.dose.rate)
                              : std::nullopt;
        if (!record.rate) record.rate = rate;
        if (rate != record.rate) tree.rate = rate;
        add_amount(record.planned_product, product->measured);
        record.trees.push_back(std::move(tree));
    }
    return record;
}

}  // namespace ashtriage::present
