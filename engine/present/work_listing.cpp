#include "present/work_listing.hpp"

#include <fmt/format.h>

#include <set>
#include <string_view>

#include "measure/stems.hpp"
#include "measure/units.hpp"
#include "present/csv_text.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "present/words.hpp"
#include "treat/amount_beside.hpp"

namespace ashtriage::present {

namespace units = measure::units;
using treat::Part;
using treat::Severity;

namespace {

// The dose's own warning about an example card says less than the stop of the label.
std::vector<treat::Finding> all_findings(const PlannedTree& planned) {
    std::vector<treat::Finding> all = planned.findings;
    for (const treat::Finding& finding : planned.dose.findings) {
        if (finding.id != treat::example_finding) all.push_back(finding);
    }
    return all;
}

std::string heading_of(const PlannedTree& planned) {
    std::string heading = planned.tree.label;
    if (!planned.tree.place.empty()) heading += ", " + planned.tree.place;
    return heading + (planned.card.example ? "  [EXAMPLE CARD]" : "");
}

std::string number_of(const std::optional<measure::Mass>& mass, const measure::MassUnit& unit,
                      int places) {
    return mass ? mass->text(unit, places) : std::string();
}

std::string findings_of(const PlannedTree& planned, Severity severity) {
    std::string text;
    for (const treat::Finding& finding : all_findings(planned)) {
        if (finding.severity == severity) text += (text.empty() ? "" : " ") + finding.text;
    }
    return text;
}

// The stops first.
std::string findings_text(const PlannedTree& planned) {
    std::string text;
    for (const Severity severity : {Severity::stop, Severity::warning, Severity::note}) {
        for (const treat::Finding& finding : all_findings(planned)) {
            // That of an example card is of the card as a whole and said beside its name.
            if (finding.id == treat::example_finding || finding.severity != severity) continue;
            text += paragraph(finding.text, "  " + std::string(prefix_of(severity)));
        }
    }
    return text;
}

}  // namespace

std::string dbh_words(measure::Length dbh) {
    const measure::Length girth = measure::girth_from_diameter(dbh);
    return fmt::format("{} ({}), a girth of {} ({})", dbh.with_unit(units::inch, 1),
                       dbh.with_unit(units::centimetre, 1), girth.with_unit(units::inch, 1),
                       girth.with_unit(units::centimetre, 1));
}

std::string amounts_text(const PlannedTree& planned) {
    const treat::Dose& dose = planned.dose;
    std::string text;
    if (dose.dbh) text += paragraph(dbh_words(*dose.dbh), "  DBH: ");
    // What may not be applied is not shown as if it might be.
    if (planned.ruled_out()) return text + findings_text(planned);
    for (const treat::MeasuredAmount& amount : dose.amounts) {
        text += paragraph(amount.text + " (" + amount.twin + ")", "  " + amount.what + ": ");
    }
    for (const std::string& line : dose_lines(planned)) text += paragraph(line, "  ");
    return text + findings_text(planned);
}

std::vector<std::string> dose_lines(const PlannedTree& planned) {
    const treat::Dose& dose = planned.dose;
    std::vector<std::string> lines;
    if (planned.card.mix && dose.finished) {
        lines.push_back(dose.finished->with_unit(units::us_gallon, 2) + " (" +
                        dose.finished->with_unit(units::litre, 2) + ") in all");
    }
    if (dose.active) {
        lines.push_back(planned.card.active_ingredient +
                        " in it: " + treat::active_text(*dose.active));
    }
    for (const treat::ActiveAmount& other : dose.other_actives) {
        lines.push_back(other.name + " in it: " + treat::active_text(other.mass));
    }
    if (dose.bark) {
        lines.push_back("bark wetted: about " + dose.bark->with_unit(units::square_foot, 1) + " (" +
                        dose.bark->with_unit(units::square_metre, 2) + ")");
    }
    if (dose.holes) {
        std::string holes = fmt::format("{} injection holes", *dose.holes);
        if (dose.product_per_hole) {
            holes += ", " +
                     treat::beside(*dose.product_per_hole, planned.card.measure_with.product) +
                     " of product in each";
        }
        lines.push_back(std::move(holes));
    }
    return lines;
}

std::string account_words(const treat::AcreAccount& account) {
    std::string words = fmt::format(
        "{} in {}: {} per acre and year; {} allowed on this site, {} used, {} planned here, {} "
        "left.",
        account.active_ingredient, account.year, account.per_acre.with_unit(units::pound, 2),
        account.allowed.with_unit(units::gram, 2, measure::Rounding::down),
        account.used.with_unit(units::gram, 2, measure::Rounding::up),
        account.planned.with_unit(units::gram, 2, measure::Rounding::up),
        account.left().with_unit(units::gram, 2, measure::Rounding::down));
    if (account.raised_by) {
        words += fmt::format(" The limit is raised by {}, {}, until {}.",
                             account.raised_by->jurisdiction, account.raised_by->reference,
                             measure::long_text(account.raised_by->expires));
    }
    if (account.over() > measure::Mass()) {
        words += fmt::format(" STOP: that is {} over the limit.",
                             account.over().with_unit(units::gram, 2, measure::Rounding::up));
    }
    return words;
}

std::string work_text(const PlannedWork& work) {
    std::string text;
    std::set<std::string> cards;
    for (const PlannedTree& planned : work.trees) {
        if (cards.insert(planned.card.key).second) {
            text += paragraph("Card: " + planned.card.title + " (" + planned.card.key + ")");
            for (const treat::Finding& finding : planned.findings) {
                if (finding.id != treat::example_finding) continue;
                text += paragraph(finding.text, std::string(prefix_of(finding.severity)));
            }
        }
        text += heading_of(planned) + "\n" + amounts_text(planned);
    }
    if (!work.left_out.empty()) {
        text += work.trees.empty() ? "\nSTOP: no dose for\n" : "\nNo dose for\n";
    }
    for (const LeftOut& out : work.left_out) text += paragraph(out.label + ": " + out.why, "  ");
    if (!work.accounts.empty()) text += "\nThe account of the acre\n";
    for (const treat::AcreAccount& account : work.accounts) {
        text += paragraph(account_words(account), "  ");
    }
    return text + "\n" + paragraph(general_caution());
}

std::string work_csv(const PlannedWork& work) {
    std::string csv =
        csv_row({"site",       "tree",         "card",         "example_card", "dbh_in",
                 "girth_in",   "product",      "product_twin", "surfactant",   "surfactant_twin",
                 "carrier",    "carrier_twin", "finished_gal", "active_g",     "active_lb",
                 "bark_sq_ft", "holes",        "stops",        "warnings",     "left_out_because"});
    const auto amount = [](const treat::Dose& dose, Part part, bool twin) {
        const treat::MeasuredAmount* found = dose.find(part);
        return found == nullptr ? std::string() : twin ? found->twin : found->text;
    };
    for (const PlannedTree& planned : work.trees) {
        const treat::Dose& dose = planned.dose;
        csv +=
            csv_row({csv_text_field(work.site.name),
                     csv_text_field(planned.tree.label),
                     csv_plain_field(planned.card.key),
                     planned.card.example ? "yes" : "no",
                     dose.dbh ? dose.dbh->text(units::inch, 2) : "",
                     dose.dbh ? measure::girth_from_diameter(*dose.dbh).text(units::inch, 2) : "",
                     amount(dose, Part::product, false),
                     amount(dose, Part::product, true),
                     amount(dose, Part::surfactant, false),
                     amount(dose, Part::surfactant, true),
                     amount(dose, Part::carrier, false),
                     amount(dose, Part::carrier, true),
                     dose.finished ? dose.finished->text(units::us_gallon, 3) : "",
                     number_of(dose.active, units::gram, 4),
                     number_of(dose.active, units::pound, 6),
                     dose.bark ? dose.bark->text(units::square_foot, 2) : "",
                     dose.holes ? std::to_string(*dose.holes) : "",
                     csv_text_field(findings_of(planned, Severity::stop)),
                     csv_text_field(findings_of(planned, Severity::warning)),
                     ""});
    }
    for (const LeftOut& out : work.left_out) {
        csv += csv_row({csv_text_field(work.site.name),
                        csv_text_field(out.label),
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        "",
                        csv_text_field(out.why)});
    }
    return csv;
}

Json work_json(const PlannedWork& work) {
    Json json{{"site", work.site.name}, {"on", measure::text(work.on)}};
    json["trees"] = Json::array();
    for (const PlannedTree& planned : work.trees) {
        const treat::Dose& dose = planned.dose;
        Json amounts = Json::array();
        for (const treat::MeasuredAmount& amount : dose.amounts) {
            amounts.push_back(
                {{"what", amount.what}, {"amount", amount.text}, {"twin", amount.twin}});
        }
        Json findings = Json::array();
        for (const treat::Finding& finding : all_findings(planned)) {
            findings.push_back({{"id", finding.id},
                                {"stop", finding.severity == Severity::stop},
                                {"warning", finding.severity == Severity::warning},
                                {"text", finding.text}});
        }
        json["trees"].push_back(
            {{"tree", planned.tree.label},
             {"card", planned.card.key},
             {"example_card", planned.card.example},
             {"stopped", planned.stopped()},
             {"dbh_inches", dose.dbh ? Json(dose.dbh->in(units::inch)) : Json(nullptr)},
             {"amounts", std::move(amounts)},
             {"active_grams", dose.active ? Json(dose.active->in(units::gram)) : Json(nullptr)},
             {"active_pounds", dose.active ? Json(dose.active->in(units::pound)) : Json(nullptr)},
             {"bark_square_feet",
              dose.bark ? Json(dose.bark->in(units::square_foot)) : Json(nullptr)},
             {"holes", dose.holes ? Json(*dose.holes) : Json(nullptr)},
             {"findings", std::move(findings)}});
    }
    json["left_out"] = Json::array();
    for (const LeftOut& out : work.left_out) {
        json["left_out"].push_back({{"tree", out.label}, {"because", out.why}});
    }
    json["accounts"] = Json::array();
    for (const treat::AcreAccount& account : work.accounts) {
        json["accounts"].push_back({{"active_ingredient", account.active_ingredient},
                                    {"year", account.year},
                                    {"allowed_grams", account.allowed.in(units::gram)},
                                    {"used_grams", account.used.in(units::gram)},
                                    {"planned_grams", account.planned.in(units::gram)},
                                    {"left_grams", account.left().in(units::gram)}});
    }
    return json;
}

}  // namespace ashtriage::present
