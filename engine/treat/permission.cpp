#include "treat/permission.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <chrono>

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "treat/amount_beside.hpp"

namespace ashtriage::treat {

using measure::Date;

namespace {

std::string lower(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(), [](unsigned char letter) {
        return static_cast<char>(std::tolower(letter));
    });
    return result;
}

bool same_words(std::string_view a, std::string_view b) {
    return lower(a) == lower(b);
}

// In one spelling, and of several things as of one: "Fertilisers" as "fertilizer".
std::string plainly_spelled(std::string_view text) {
    std::string words;
    for (const char letter : packs::normalised(text)) {
        if (letter == ' ' && words.ends_with('s')) words.pop_back();
        words += letter;
    }
    if (words.ends_with('s')) words.pop_back();
    for (std::size_t at = words.find("ilis"); at != std::string::npos;
         at = words.find("ilis", at)) {
        words.replace(at, 4, "iliz");
    }
    return words;
}

bool holds(std::string_view text, std::string_view part) {
    return plainly_spelled(text).find(plainly_spelled(part)) != std::string::npos;
}

bool named(const std::vector<std::string>& list, std::string_view words) {
    return std::ranges::any_of(list,
                               [&](const std::string& each) { return same_words(each, words); });
}

std::string list_of(const std::vector<std::string>& items) {
    std::string text;
    for (const std::string& item : items) text += (text.empty() ? "\"" : ", \"") + item + "\"";
    return text.empty() ? "nothing" : text;
}

// The same day so many months later; the last day of the month where it has no such day.
Date months_later(const Date& date, int months) {
    const std::chrono::year_month month =
        std::chrono::year_month(date.year(), date.month()) + std::chrono::months(months);
    const Date same_day = month / date.day();
    return same_day.ok() ? same_day : Date(month / std::chrono::last);
}

class Permission {
 public:
    Permission(const LabelCard& card, const Dose& dose, const IntendedUse& use)
        : card_(card), dose_(dose), use_(use) {}

    std::vector<Finding> collect() {
        if (card_.example) {
            stop(
                "example-card",
                "This is an EXAMPLE card and nobody's label: nothing may be applied or recorded by "
                "it. Copy your own label onto a card of your own (\"ashtriage labels new\").");
        }
        about_the_label();
        about_the_amount();
        about_other_applications();
        about_mixing();
        about_buffers();
        if (card_.never_food_trees && use_.may_yield_food) {
            stop("food-tree",
                 "The label forbids trees that may yield food or feed: choose another "
                 "product.");
        }
        return std::move(findings_);
    }

 private:
    void stop(std::string id, std::string text) {
        findings_.push_back({Severity::stop, std::move(id), std::move(text)});
    }
    void warn(std::string id, std::string text) {
        findings_.push_back({Severity::warning, std::move(id), std::move(text)});
    }

    void about_the_label() {
        if (!card_.from_label) return;
        const FromLabel& label = *card_.from_label;
        about_site_and_pest(label);
        if (label.special_need && label.special_need->expires < use_.on) {
            stop("label-expired",
                 fmt::format("The special label for {} ended on {}: use a label that is in force.",
                             label.special_need->jurisdiction,
                             measure::long_text(label.special_need->expires)));
        }
        if (label.restricted_use && use_.certified == false) {
            stop(
                "restricted-use",
                "The product is for restricted use: only a certified applicator, or somebody under "
                "one's direct supervision, may apply it.");
        } else if (label.restricted_use && !use_.certified) {
            warn("restricted-use",
                 "The product is for restricted use: make sure that a certified "
                 "applicator applies or supervises it.");
        }
        if (use_.on < label.checked_on) {
            warn("card-checked-later",
                 fmt::format("The card says that it was held against the label on {}, after this "
                             "day: see that it is the label that was in force.",
                             measure::long_text(label.checked_on)));
        }
        if (measure::days_between(label.checked_on, use_.on) > days_until_checked_again) {
            warn("card-not-checked",
                 fmt::format("The card was last held against the label on {}: labels change, check "
                             "it again and set 'checked_on'.",
                             measure::long_text(label.checked_on)));
        }
        const auto& season = card_.conditions.season;
        const MonthDay day{static_cast<int>(static_cast<unsigned>(use_.on.month())),
                           static_cast<int>(static_cast<unsigned>(use_.on.day()))};
        if (season && !season->contains(day)) {
            stop("out-of-label-season",
                 fmt::format("{} is outside the label's season ({:02}-{:02} to {:02}-{:02}): wait "
                             "for it.",
                             measure::long_text(use_.on), season->from.month, season->from.day,
                             season->to.month, season->to.day));
        }
    }

    void about_site_and_pest(const FromLabel& label) {
        const bool site_named =
            use_.site.empty() ? label.sites_cover_ash : named(label.sites, use_.site);
        if (!site_named) {
            stop("site-not-on-label",
                 fmt::format("The label does not name {}; it names {}. A site that is not on the "
                             "label may not be treated with this product.",
                             use_.site.empty() ? "a site that covers this ash" : use_.site,
                             list_of(label.sites)));
        }
        const bool pest_named =
            use_.pest.empty() ? label.pests_cover_borer : named(label.pests, use_.pest);
        if (pest_named) return;
        const std::string text = fmt::format(
            "The label does not name {}; it names {}.",
            use_.pest.empty() ? "the emerald ash borer" : use_.pest, list_of(label.pests));
        if (label.other_pests_allowed && site_named) {
            warn("pest-not-on-label", text +
                                          " The card says that other pests are allowed on a site "
                                          "that is named: some states are stricter.");
        } else {
            stop("pest-not-on-label", text +
                                          " Choose a product for this pest; if the label allows "
                                          "others, say so on the card (other_pests_allowed).");
        }
    }

    void about_the_amount() {
        if (!use_.product || !dose_.highest || !dose_.lowest) return;
        if (is_volume(*use_.product) != is_volume(*dose_.highest)) {
            stop(
                "amount-of-another-kind",
                "The amount is a weight of a liquid or a volume of a dry product: the label counts "
                "it the other way.");
            return;
        }
        if (*use_.product > *dose_.highest) {
            stop("above-label",
                 fmt::format("{} of product is more than the {} that the label allows for this "
                             "tree: no more than that may be applied.",
                             beside(*use_.product, card_.measure_with.product),
                             beside(*dose_.highest, card_.measure_with.product)));
        } else if (below_rate(*use_.product, *dose_.lowest)) {
            warn(
                "below-label",
                fmt::format("{} of product is less than the label's lowest rate for this tree, {}: "
                            "lawful in general, but it may fail, and the state or the label may "
                            "forbid it.",
                            beside(*use_.product, card_.measure_with.product),
                            beside(*dose_.lowest, card_.measure_with.product)));
        }
    }

    void about_other_applications() {
        std::optional<Date> last;  // up to the day
        std::optional<Date> following;
        for (const Date& date : use_.others) {
            if (date <= use_.on) {
                last = std::max(last.value_or(date), date);
            } else {
                following = std::min(following.value_or(date), date);
            }
        }
        const auto next = last ? earliest_next(card_.limits, *last) : std::nullopt;
        if (next && use_.on < *next) {
            stop("too-soon", fmt::format("The tree was treated with {} on {}: the label allows it "
                                         "again from {} on.",
                                         card_.active_ingredient, measure::long_text(*last),
                                         measure::long_text(*next)));
        }
        // Records come in any order: what was done later may stand already.
        const auto then = earliest_next(card_.limits, use_.on);
        if (following && then && *following < *then) {
            stop(
                "too-soon",
                fmt::format("The tree was treated with {} on {} as well: after {} the label allows "
                            "it again from {} on only.",
                            card_.active_ingredient, measure::long_text(*following),
                            measure::long_text(use_.on), measure::long_text(*then)));
        }
        const auto this_year = std::ranges::count_if(
            use_.others, [&](const Date& date) { return date.year() == use_.on.year(); });
        if (card_.limits.applications_per_year &&
            this_year >= *card_.limits.applications_per_year) {
            stop(
                "too-often",
                fmt::format("The tree had {} application{} of {} in {}, and the label allows {} a "
                            "year: wait for next year.",
                            this_year, this_year == 1 ? "" : "s", card_.active_ingredient,
                            static_cast<int>(use_.on.year()), *card_.limits.applications_per_year));
        }
    }

    void about_mixing() {
        const bool pesticides_forbidden =
            std::ranges::any_of(card_.never_mix_with,
                                [](const std::string& words) { return holds(words, "pesticide"); });
        for (const std::string& other : use_.mixed_with) {
            const auto forbids = [&](const std::string& words) {
                return holds(other, words) || holds(words, other);
            };
            if (std::ranges::any_of(card_.never_mix_with, forbids)) {
                stop("forbidden-mixture",
                     fmt::format("The label forbids mixing with {}: it names {}. Apply the product "
                                 "without it.",
                                 other, list_of(card_.never_mix_with)));
            } else if (pesticides_forbidden) {
                stop("mixture-may-be-forbidden",
                     fmt::format("The label forbids mixing with {}, and whether {} is one of them "
                                 "does not show from its name: apply the product without it.",
                                 list_of(card_.never_mix_with), other));
            } else {
                warn(
                    "mixture-not-on-label",
                    fmt::format("The card says nothing of mixing with {}: read the label, and test "
                                "a small amount in a jar first.",
                                other));
            }
        }
    }

    void about_buffers() {
        for (const Buffer& buffer : card_.buffers) {
            const std::string least = buffer.at_least.with_unit(measure::units::foot, 0);
            // Of a well, a beehive or a fence the program does not know how far away it is.
            if (!holds(buffer.from_what, "water") || !use_.distance_to_water) {
                warn("buffer", fmt::format("Keep at least {} from {}: measure it at the tree.",
                                           least, buffer.from_what));
            } else if (*use_.distance_to_water < buffer.at_least) {
                stop("within-the-buffer",
                     fmt::format("The nearest water is {} away, and the label asks for at least {} "
                                 "from {}: this product may not be applied here.",
                                 use_.distance_to_water->with_unit(measure::units::foot, 0), least,
                                 buffer.from_what));
            }
        }
    }

    const LabelCard& card_;
    const Dose& dose_;
    const IntendedUse& use_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> findings_about(const LabelCard& card, const Dose& dose,
                                    const IntendedUse& use) {
    return Permission(card, dose, use).collect();
}

bool any_stop(const std::vector<Finding>& findings) {
    return std::ranges::any_of(
        findings, [](const Finding& finding) { return finding.severity == Severity::stop; });
}

std::optional<Date> earliest_next(const Limits& limits, const Date& last) {
    std::optional<Date> earliest;
    if (limits.again_after_months) earliest = months_later(last, *limits.again_after_months);
    if (limits.again_after_days) {
        const Date by_days = measure::add_days(last, *limits.again_after_days);
        earliest = earliest ? std::max(*earliest, by_days) : by_days;
    }
    return earliest;
}

}  // namespace ashtriage::treat
