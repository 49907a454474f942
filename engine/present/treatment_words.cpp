#include "present/treatment_words.hpp"

#include <algorithm>

#include "measure/date.hpp"
#include "measure/units.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

std::string sentence_for(std::string_view outcome) {
    if (outcome == triage::outcome::treat) return "treat this tree against emerald ash borer";
    if (outcome == triage::outcome::remove) return "plan to remove this tree";
    if (outcome == triage::outcome::monitor)
        return "leave this tree as it is and look again every year";
    return "have this tree looked at by someone who knows its kind; it is outside what we can "
           "judge "
           "here";
}

}  // namespace

std::string_view prefix_of(treat::Severity severity) {
    switch (severity) {
        case treat::Severity::stop:
            return "STOP: ";
        case treat::Severity::warning:
            return "WARNING: ";
        case treat::Severity::note:
            return "- ";
    }
    return {};
}

std::string window_words(const season::NextWindow& next) {
    if (!next.window) {
        return "No dates can be given for this method at this place; ask a local specialist.";
    }
    const season::Window& window = *next.window;
    const std::string dates = "from " + measure::long_text(window.opens) + " to " +
                              measure::long_text(window.closes) + ", best until " +
                              measure::long_text(window.best_until) + " (estimate, give or take " +
                              day_count(window.give_or_take_days) + ")";
    switch (next.state) {
        case season::WindowState::open_now:
            return "The window is open: " + dates + "; " + day_count(next.days_left) + " left" +
                   (next.past_best ? ", the better part is over." : ".");
        case season::WindowState::passed_so_next_year:
            return "This year's window has passed. The next one is " + dates + ".";
        case season::WindowState::opens_later_this_year:
        case season::WindowState::none_here:
            break;
    }
    return "The window is " + dates + ".";
}

std::string dose_text(const treat::LabelCard& card, const treat::Dose& dose) {
    std::string text;
    text += paragraph("Card: " + card.title);
    if (dose.dbh) {
        text += paragraph("For a DBH of " + dose.dbh->with_unit(measure::units::inch, 1) + ":");
    }
    for (const treat::MeasuredAmount& amount : dose.amounts) {
        text += paragraph(amount.what + ": " + amount.text + " (" + amount.twin + ")", "  ");
    }
    if (dose.active) {
        text +=
            paragraph(card.active_ingredient + " in it: " + treat::active_text(*dose.active), "  ");
    }
    if (dose.holes) {
        std::string holes = std::to_string(*dose.holes) + " injection holes";
        if (dose.product_per_hole) {
            holes += ", " + treat::plain_text(*dose.product_per_hole) + " of product in each";
        }
        text += paragraph(holes, "  ");
    }
    if (dose.bark) {
        text +=
            paragraph("bark wetted: about " + dose.bark->with_unit(measure::units::square_foot, 0) +
                          ", from the root flare up to " +
                          card.spray->up_to.with_unit(measure::units::foot, 1),
                      "  ");
    }
    for (const treat::Finding& finding : dose.findings) {
        text +=
            paragraph(finding.text, std::string("  ") + std::string(prefix_of(finding.severity)));
    }
    for (const std::string& item : card.protective_equipment) {
        text += paragraph(item, "  Wear: ");
    }
    for (const treat::Caution& caution : card.cautions) {
        text += paragraph(caution.text, "  - ");
    }
    return text;
}

std::string advice_for_client(const triage::Recommendation& recommendation) {
    if (recommendation.possible.empty()) {
        return "our rules do not fit this tree; it needs a specialist's look.";
    }
    if (!recommendation.decided()) {
        std::string text = "we cannot say yet. It may come out as one of these: ";
        for (std::size_t i = 0; i < recommendation.possible.size(); ++i) {
            if (i > 0) text += "; ";
            text += sentence_for(recommendation.possible[i]);
        }
        return text + ".";
    }
    std::string text = sentence_for(recommendation.possible.front()) + ".";
    if (!recommendation.firm) {
        text +=
            " This is a close call: judged again on another day it could come out otherwise, so "
            "we will look again before acting.";
    }
    return text;
}

}  // namespace ashtriage::present
