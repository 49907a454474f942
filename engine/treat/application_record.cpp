#include "treat/application_record.hpp"

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"

namespace ashtriage::treat {

using measure::units::milligram;
using measure::units::millilitre;

namespace {

Amount sum_of(const Amount& a, const Amount& b) {
    if (is_volume(a)) return volume_of(a) + volume_of(b);
    return mass_of(a) + mass_of(b);
}

Amount difference(const Amount& a, const Amount& b) {
    if (is_volume(a)) return volume_of(a) - volume_of(b);
    return mass_of(a) - mass_of(b);
}

}  // namespace

std::string labels_of_trees(const ApplicationRecord& record) {
    std::vector<std::string> labels;
    for (const TreatedTree& tree : record.trees) labels.push_back(tree.label);
    return packs::joined(labels, "and");
}

std::optional<int> trees_treated(const ApplicationRecord& record) {
    if (record.trees.empty()) return record.number_of_trees;
    return static_cast<int>(record.trees.size());
}

std::optional<measure::Length> dbh_treated(const ApplicationRecord& record) {
    if (record.trees.empty()) return record.dbh_sum;
    measure::Length sum;
    for (const TreatedTree& tree : record.trees) {
        if (!tree.dbh) return std::nullopt;
        sum += *tree.dbh;
    }
    return sum;
}

std::optional<Amount> product_on_trees(const ApplicationRecord& record) {
    std::optional<Amount> sum;
    for (const TreatedTree& tree : record.trees) {
        if (!tree.product) return std::nullopt;
        sum = sum ? sum_of(*sum, *tree.product) : *tree.product;
    }
    return sum;
}

bool measurably_more(const Amount& amount, const Amount& than) {
    const Amount more = difference(amount, than);
    if (is_volume(more)) return volume_of(more) > measure::Volume::of("0.001", millilitre);
    return mass_of(more) > measure::Mass::of("0.001", milligram);
}

std::optional<UsedAgainstPlanned> used_against_planned(const ApplicationRecord& record) {
    if (!record.total_product || !record.planned_product) return std::nullopt;
    const Amount& used = *record.total_product;
    const Amount& planned = *record.planned_product;
    if (measurably_more(used, planned)) return {{AgainstPlan::more, difference(used, planned)}};
    if (measurably_more(planned, used)) return {{AgainstPlan::less, difference(planned, used)}};
    return {{AgainstPlan::as_planned,
             is_volume(used) ? Amount(measure::Volume{}) : Amount(measure::Mass{})}};
}

std::optional<measure::Volume> left_over(const ApplicationRecord& record) {
    if (!record.mixed || !record.total_mix) return std::nullopt;
    return *record.mixed - *record.total_mix;
}

Amount amount_of(const LabelledRate& rate) {
    try {
        return parse_stated_volume(rate.amount).quantity();
    } catch (const measure::InputError& no_volume) {
        try {
            return parse_stated_mass(rate.amount).quantity();
        } catch (const measure::InputError&) {
            throw no_volume;
        }
    }
}

std::optional<std::vector<SpentActive>> spent_by(const ApplicationRecord& record) {
    std::vector<SpentActive> spent;
    if (record.correction && record.correction->withdraws) return spent;
    if (record.actives.empty() || !record.counted_as) return std::nullopt;
    for (const AppliedActive& active : record.actives) {
        if (!active.mass) return std::nullopt;
        spent.push_back({active.name, *record.counted_as, record.work_date, *active.mass});
    }
    return spent;
}

SpentActive spent_by(const OtherUse& use) {
    return {use.active_ingredient, use.counted_as, use.date, use.mass};
}

RaisedLimit limit_of(const RaisedAllowance& allowance) {
    return {allowance.active_ingredient, allowance.per_acre, allowance.reference,
            allowance.jurisdiction, allowance.expires};
}

}  // namespace ashtriage::treat
