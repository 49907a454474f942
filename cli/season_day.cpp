// season day: whether a day lets a method be used.
#include "season_day.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <memory>
#include <utility>

#include "files.hpp"
#include "knowledge.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/words.hpp"
#include "plan/read_day_rules.hpp"
#include "plan/read_method_facts.hpp"
#include "present/spray_day_listing.hpp"
#include "treat/card_choice.hpp"
#include "treat/local_time.hpp"
#include "weather/weather_check.hpp"

namespace ashtriage::cli {

namespace {

using measure::InputError;
using std::chrono::minutes;
namespace units = measure::units;

// A month of hours is far smaller.
constexpr std::size_t most_bytes = std::size_t{4} << 20U;
constexpr minutes longest_said{240 * 60};

struct DayOptions {
    std::string on;
    std::string at;
    std::string until;
    std::string method;
    std::string card;
    std::string forecast;
    std::string columns;
    std::string wind;
    std::string temperature;
    std::string no_rain_for;
    std::string rain_in;
    std::string chance_taken;
    std::string soil;
    std::string bark;
    std::string leaves;
    std::string bloom;
    std::string bees;
    std::string inversion;
    bool certified = false;
};

std::optional<bool> either(const std::string& said, std::string_view yes) {
    if (said.empty()) return std::nullopt;
    return said == yes;
}

// "24 h", "90 min".
minutes parse_hours(std::string_view text) {
    const std::string_view whole = packs::trimmed(text);
    const std::size_t unit_at = whole.find_first_not_of("0123456789.");
    const std::string unit =
        unit_at == std::string_view::npos ? "" : packs::normalised(whole.substr(unit_at));
    const bool hours = unit == "h" || unit == "hour" || unit == "hours";
    if (!hours && unit != "min" && unit != "minutes") {
        throw InputError(fmt::format("'{}' is not a number of hours", text), {},
                         "Write it like \"24 h\" or \"90 min\".");
    }
    const double number = measure::require_number(packs::trimmed(whole.substr(0, unit_at)));
    const double in_minutes = hours ? number * 60.0 : number;
    if (in_minutes > static_cast<double>(longest_said.count())) {
        throw InputError(fmt::format("'{}' is longer than any forecast", text), {},
                         fmt::format("Give no more than {} h.", longest_said.count() / 60));
    }
    // Rounded down: a part of a minute less is dry.
    return minutes(static_cast<int>(in_minutes));
}

// What lies beyond the world's records is a slip or another unit.
template <class Quantity, class Unit>
Quantity believable(const std::string& option, const Quantity& value, const Unit& unit,
                    weather::Element element, std::string_view written) {
    weather::Reading reading;
    reading.element = element;
    reading.value = value.in(unit);
    reading.unit = weather::find_element_unit(element, written);
    if (const auto impossible = weather::beyond_records(reading, option)) {
        throw InputError(impossible->message, option, impossible->hint);
    }
    return value;
}

weather::Stretch work_of(const Options& options, const DayOptions& asked,
                         std::vector<std::string>& notes) {
    const measure::Date date =
        asked.on.empty() ? options.date()
                         : value_of("--on", [&] { return measure::parse_date(asked.on); });
    constexpr int noon = 12 * 60;
    int at = noon;
    if (!asked.at.empty()) {
        at = value_of("--at", [&] { return treat::parse_local_time(asked.at).minutes; });
    } else if (!asked.forecast.empty() || !asked.until.empty()) {
        throw InputError("A forecast is looked up for a time of day", "--at",
                         "Say when the work begins: --at 09:00.");
    } else {
        notes.emplace_back("No time of day was given (--at), so 12:00 stands for it.");
    }
    int until = at;
    if (!asked.until.empty()) {
        until = value_of("--until", [&] { return treat::parse_local_time(asked.until).minutes; });
        if (until < at) {
            throw InputError("The work would end before it begins", "--until",
                             "Give a later time of the same day.");
        }
    }
    return {weather::moment(date, minutes(at)), weather::moment(date, minutes(until))};
}

weather::ForecastPeriod said_of_rain(weather::Moment from, minutes length, int chance) {
    weather::ForecastPeriod period;
    period.time = {from, from + length};
    period.rain_chance = measure::Percent::of(static_cast<double>(chance), units::percent);
    return period;
}

// What was said of rain, as a forecast that begins with the work.
void add_rain_said(const DayOptions& asked, weather::Moment from, weather::Forecast& forecast) {
    if (!asked.no_rain_for.empty()) {
        const minutes dry =
            value_of("--no-rain-for", [&] { return parse_hours(asked.no_rain_for); });
        forecast.periods.push_back(said_of_rain(from, dry, 0));
    }
    if (!asked.rain_in.empty()) {
        const minutes dry = value_of("--rain-in", [&] { return parse_hours(asked.rain_in); });
        forecast.periods.push_back(said_of_rain(from, dry, 0));
        forecast.periods.push_back(said_of_rain(from + dry, minutes(1), 100));
    }
}

plan::DayFacts facts_of(const Options& options, const DayOptions& asked,
                        std::vector<std::string>& notes) {
    plan::DayFacts day;
    day.work = work_of(options, asked, notes);
    day.end_known = !asked.until.empty();
    if (!asked.forecast.empty()) {
        day.forecast = weather::read_forecast(read_file(asked.forecast, most_bytes), asked.forecast,
                                              asked.columns);
    }
    add_rain_said(asked, day.work.from, day.forecast);
    if (!asked.wind.empty()) {
        const auto wind = value_of("--wind", [&] { return measure::parse_speed(asked.wind); });
        day.wind = believable("--wind", wind, units::mile_per_hour, weather::Element::wind, "mph");
    }
    if (!asked.temperature.empty()) {
        const auto temperature = value_of(
            "--temperature", [&] { return measure::parse_temperature(asked.temperature); });
        day.temperature = believable("--temperature", temperature, units::fahrenheit,
                                     weather::Element::minimum, "f");
    }
    if (!asked.chance_taken.empty()) {
        day.chance_taken =
            value_of("--chance-taken", [&] { return measure::parse_percent(asked.chance_taken); });
        if (day.chance_taken.in(units::percent) >= 50.0) {
            throw InputError("Rain that is more likely than not is never taken for none",
                             "--chance-taken", "Give less than 50 %.");
        }
        notes.push_back(
            fmt::format("A chance of rain of up to {} is taken for none, as you said; "
                        "no source gives such a figure.",
                        day.chance_taken.with_unit(units::percent, 0)));
    }
    for (const treat::SoilState state : {treat::SoilState::dry, treat::SoilState::moist,
                                         treat::SoilState::saturated, treat::SoilState::frozen}) {
        if (asked.soil == treat::words(state)) day.soil = state;
    }
    day.bark_dry = either(asked.bark, "dry");
    day.leaves_out = either(asked.leaves, "out");
    day.in_bloom = either(asked.bloom, "yes");
    day.bees = either(asked.bees, "yes");
    day.inversion = either(asked.inversion, "yes");
    if (asked.certified) day.certified = true;
    return day;
}

// The card asked for, else that of the method, a card of one's own before an example; or null.
const treat::LabelCard* card_of(const present::Knowledge& knowledge, const DayOptions& asked) {
    if (asked.card.empty()) return treat::card_for_method(knowledge.cards, asked.method);
    const treat::LabelCard* card =
        value_of("--card", [&] { return &find_card(knowledge, asked.card); });
    if (!asked.method.empty() && asked.method != card->method) {
        throw InputError(
            fmt::format("The card \"{}\" is for the method {}", card->key, card->method), "--card",
            "Leave --method out, or name a card for it.");
    }
    return card;
}

std::optional<plan::SeasonOfDay> season_of(const present::Knowledge& knowledge,
                                           const std::string& method,
                                           const std::optional<season::Location>& place,
                                           const measure::Date& date) {
    const season::Seasons& seasons = knowledge.seasons;
    const auto found = std::ranges::find(seasons.methods, method, &season::MethodSeason::method);
    if (found == seasons.methods.end()) return std::nullopt;
    return plan::SeasonOfDay{
        &*found,
        season::window_for(seasons, method, place, static_cast<int>(date.year()), knowledge.year),
        place.has_value()};
}

ExitCode run(const Options& options, const DayOptions& asked, const YearOptions& year) {
    present::Knowledge knowledge = load_knowledge(options);
    std::optional<season::Location> place = location_of(options, year);
    const packs::RuleSet& rules = knowledge.judge.rules();
    const auto files = packs::rule_files(options.rules);
    const auto methods = plan::read_method_facts(files, rules, knowledge.seasons);
    std::vector<std::string> names;
    for (const plan::MethodFacts& method : methods) names.push_back(method.method);
    const auto day_rules = plan::read_day_rules(files, rules.sources, names);

    present::SprayDayReport report;
    knowledge.year =
        known_year(options, year.year, knowledge.seasons, places_of(place), report.notes);
    place = place_beside_station(place, knowledge.year, report.notes);
    const plan::DayFacts day = facts_of(options, asked, report.notes);
    const treat::LabelCard* card = card_of(knowledge, asked);
    report.method = card != nullptr ? card->method : asked.method;
    const plan::DayRules* of_method =
        value_of("--method", [&] { return &plan::day_rules_for(day_rules, report.method); });
    report.title = std::ranges::find(methods, report.method, &plan::MethodFacts::method)->title;
    if (card != nullptr) {
        report.card = card->key;
        report.example_card = card->example;
    }
    report.work = day.work;
    if (!place) {
        report.notes.push_back("No place was given, so the dates are those of " +
                               knowledge.seasons.anchor.name + ".");
    }
    const auto season = season_of(knowledge, report.method, place, weather::date_of(day.work.from));
    if (season && season->window) {
        std::ranges::copy(season->window->cautions, std::back_inserter(report.notes));
    }
    report.day = plan::screen_day(*of_method, card, season, day);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::spray_day_text(report, rules);
            break;
        case Format::csv:
            std::cout << present::spray_day_csv(report);
            break;
        case Format::json:
            std::cout << present::spray_day_json(report);
            break;
    }
    return report.day.answer() == plan::DayAnswer::no_go ? ExitCode::finding : ExitCode::done;
}

void add_conditions(CLI::App& command, DayOptions& asked) {
    const auto yes_no = CLI::IsMember({"yes", "no"});
    command.add_option("--wind", asked.wind, "Measured on the spot: \"6 mph\"");
    command.add_option("--temperature", asked.temperature, "Of the air, measured: \"66 F\"");
    command.add_option("--no-rain-for", asked.no_rain_for,
                       "No rain is forecast for so long after the work begins: \"24 h\"");
    command.add_option("--rain-in", asked.rain_in,
                       "Rain is forecast so long after the work begins: \"6 h\"");
    command.add_option("--chance-taken", asked.chance_taken,
                       "A chance of rain that you take for none: \"10 %\" (default: 0 %)");
    command.add_option("--soil", asked.soil, "dry, moist, saturated or frozen")
        ->check(CLI::IsMember({"dry", "moist", "saturated", "frozen"}));
    command.add_option("--bark", asked.bark, "dry or wet")->check(CLI::IsMember({"dry", "wet"}));
    command.add_option("--leaves", asked.leaves, "out (fully) or not-out")
        ->check(CLI::IsMember({"out", "not-out"}));
    command.add_option("--bloom", asked.bloom, "The tree or its root zone is in bloom: yes or no")
        ->check(yes_no);
    command.add_option("--bees", asked.bees, "Bees forage near by: yes or no")->check(yes_no);
    command.add_option("--inversion", asked.inversion, "There is an inversion: yes or no")
        ->check(yes_no);
}

}  // namespace

void add_season_day(CLI::App& season, Selection& selection,
                    const std::shared_ptr<const YearOptions>& year) {
    auto asked = std::make_shared<DayOptions>();
    CLI::App* command = season.add_subcommand(
        "day", "Whether a day and its forecast let a method be used: go, no-go or check");
    command->fallthrough();
    command->add_option("--method", asked->method, "Such as basal_spray_dinotefuran");
    command->add_option("--card", asked->card,
                        "A label card; without it that of the method, your own before an example");
    command->add_option("--on", asked->on, "The day (default: --as-of)")->type_name("YYYY-MM-DD");
    command->add_option("--at", asked->at, "When the work begins, such as 09:00");
    command->add_option("--until", asked->until, "When it ends, on the same day");
    command->add_option("--forecast", asked->forecast,
                        "A CSV file with time (or date), temp_f, wind_mph, rain_in, "
                        "rain_chance_percent, or other units");
    command->add_option(
        "--columns", asked->columns,
        "What foreign columns hold: \"time=WHEN, temp=T:C, wind=W:kmh, rain=R:mm\"");
    add_conditions(*command, *asked);
    command->add_flag("--certified", asked->certified,
                      "A certified applicator applies or supervises it");
    command->callback([&selection, asked, year] {
        if (asked->method.empty() && asked->card.empty()) {
            throw CLI::RequiredError("--method or --card");
        }
        selection.action = [asked, year](const Options& options) {
            return run(options, *asked, *year);
        };
    });
}

}  // namespace ashtriage::cli
