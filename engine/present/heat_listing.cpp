#include "present/heat_listing.hpp"

#include <fmt/format.h>

#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {

using measure::Date;
using weather::HeatDay;
using weather::HeatTotals;

namespace {

std::string station_words(const HeatTotals& totals) {
    return totals.station.empty() ? "a station that is not named" : totals.station;
}

std::string unit(const HeatTotals& totals) {
    return std::string(weather::unit_words(totals.rule.unit));
}

// The last day that is shown: the one asked for, else all that is known.
std::size_t days_shown(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    const auto last = report.of ? totals.date_of(*report.of) : report.to;
    if (!last || !totals.total_on(*last)) return totals.days.size();
    return static_cast<std::size_t>(measure::days_between(totals.first, *last)) + 1;
}

std::string total_of_day(const HeatTotals& totals, const HeatDay& day) {
    return fmt::format("{:.1f} {} on {}", day.total, unit(totals), measure::long_text(day.date));
}

// What is missing, and what would help.
std::string nothing_known(const HeatReport& report) {
    const Date& first = report.totals.first;
    if (!report.first_measured || *report.first_measured <= first) {
        return fmt::format(
            "No day of this season is known: there are no temperatures from {} on. Add them to the "
            "file.",
            measure::long_text(first));
    }
    return fmt::format(
        "No total of this season can be given: it begins on {}, and the first temperatures are "
        "those of {}. Add the days before; or count from a later day with --from, but the "
        "published figures do not hold for such a total.",
        measure::long_text(first), measure::long_text(*report.first_measured));
}

// What is known and does not answer the question, in words.
std::string known_so_far(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    if (totals.days.empty()) return nothing_known(report);
    if (report.from_normals) {
        return "EXPECTED for a whole season, not measured: " +
               total_of_day(totals, totals.days.back()) + ".";
    }
    return "The last day that is known: " + total_of_day(totals, totals.days.back()) + ".";
}

std::string number_of_past(std::size_t seasons) {
    return fmt::format("{} complete past season{}", seasons, seasons == 1 ? "" : "s");
}

std::string projected_date_words(const HeatReport& report, const weather::DateProjection& found) {
    std::string text =
        fmt::format("{:.1f} {} are PROJECTED, not measured", *report.of, unit(report.totals));
    if (found.mean) {
        text += ", for about " + measure::long_text(*found.mean);
    } else {
        text += ": by the mean of past seasons they are not reached before the season ends";
    }
    text += fmt::format(". This goes by how {} went on from the same day of the year",
                        number_of_past(found.seasons));
    if (found.latest) {
        text += fmt::format(": earliest {}, latest {}, standard deviation {:.1f} days",
                            measure::long_text(*found.earliest), measure::long_text(*found.latest),
                            *found.standard_deviation_days);
    } else if (found.earliest) {
        text += fmt::format("; only {} of them would get there, the earliest on {}",
                            found.reached_in, measure::long_text(*found.earliest));
    }
    return text + ".";
}

std::string projected_total_words(const HeatReport& report, const weather::TotalProjection& found) {
    return fmt::format(
        "{:.1f} {} are PROJECTED, not measured, for {}. This goes by how {} went on from the same "
        "day of the year: lowest {:.1f}, highest {:.1f}, standard deviation {:.1f}.",
        found.mean, unit(report.totals), measure::long_text(*report.to),
        number_of_past(found.seasons), found.lowest, found.highest, found.standard_deviation);
}

std::string total_asked_words(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    if (const auto date = totals.date_of(*report.of)) {
        return fmt::format("{:.1f} {} are {} {} ({:.1f} at the end of that day).", *report.of,
                           unit(totals),
                           report.from_normals ? "EXPECTED, not measured, for about" : "reached on",
                           measure::long_text(*date), *totals.total_on(*date));
    }
    if (report.date_projection) return projected_date_words(report, *report.date_projection);
    std::string text = fmt::format("{:.1f} {} are not reached{}.", *report.of, unit(totals),
                                   totals.complete() ? " in this season" : " in what is known");
    if (!totals.complete() && !totals.stopped) {
        text += fmt::format(
            " A projection needs {} complete past seasons of the same place, and there {} {}: add "
            "files with --past.",
            weather::fewest_past_seasons, report.past_seasons == 1 ? "is" : "are",
            report.past_seasons);
    }
    return text;
}

std::string answer_words(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    if (report.of) return total_asked_words(report);
    if (report.total_projection) return projected_total_words(report, *report.total_projection);
    if (report.to) {
        if (const auto total = totals.total_on(*report.to)) {
            return fmt::format("{:.1f} {} {} {}.", *total, unit(totals),
                               report.from_normals ? "are EXPECTED, not measured, for" : "on",
                               measure::long_text(*report.to));
        }
        return fmt::format("The total on {} is not known.", measure::long_text(*report.to));
    }
    return known_so_far(report);
}

bool answered_by_what_is_known(const HeatReport& report) {
    if (report.of) return report.totals.date_of(*report.of).has_value();
    return !report.to || report.totals.total_on(*report.to).has_value();
}

std::string months_table(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    const std::size_t shown = days_shown(report);
    TextTable table({"To the end of", "In the month", "Total"});
    double before = 0.0;
    for (std::size_t i = 0; i < shown; ++i) {
        const HeatDay& day = totals.days[i];
        const bool last = i + 1 == shown;
        if (!last && totals.days[i + 1].date.month() == day.date.month()) continue;
        table.add({measure::text(day.date), fmt::format("{:.1f}", day.total - before),
                   fmt::format("{:.1f}", day.total)});
        before = day.total;
    }
    return table.text();
}

std::vector<std::string> warnings(const HeatReport& report) {
    std::vector<std::string> lines;
    const HeatTotals& totals = report.totals;
    if (totals.stopped) {
        lines.push_back(fmt::format("The total goes no further than the day before {}: {}.",
                                    measure::text(totals.stopped->first_missing),
                                    totals.stopped->why));
    }
    for (const weather::Gap& gap : report.gaps) {
        lines.push_back(gap.days() == 1
                            ? fmt::format("No temperatures on {}.", measure::text(gap.first))
                            : fmt::format("No temperatures from {} to {}, {} days.",
                                          measure::text(gap.first), measure::text(gap.last),
                                          gap.days()));
    }
    if (totals.filled_days > 0) {
        lines.push_back(fmt::format("{} day{} interpolated between {} neighbours, not measured.",
                                    totals.filled_days, totals.filled_days == 1 ? " was" : "s were",
                                    totals.filled_days == 1 ? "its" : "their"));
    }
    lines.insert(lines.end(), report.notes.begin(), report.notes.end());
    return lines;
}

std::string_view basis(const HeatReport& report, const HeatDay& day) {
    if (report.from_normals) return "normals";
    return day.filled ? "filled" : "measured";
}

std::string exact(double value) {
    return fmt::format("{:.6f}", value);
}

// The part of a row that is the same for every day.
std::vector<std::string> rule_fields(const HeatTotals& totals) {
    const weather::HeatRule& rule = totals.rule;
    return {unit(totals),
            std::string(weather::name(rule.method)),
            weather::temperature_words(rule.base, rule.unit),
            measure::text(totals.first),
            std::string(weather::name(rule.cutoff)),
            rule.upper ? weather::temperature_words(*rule.upper, rule.unit) : std::string{},
            csv_text_field(totals.station)};
}

std::string row(std::vector<std::string> fields, const HeatTotals& totals) {
    for (std::string& field : rule_fields(totals)) fields.push_back(std::move(field));
    return csv_row(fields);
}

Json date_or_null(const std::optional<Date>& date) {
    return date ? Json(measure::text(*date)) : Json(nullptr);
}

template <class Number>
Json number_or_null(const std::optional<Number>& number) {
    return number ? Json(*number) : Json(nullptr);
}

Json projection_json(const HeatReport& report) {
    if (const auto& found = report.date_projection) {
        return {{"seasons", found->seasons},
                {"reached_in", found->reached_in},
                {"earliest", date_or_null(found->earliest)},
                {"mean", date_or_null(found->mean)},
                {"latest", date_or_null(found->latest)},
                {"standard_deviation_days", number_or_null(found->standard_deviation_days)}};
    }
    if (const auto& found = report.total_projection) {
        return {{"seasons", found->seasons},
                {"lowest", found->lowest},
                {"mean", found->mean},
                {"highest", found->highest},
                {"standard_deviation", found->standard_deviation}};
    }
    return nullptr;
}

Json asked_json(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    if (report.of)
        return {{"total", *report.of}, {"date", date_or_null(totals.date_of(*report.of))}};
    if (report.to) {
        return {{"date", measure::text(*report.to)},
                {"total", number_or_null(totals.total_on(*report.to))}};
    }
    return nullptr;
}

}  // namespace

std::string heat_text(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    std::string text = paragraph(fmt::format("Heat at {}, season from {}", station_words(totals),
                                             measure::long_text(totals.first)));
    text += paragraph("Reckoned as: " + weather::words(totals.rule) + ".") + "\n";
    text += paragraph(answer_words(report));
    if (!answered_by_what_is_known(report)) text += paragraph(known_so_far(report));
    if (!totals.days.empty()) text += "\n" + months_table(report);
    const auto lines = warnings(report);
    if (!lines.empty()) text += "\n";
    for (const std::string& line : lines) text += paragraph(line, "  - ");
    return text;
}

std::string heat_csv(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    std::string text = csv_row({"date", "degree_days", "total", "basis", "unit", "method", "base",
                                "start", "cutoff", "upper", "station"});
    const std::size_t shown = days_shown(report);
    for (std::size_t i = 0; i < shown; ++i) {
        const HeatDay& day = totals.days[i];
        text += row({measure::text(day.date), exact(day.of_day), exact(day.total),
                     std::string(basis(report, day))},
                    totals);
    }
    if (report.date_projection && report.date_projection->mean) {
        text +=
            row({measure::text(*report.date_projection->mean), "", exact(*report.of), "projected"},
                totals);
    }
    if (report.total_projection) {
        text +=
            row({measure::text(*report.to), "", exact(report.total_projection->mean), "projected"},
                totals);
    }
    return text;
}

std::string heat_json(const HeatReport& report) {
    const HeatTotals& totals = report.totals;
    const weather::HeatRule& rule = totals.rule;
    Json days = Json::array();
    for (std::size_t i = 0; i < days_shown(report); ++i) {
        const HeatDay& day = totals.days[i];
        days.push_back({{"date", measure::text(day.date)},
                        {"degree_days", day.of_day},
                        {"total", day.total},
                        {"basis", basis(report, day)}});
    }
    const Json json = {
        {"station", totals.station},
        {"unit", unit(totals)},
        {"method", weather::name(rule.method)},
        {"base", weather::temperature_words(rule.base, rule.unit)},
        {"start", measure::text(totals.first)},
        {"cutoff", weather::name(rule.cutoff)},
        {"upper",
         rule.upper ? Json(weather::temperature_words(*rule.upper, rule.unit)) : Json(nullptr)},
        {"estimate_from_normals", report.from_normals},
        {"asked", asked_json(report)},
        {"projected", projection_json(report)},
        {"stopped_before",
         totals.stopped ? Json(measure::text(totals.stopped->first_missing)) : Json(nullptr)},
        {"filled_days", totals.filled_days},
        {"past_seasons", report.past_seasons},
        {"notes", warnings(report)},
        {"days", std::move(days)}};
    return json.dump(2) + "\n";
}

}  // namespace ashtriage::present
