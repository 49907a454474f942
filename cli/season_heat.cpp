// season heat: degree days from a file of daily weather.
#include "season_heat.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <memory>
#include <utility>

#include "files.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/heat_listing.hpp"
#include "season/day_of_year.hpp"
#include "season_weather.hpp"
#include "weather/normals.hpp"

namespace ashtriage::cli {

namespace {

using measure::Date;
using measure::InputError;

struct HeatOptions {
    WeatherOptions weather;
    std::string normals;
    std::string to;
    std::string total;
    std::string method{weather::name(weather::HeatMethod::single_sine)};
    std::string base = "50F";
    std::string upper;
    std::string cutoff;
    std::string from = "1 January";
    bool from_said = false;
};

// Degree days come in the unit in which the base is written.
weather::DegreeUnit unit_of(const std::string& temperature) {
    const std::size_t letter = temperature.find_first_not_of("-.0123456789 ");
    const auto* unit = letter == std::string::npos
                           ? nullptr
                           : measure::find_unit<measure::TemperatureDimension>(
                                 packs::trimmed(std::string_view(temperature).substr(letter)));
    return unit == &measure::units::celsius ? weather::DegreeUnit::celsius
                                            : weather::DegreeUnit::fahrenheit;
}

// Whether the start is a date with its year, so that it also says which season is meant.
std::optional<Date> dated_start(const std::string& from) {
    if (from.empty() || from.find('-') == std::string::npos) return std::nullopt;
    return value_of("--from", [&] { return measure::parse_date(from); });
}

weather::HeatRule rule_of(const HeatOptions& asked) {
    weather::HeatRule rule;
    rule.method = value_of("--method", [&] { return weather::parse_heat_method(asked.method); });
    rule.base = value_of("--base", [&] { return measure::parse_temperature(asked.base); });
    rule.unit = unit_of(asked.base);
    if (!asked.upper.empty()) {
        rule.upper = value_of("--upper", [&] { return measure::parse_temperature(asked.upper); });
        rule.cutoff = weather::Cutoff::horizontal;
    }
    if (!asked.cutoff.empty()) {
        rule.cutoff = value_of("--cutoff", [&] { return weather::parse_cutoff(asked.cutoff); });
    }
    if (const auto first = dated_start(asked.from)) {
        rule.start = {first->month(), first->day()};
    } else {
        rule.start = value_of("--from", [&] { return season::parse_day_of_year(asked.from); });
    }
    weather::check(rule);
    return rule;
}

std::optional<Date> first_day(const weather::WeatherSeries& series) {
    const auto first = std::ranges::find_if(series.days, &weather::WeatherDay::has_temperatures);
    if (first == series.days.end()) return std::nullopt;
    return first->date;
}

std::optional<Date> last_day(const weather::WeatherSeries& series) {
    const auto last = std::find_if(series.days.rbegin(), series.days.rend(),
                                   [](const auto& day) { return day.has_temperatures(); });
    if (last == series.days.rend()) return std::nullopt;
    return last->date;
}

Date first_of_season(const HeatOptions& asked, const weather::HeatRule& rule,
                     const std::optional<Date>& to, const std::optional<Date>& last_known) {
    if (const auto first = dated_start(asked.from)) {
        if (to && (*to < *first || *to > weather::season_end(*first))) {
            throw InputError(fmt::format("{} does not lie in the season from {}",
                                         measure::text(*to), measure::text(*first)),
                             "--to");
        }
        return *first;
    }
    const auto within = to ? to : last_known;
    if (!within) {
        throw InputError("no day with both temperatures is known up to the date to answer for",
                         "--weather");
    }
    return weather::season_start(rule.start, *within);
}

// What is not known is projected where there are past seasons enough.
void project(present::HeatReport& report, const std::vector<weather::HeatTotals>& past) {
    const weather::HeatTotals& totals = report.totals;
    report.past_seasons = past.size();
    if (totals.stopped || totals.complete()) return;
    if (report.of && !totals.date_of(*report.of) && past.size() >= weather::fewest_past_seasons) {
        report.date_projection = weather::project_date(totals, *report.of, past);
    }
    if (report.to && !totals.total_on(*report.to)) {
        report.total_projection = weather::project_total(totals, *report.to, past);
    }
}

ExitCode print(const Options& options, const present::HeatReport& report) {
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::heat_text(report);
            break;
        case Format::csv:
            std::cout << present::heat_csv(report);
            break;
        case Format::json:
            std::cout << present::heat_json(report);
            break;
    }
    // A gap before the answer leaves the question open.
    const bool known = report.of   ? report.totals.date_of(*report.of).has_value()
                       : report.to ? report.totals.total_on(*report.to).has_value()
                                   : !report.totals.stopped;
    return report.totals.stopped && !known ? ExitCode::bad_input : ExitCode::done;
}

present::HeatReport from_normals(const Options& options, const HeatOptions& asked,
                                 const weather::HeatRule& rule, present::HeatReport report) {
    const auto normals = weather::read_normals(read_file(asked.normals, most_weather_bytes),
                                               asked.normals, asked.weather.station);
    const Date first = first_of_season(asked, rule, report.to, options.date());
    report.totals = weather::expected_totals(normals, rule, first);
    report.from_normals = true;
    report.notes.emplace_back(
        "ESTIMATE from the usual temperatures of each month, not from this year's weather. The "
        "usual spread from day to day was added, for smooth means count too little heat in spring. "
        "Early and late years differ from it by weeks.");
    return report;
}

// Where winter is in July, 1 January lies in the middle of a season.
void require_southern_start(const HeatOptions& asked, const weather::WeatherSeries& series) {
    const std::string southern = southern_words(series);
    if (southern.empty() || asked.from_said) return;
    throw InputError(fmt::format("the weather is that of the southern half of the earth ({}), "
                                 "where a season does not begin on 1 January",
                                 southern),
                     "--from",
                     "say when it begins, such as --from \"1 July\"; or --from \"1 January\", if "
                     "that is meant");
}

present::HeatReport from_weather(const Options& options, const HeatOptions& asked,
                                 const weather::HeatRule& rule, present::HeatReport report) {
    WeatherFiles files(options, asked.weather);
    const weather::WeatherSeries series = files.read();
    require_southern_start(asked, series);
    const Date first = first_of_season(asked, rule, report.to, last_day(series));
    report.totals = weather::add_up(series, rule, first);
    report.first_measured = first_day(series);
    for (const weather::Gap& gap : weather::gaps(series)) {
        if (gap.last >= first && gap.first <= weather::season_end(first))
            report.gaps.push_back(gap);
    }
    const auto past = files.past_seasons(series, rule, first);
    files.hold_against_past(report.totals, past);
    report.notes = files.notes();
    project(report, past);
    return report;
}

ExitCode run(const Options& options, const HeatOptions& asked) {
    const weather::HeatRule rule = rule_of(asked);
    present::HeatReport report;
    if (!asked.to.empty()) {
        report.to = value_of("--to", [&] { return measure::parse_date(asked.to); });
    }
    if (!asked.total.empty()) {
        report.of = value_of("--total", [&] { return measure::require_number(asked.total); });
        if (*report.of <= 0.0) {
            throw InputError(fmt::format("a total of {} is no amount of heat", asked.total),
                             "--total", "give degree days above zero, such as 450");
        }
    }
    return print(options, asked.normals.empty()
                              ? from_weather(options, asked, rule, std::move(report))
                              : from_normals(options, asked, rule, std::move(report)));
}

}  // namespace

void add_season_heat(CLI::App& season, Selection& selection) {
    auto asked = std::make_shared<HeatOptions>();
    CLI::App* command = season.add_subcommand(
        "heat", "Degree days from a file of daily weather: to a day, or the day of a total");
    command->fallthrough();
    const auto [weather, past] = add_weather_options(*command, asked->weather);
    CLI::Option* normals = command->add_option(
        "--normals", asked->normals,
        "Instead: the usual temperatures of each month, for an estimate (CSV with "
        "month,tmin_f,tmax_f,spread_f)");
    CLI::Option* to = command->add_option("--to", asked->to, "The total at the end of this day")
                          ->type_name("YYYY-MM-DD");
    CLI::Option* total =
        command->add_option("--total", asked->total, "The day on which this many are reached");
    std::vector<std::string> names;
    for (const weather::HeatMethod method : weather::all_heat_methods()) {
        names.emplace_back(weather::name(method));
    }
    command->add_option("--method", asked->method, packs::joined(names))->capture_default_str();
    command
        ->add_option("--base", asked->base,
                     "The lower threshold; degree days come in its unit, F or C")
        ->capture_default_str();
    command->add_option("--upper", asked->upper, "An upper threshold (default: none)");
    command->add_option("--cutoff", asked->cutoff,
                        "Above it: horizontal (the default), intermediate or vertical");
    const CLI::Option* from =
        command
            ->add_option("--from", asked->from,
                         "The first day, such as \"1 March\", or a date that names the season")
            ->capture_default_str();
    // Told here and not to CLI11, which would crowd the help with it.
    const std::vector<std::pair<CLI::Option*, CLI::Option*>> apart{
        {weather, normals}, {past, normals}, {to, total}};
    command->callback([&selection, asked, weather = weather, normals, from, apart] {
        if (weather->empty() && normals->empty()) throw CLI::RequiredError("--weather");
        for (const auto& [one, other] : apart) {
            if (!one->empty() && !other->empty()) {
                throw CLI::ExcludesError(one->get_name(), other->get_name());
            }
        }
        asked->from_said = !from->empty();
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
