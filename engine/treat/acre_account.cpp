#include "treat/acre_account.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {

using measure::Date;
using measure::Mass;

namespace {

Mass sum_of(const std::vector<SpentActive>& spent, const LabelCard& card, int year) {
    Mass sum;
    for (const SpentActive& each : spent) {
        const bool counts = each.active_ingredient == card.active_ingredient &&
                            static_cast<int>(each.on.year()) == year &&
                            card.limits.counted.contains(each.use);
        if (counts) sum += each.mass;
    }
    return sum;
}

// The highest limit raised for this active ingredient that is in force.
std::optional<RaisedLimit> raised_limit(const std::vector<RaisedLimit>& raised,
                                        std::string_view active_ingredient, const Date& as_of) {
    std::optional<RaisedLimit> highest;
    for (const RaisedLimit& each : raised) {
        if (each.active_ingredient != active_ingredient || each.expires < as_of) continue;
        if (!highest || highest->per_acre < each.per_acre) highest = each;
    }
    return highest;
}

}  // namespace

Mass AcreAccount::left() const {
    return std::max(allowed - used - planned, Mass());
}

Mass AcreAccount::over() const {
    return std::max(used + planned - allowed, Mass());
}

std::optional<AcreAccount> acre_account(const LabelCard& card,
                                        const std::optional<measure::Area>& site, const Date& as_of,
                                        const std::vector<SpentActive>& spent,
                                        const std::vector<SpentActive>& planned,
                                        const std::vector<RaisedLimit>& raised) {
    if (!card.limits.active_per_acre_per_year) return std::nullopt;
    if (!site || *site <= measure::Area()) {
        throw measure::InputError(
            fmt::format("The label limits {} by the acre, and the area of the site is not known",
                        card.active_ingredient),
            {},
            "Give the area of the site, such as \"0.4 ac\"; without it nothing can be planned.");
    }
    AcreAccount account;
    account.active_ingredient = card.active_ingredient;
    account.year = static_cast<int>(as_of.year());
    account.per_acre = *card.limits.active_per_acre_per_year;
    const auto higher = raised_limit(raised, card.active_ingredient, as_of);
    if (higher && higher->per_acre > account.per_acre) {
        account.per_acre = higher->per_acre;
        account.raised_by = higher;
    }
    account.allowed =
        account.per_acre.scaled(site->ticks(), measure::units::acre.ticks, measure::Rounding::down);
    account.used = sum_of(spent, card, account.year);
    account.planned = sum_of(planned, card, account.year);
    return account;
}

std::optional<Finding> acre_not_counted(const LabelCard& card) {
    const auto& most = card.limits.active_per_acre_per_year;
    if (!most) return std::nullopt;
    return Finding{
        Severity::note, "acre-not-counted",
        fmt::format("The label allows {} of {} on an acre in a year. A stem without a site "
                    "is not counted toward it: for a tree of the book this is done.",
                    active_text(*most), card.active_ingredient)};
}

std::vector<std::size_t> largest_set(const std::vector<Claimant>& trees, Mass left) {
    std::vector<std::size_t> order(trees.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    // Within a rank the smallest first: no other choice fits more trees of that rank, and none
    // with as many leaves more for the ranks that follow.
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        return std::pair(trees[a].rank, trees[a].active) <
               std::pair(trees[b].rank, trees[b].active);
    });
    std::vector<std::size_t> taken;
    for (const std::size_t tree : order) {
        if (trees[tree].active > left) continue;
        left -= trees[tree].active;
        taken.push_back(tree);
    }
    std::ranges::sort(taken);
    return taken;
}

}  // namespace ashtriage::treat
