#include "present/account_listing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "book/site_history.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/text_layout.hpp"
#include "present/work_listing.hpp"

namespace ashtriage::present {

namespace units = measure::units;

namespace {

void add_entries(SiteAccount& account, const book::Book& book) {
    const auto in_year = [&](const measure::Date& date) {
        return static_cast<int>(date.year()) == account.year;
    };
    for (const treat::ApplicationRecord& record :
         book::standing(book.applications(account.site.id))) {
        const auto spent = treat::spent_by(record);
        if (!spent || !in_year(record.work_date)) continue;
        for (const treat::SpentActive& each : *spent) {
            account.entries.push_back(
                {each.on, each.active_ingredient, each.mass, each.use,
                 fmt::format("application {}: {}", record.id, treat::labels_of_trees(record))});
        }
    }
    for (const treat::OtherUse& use : book::standing(book.other_uses(account.site.id))) {
        if (!in_year(use.date)) continue;
        account.entries.push_back({use.date, use.active_ingredient, use.mass, use.counted_as,
                                   fmt::format("other use {}: {}", use.id, use.what)});
    }
    std::ranges::stable_sort(account.entries, {}, &AccountEntry::on);
}

Json account_json(const treat::AcreAccount& account) {
    const auto grams = [](measure::Mass mass, measure::Rounding rounding) {
        return mass.text(units::gram, 3, rounding);
    };
    return {{"active_ingredient", account.active_ingredient},
            {"year", account.year},
            {"pounds_per_acre", account.per_acre.text(units::pound, 3, measure::Rounding::down)},
            {"raised_by", account.raised_by ? Json(account.raised_by->reference) : Json()},
            {"allowed_g", grams(account.allowed, measure::Rounding::down)},
            {"used_g", grams(account.used, measure::Rounding::up)},
            {"planned_g", grams(account.planned, measure::Rounding::up)},
            {"left_g", grams(account.left(), measure::Rounding::down)},
            {"over_g", grams(account.over(), measure::Rounding::up)}};
}

std::string_view rank_words(int rank) {
    return rank == 1 ? "of high value" : rank == 2 ? "of middle or unknown value" : "of low value";
}

}  // namespace

SiteAccount site_account(const book::Book& book, const PlannedWork& work,
                         const std::vector<treat::LabelCard>& cards) {
    SiteAccount account;
    account.site = work.site;
    account.year = static_cast<int>(work.on.year());
    account.accounts = work.accounts;
    account.example = std::ranges::any_of(
        work.trees, [](const PlannedTree& planned) { return planned.card.example; });
    add_entries(account, book);
    account.raised = book::standing(book.raised_allowances(work.site.id));
    const treat::SiteHistory history = book::site_history(book, work.site.id);
    for (const treat::LabelCard& card : cards) {
        const auto is_of_card = [&](const auto& each) {
            return each.active_ingredient == card.active_ingredient;
        };
        if (card.example || !account.site.area ||
            std::ranges::any_of(account.accounts, is_of_card) ||
            std::ranges::none_of(account.entries, is_of_card)) {
            continue;
        }
        const auto unplanned = treat::acre_account(card, account.site.area, work.on, history.spent,
                                                   {}, history.raised);
        if (unplanned) account.accounts.push_back(*unplanned);
    }
    for (const treat::SiteHistory::Untold& untold : history.untold) {
        if (untold.on.year() != work.on.year()) continue;
        account.untold.push_back(fmt::format(
            "The record of application {} of {} does not say how much active ingredient was used "
            "or how it counts. Complete it (\"ashtriage record new --of {}\"); until then the "
            "account cannot be told.",
            untold.application, measure::long_text(untold.on), untold.application));
    }
    for (const PlannedTree& planned : work.trees) {
        if (!planned.ruled_out() && planned.card.limits.active_per_acre_per_year) {
            account.this_year.push_back({planned.tree.label, planned.rank,
                                         planned.card.active_ingredient, active_of(planned)});
        }
        for (const treat::Finding& finding : planned.findings) {
            if (finding.id != moved_finding) continue;
            account.moved.push_back(
                {planned.tree.label, planned.card.title + ". " + finding.text, true});
        }
    }
    std::ranges::stable_sort(account.this_year, {}, &TreeOfAccount::rank);
    for (const LeftOut& out : work.left_out) {
        if (out.for_want_of_room) account.without_room.push_back(out);
    }
    return account;
}

std::string account_text(const SiteAccount& account) {
    std::string text =
        paragraph(fmt::format("{}, {}", account.site.name, account.year)) +
        paragraph(account.site.area
                      ? account.site.area->with_unit(units::acre, 2) + " (" +
                            account.site.area->with_unit(units::hectare, 2) + ")"
                      : std::string("not known: without it no amount by the acre can be told"),
                  "Area: ");
    if (account.example) {
        text += paragraph(
            "EXAMPLE label cards stand behind these limits and amounts: they are nobody's label, "
            "and nothing may be applied by them. Copy your own onto a card of your own first.",
            "STOP: ");
    }
    for (const std::string& untold : account.untold) text += paragraph(untold, "STOP: ");
    if (account.accounts.empty()) {
        text += paragraph(
            "No label card of the trees to be treated limits an active ingredient by "
            "the acre.");
    }
    for (const treat::AcreAccount& each : account.accounts) {
        text += "\n" + paragraph(account_words(each));
    }
    if (!account.entries.empty()) {
        text += "\nUsed this year\n";
        TextTable table({"Date", "Active ingredient", "Grams", "Counts as", "What"});
        for (const AccountEntry& entry : account.entries) {
            table.add({measure::text(entry.on), entry.active_ingredient,
                       entry.mass.text(units::gram, 2, measure::Rounding::up),
                       std::string(treat::words(entry.counted_as)), entry.what});
        }
        text += table.text();
    }
    for (const treat::RaisedAllowance& raised : account.raised) {
        text +=
            "\n" +
            paragraph(fmt::format(
                "Raised limit {}: {} of {} per acre and year, {}, {}, until {}; confirmed by {} "
                "on {}.",
                raised.id, raised.per_acre.with_unit(units::pound, 2), raised.active_ingredient,
                raised.jurisdiction, raised.reference, measure::long_text(raised.expires),
                raised.confirmed_by, measure::long_text(raised.confirmed_on)));
    }
    if (!account.this_year.empty()) {
        text += "\nCan still be treated this year, the most valued first\n";
    }
    for (const TreeOfAccount& tree : account.this_year) {
        text += paragraph(
            fmt::format("{} of {} ({})", tree.mass.with_unit(units::gram, 2, measure::Rounding::up),
                        tree.active_ingredient, rank_words(tree.rank)),
            "  " + tree.label + ": ");
    }
    if (!account.moved.empty()) text += "\nBy another method\n";
    for (const LeftOut& moved : account.moved) {
        text += paragraph(moved.why, "  " + moved.label + ": ");
    }
    if (!account.without_room.empty()) text += "\nNot this year\n";
    for (const LeftOut& out : account.without_room) {
        text += paragraph(out.why, "  " + out.label + ": ");
    }
    return text;
}

std::string account_csv(const SiteAccount& account) {
    std::string csv = csv_row({"site", "year", "active_ingredient", "pounds_per_acre", "allowed_g",
                               "used_g", "planned_g", "left_g", "over_g", "raised_by", "example"});
    for (const treat::AcreAccount& each : account.accounts) {
        const Json json = account_json(each);
        csv += csv_row({csv_text_field(account.site.name), std::to_string(account.year),
                        csv_text_field(each.active_ingredient), json["pounds_per_acre"],
                        json["allowed_g"], json["used_g"], json["planned_g"], json["left_g"],
                        json["over_g"],
                        csv_text_field(each.raised_by ? each.raised_by->reference : ""),
                        account.example ? "yes" : "no"});
    }
    return csv;
}

Json account_json(const SiteAccount& account) {
    Json json{{"site", account.site.name}, {"year", account.year}, {"example", account.example}};
    json["accounts"] = Json::array();
    for (const treat::AcreAccount& each : account.accounts) {
        json["accounts"].push_back(account_json(each));
    }
    json["used"] = Json::array();
    for (const AccountEntry& entry : account.entries) {
        json["used"].push_back({{"date", measure::text(entry.on)},
                                {"active_ingredient", entry.active_ingredient},
                                {"grams", entry.mass.text(units::gram, 3, measure::Rounding::up)},
                                {"counts_as", words(entry.counted_as)},
                                {"what", entry.what}});
    }
    json["untold"] = account.untold;
    json["this_year"] = Json::array();
    for (const TreeOfAccount& tree : account.this_year) {
        json["this_year"].push_back(
            {{"tree", tree.label},
             {"value", rank_words(tree.rank)},
             {"active_ingredient", tree.active_ingredient},
             {"grams", tree.mass.text(units::gram, 3, measure::Rounding::up)}});
    }
    json["by_another_method"] = Json::array();
    for (const LeftOut& moved : account.moved) {
        json["by_another_method"].push_back({{"tree", moved.label}, {"why", moved.why}});
    }
    json["not_this_year"] = Json::array();
    for (const LeftOut& out : account.without_room) {
        json["not_this_year"].push_back({{"tree", out.label}, {"why", out.why}});
    }
    return json;
}

}  // namespace ashtriage::present
