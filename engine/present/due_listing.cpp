#include "present/due_listing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "present/csv_text.hpp"
#include "present/place_cautions.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

using measure::Date;
using plan::Due;
using plan::DueState;

namespace {

std::string title_of(const Knowledge& knowledge, std::string_view method) {
    const auto found = std::ranges::find(knowledge.methods, method, &plan::MethodFacts::method);
    return found == knowledge.methods.end() ? std::string(method) : found->title;
}

std::string last_words(const Due& due) {
    if (!due.last) return "no record";
    return measure::text(due.last->on);
}

// "Trunk injection of ...: from 15 May 2027 to 31 August 2027."
std::string next_words(const DueRow& row, const Knowledge& knowledge) {
    const Due& due = row.due;
    std::string text = title_of(knowledge, row.tree.method) + ": ";
    if (!due.has_dates) return text + "no dates are worked out for it, the label has them.";
    if (due.outside_label) {
        return text + "no day of its window is within the season of the label card.";
    }
    if (!due.window) return text + "no window at this place.";
    return text + fmt::format("from {} to {}, give or take {} days.",
                              measure::long_text(*due.first_day), measure::long_text(*due.last_day),
                              due.window->give_or_take_days);
}

std::string stop_words(const Due& due) {
    if (!due.allowed_from) return {};
    const std::string day = measure::long_text(*due.allowed_from);
    if (!due.allowed_by_record) {
        return "STOP: by the walk-around it was treated in that season. Not before " + day +
               ", and not before its record is found. ";
    }
    return fmt::format("STOP: the {} allows it again from {} on. ",
                       due.example_card ? "EXAMPLE card" : "label card", day);
}

std::string passed_words(const DueRow& row, const Knowledge& knowledge) {
    const Due& due = row.due;
    const bool waits = due.state == DueState::missed || due.state == DueState::never_treated ||
                       due.state == DueState::not_recorded;
    if (!due.window_passed || !waits) return {};
    std::string text =
        fmt::format("This year's window closed on {}. ", measure::long_text(*due.window_passed));
    if (row.instead) {
        text += fmt::format(
            "Another method that fits is still in time this year: {}, from {} to "
            "{}. ",
            title_of(knowledge, row.instead->method), measure::long_text(row.instead->first_day),
            measure::long_text(row.instead->last_day));
    } else {
        text += "No other method that surely fits is still in time. ";
    }
    return text + "Next: ";
}

std::string lasting_words(const Due& due) {
    if (!due.due_year) return {};
    std::string text = fmt::format(
        " Last treated with {}; that is taken to last {} year{}, to the "
        "season of {}",
        due.last->active_ingredient.empty() ? std::string("what the record does not name")
                                            : due.last->active_ingredient,
        due.interval_years, due.interval_years == 1 ? "" : "s", *due.due_year);
    if (due.interval_taken_short) {
        text += due.last->method.empty()
                    ? " (the record does not tell the method, so the shortest)"
                    : " (the shortest: where the wave of borers has got to is not known)";
    }
    return text + ".";
}

std::string what_now(const DueRow& row, const Due& due, const Date& as_of,
                     const Knowledge& knowledge) {
    std::string text;
    if (due.state == DueState::not_looked_at) {
        text = "Nobody has walked round it yet: look at it first.";
    } else if (due.state == DueState::not_to_be_treated) {
        text = "It " + row.tree.why_not + ".";
    } else {
        if (due.state == DueState::not_recorded) {
            text = "When it was last treated is not in the book: find the record first. ";
        }
        text += stop_words(due) + passed_words(row, knowledge) + next_words(row, knowledge);
    }
    text += lasting_words(due);
    if (due.look_again) {
        text += fmt::format(" Not walked round in {}: look at it again before it is treated.",
                            static_cast<int>(as_of.year()));
    }
    if (due.no_card) text += " There is no label card for the method: see your label's interval.";
    for (const std::string& note : row.notes) text += " " + note;
    return text;
}

std::string state_words(DueState state) {
    const std::string name(words(state));
    return state == DueState::too_soon || state == DueState::overdue || state == DueState::missed
               ? outcome_heading(name)
               : name;
}

std::string date_or_empty(const std::optional<Date>& date) {
    return date ? measure::text(*date) : std::string();
}

std::string_view yes_no(bool value) {
    return value ? "yes" : "no";
}

std::string table_of_site(const DueReport& report, const std::string& site,
                          const Knowledge& knowledge) {
    TextTable table({"Tree", "State", "Last", "What now"});
    for (const DueRow& row : report.rows) {
        if (row.tree.site != site) continue;
        table.add({row.tree.label, state_words(row.due.state), last_words(row.due),
                   what_now(row, row.due, report.as_of, knowledge)});
    }
    return table.text();
}

}  // namespace

std::string due_text(const DueReport& report, const Knowledge& knowledge) {
    if (report.rows.empty()) return paragraph("There is no tree in the book.");
    std::vector<std::string> sites;
    for (const DueRow& row : report.rows) {
        if (std::ranges::find(sites, row.tree.site) == sites.end()) sites.push_back(row.tree.site);
    }
    std::string text;
    for (const std::string& site : sites) {
        text += paragraph(fmt::format("{}, {}", site, measure::long_text(report.as_of))) + "\n" +
                table_of_site(report, site, knowledge) + "\n";
    }
    for (const std::string& note : report.notes) text += paragraph(note);
    PlaceCautions places;
    for (const DueRow& row : report.rows) {
        if (row.due.window) places.add(row.tree.site, row.due.window->cautions);
    }
    text += places.text();
    const auto any = [&](bool Due::*what) {
        return std::ranges::any_of(report.rows, [&](const DueRow& row) { return row.due.*what; });
    };
    if (any(&Due::example_card)) {
        text += paragraph(
            "EXAMPLE label cards stand behind this: from when on the label in your "
            "hand allows it again is on that label.");
    }
    text += paragraph(
        "Windows are estimates; the label, the leaves on the tree and the soil "
        "decide. How long a treatment lasts depends on where the wave of borers has "
        "got to (--wave).");
    return text + paragraph(general_caution());
}

std::string due_csv(const DueReport& report) {
    std::string text =
        csv_row({"site", "tree", "state", "method", "last_on", "last_active", "interval_years",
                 "due_year", "allowed_from", "first_day", "closes", "window_passed", "instead",
                 "instead_closes", "look_again", "example_card"});
    for (const DueRow& row : report.rows) {
        const Due& due = row.due;
        text += csv_row(
            {csv_text_field(row.tree.site), csv_text_field(row.tree.label),
             std::string(words(due.state)), csv_plain_field(row.tree.method),
             due.last ? measure::text(due.last->on) : "",
             due.last ? csv_text_field(due.last->active_ingredient) : "",
             due.last ? std::to_string(due.interval_years) : "",
             due.due_year ? std::to_string(*due.due_year) : "", date_or_empty(due.allowed_from),
             date_or_empty(due.first_day), date_or_empty(due.last_day),
             date_or_empty(due.window_passed), row.instead ? row.instead->method : "",
             row.instead ? measure::text(row.instead->last_day) : "",
             std::string(yes_no(due.look_again)), std::string(yes_no(due.example_card))});
    }
    return text;
}

std::string due_json(const DueReport& report) {
    const auto date = [](const std::optional<Date>& day) {
        return day ? Json(measure::text(*day)) : Json();
    };
    Json rows = Json::array();
    for (const DueRow& row : report.rows) {
        const Due& due = row.due;
        Json json{
            {"site", row.tree.site},
            {"tree", row.tree.label},
            {"state", words(due.state)},
            {"method", row.tree.method.empty() ? Json() : Json(row.tree.method)},
            {"why_not", row.tree.why_not},
            {"last", due.last ? Json{{"on", measure::text(due.last->on)},
                                     {"active_ingredient", due.last->active_ingredient},
                                     {"method", due.last->method}}
                              : Json()},
            {"interval_years", due.last ? Json(due.interval_years) : Json()},
            {"interval_taken_short", due.interval_taken_short},
            {"due_year", due.due_year ? Json(*due.due_year) : Json()},
            {"allowed_from", date(due.allowed_from)},
            {"first_day", date(due.first_day)},
            {"closes", due.last_day ? Json(measure::text(*due.last_day)) : Json()},
            {"window_passed", date(due.window_passed)},
            {"instead", row.instead ? Json{{"method", row.instead->method},
                                           {"first_day", measure::text(row.instead->first_day)},
                                           {"closes", measure::text(row.instead->last_day)}}
                                    : Json()},
            {"walked_on", date(row.tree.walked_on)},
            {"look_again", due.look_again},
            {"no_card", due.no_card},
            {"example_card", due.example_card},
            {"notes", row.notes}};
        rows.push_back(std::move(json));
    }
    const Json whole{
        {"as_of", measure::text(report.as_of)}, {"trees", rows}, {"notes", report.notes}};
    return whole.dump(2) + "\n";
}

}  // namespace ashtriage::present
