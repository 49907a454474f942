#include "season/read_seasons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::season {

using packs::Fields;
using packs::Node;

namespace {

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

// A year without 29 February: the days of a window exist in every year.
constexpr std::chrono::year common_year{2023};

measure::Date in_common_year(std::chrono::month_day day) {
    return {common_year, day.month(), day.day()};
}

class SeasonsReader {
 public:
    SeasonsReader(const Node& root, const std::string& file,
                  const std::vector<packs::Source>& sources, packs::Problems& problems)
        : source_{file, problems},
          top_(root, "the seasons file", source_),
          known_sources_(sources) {}

    Seasons read() {
        Seasons seasons;
        const std::string name = top_.text("seasons");
        if (!name.empty() && name != "ash-treatment") {
            top_.refuse("seasons", "unknown-value",
                        fmt::format("'seasons' is '{}'; expected 'ash-treatment'", name));
        }
        seasons.edition = top_.text("edition");
        read_anchor(seasons.anchor);
        read_give_or_take(seasons);
        if (const Node* methods = top_.mapping("methods")) {
            for (const packs::Entry& entry : methods->entries) {
                seasons.methods.push_back(read_method(entry));
            }
        }
        if (const Node* list = top_.list_or_null("not_offered")) {
            for (const Node& item : list->items) read_not_offered(item, seasons);
        }
        top_.refuse_others();
        return seasons;
    }

 private:
    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    void read_anchor(Anchor& anchor) {
        const Node* node = top_.mapping("anchor");
        if (node == nullptr) return;
        Fields fields(*node, "the anchor", source_);
        anchor.name = fields.text("name");
        anchor.latitude = fields.number("latitude", {0.0, 90.0});
        anchor.longitude = fields.number("longitude", {-180.0, 0.0});
        const auto elevation = fields.parsed(
            "elevation", [](std::string_view text) { return measure::parse_length(text); });
        anchor.elevation = elevation.value_or(measure::Length());
        anchor.sources = sources(fields);
        fields.refuse_others();
    }

    void read_give_or_take(Seasons& seasons) {
        const Node* node = top_.mapping("estimate_days");
        if (node == nullptr) return;
        Fields fields(*node, "'estimate_days'", source_);
        const double days = fields.number("days", {0.0, 60.0});
        seasons.give_or_take_days = static_cast<int>(days);
        if (static_cast<double>(seasons.give_or_take_days) != days) {
            fields.refuse("days", "not-a-whole-number",
                          fmt::format("'days' is {}; expected a whole number", days));
        }
        seasons.give_or_take_sources = sources(fields);
        fields.refuse_others();
    }

    AnchoredDay read_day(Fields& method, std::string_view name) {
        AnchoredDay anchored;
        const Node* node = method.mapping(name);
        if (node == nullptr) return anchored;
        Fields fields(*node, fmt::format("'{}' of {}", name, method.what()), source_);
        anchored.day = fields.parsed("date", parse_day_of_year).value_or(std::chrono::month_day{});
        anchored.moves = fields.yes_no("moves");
        anchored.sources = sources(fields);
        fields.refuse_others();
        return anchored;
    }

    void read_never_in(Fields& fields, MethodSeason& season) {
        const Node* list = fields.list("never_in");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            const auto time = packs::read_choice(item, "an entry of 'never_in'",
                                                 {"spring", "summer", "autumn", "winter"}, source_);
            if (time) season.never_in.push_back(static_cast<TimeOfYear>(*time));
        }
        if (!contains(season.never_in, TimeOfYear::winter)) {
            fields.refuse(
                "never_in", "winter-allowed",
                fmt::format("{} does not leave out winter", fields.what()),
                "no method is used in winter, on dormant trees or frozen soil: add winter");
        }
    }

    static bool contains(const std::vector<TimeOfYear>& times, TimeOfYear time) {
        return std::find(times.begin(), times.end(), time) != times.end();
    }

    void check_days(Fields& fields, const MethodSeason& season) {
        const std::array<std::pair<std::string_view, std::chrono::month_day>, 3> days{
            {{"opens", season.opens.day},
             {"best_until", season.best_until.day},
             {"closes", season.closes.day}}};
        // A day that could not be read has been reported already.
        if (std::any_of(days.begin(), days.end(),
                        [](const auto& each) { return !each.second.ok(); }))
            return;
        for (const auto& [name, day] : days) {
            const TimeOfYear time = time_of_year(in_common_year(day));
            if (!contains(season.never_in, time)) continue;
            fields.refuse(name, "day-in-never",
                          fmt::format("'{}' of {} lies in {}, which 'never_in' leaves out", name,
                                      fields.what(), words(time)),
                          "change the date, or take it out of 'never_in'");
        }
        if (season.opens.day > season.best_until.day || season.best_until.day > season.closes.day) {
            fields.refuse(
                "opens", "days-out-of-order",
                fmt::format("{} does not open, reach the end of its better part and close "
                            "in this order",
                            fields.what()),
                "put 'opens', 'best_until' and 'closes' in the order of the year");
        }
    }

    MethodSeason read_method(const packs::Entry& entry) {
        MethodSeason season;
        season.method = entry.key;
        Fields fields(entry.value, fmt::format("the method '{}'", entry.key), source_);
        if (!fields.is_mapping()) return season;
        season.title = fields.text("title");
        season.opens = read_day(fields, "opens");
        season.best_until = read_day(fields, "best_until");
        season.closes = read_day(fields, "closes");
        read_never_in(fields, season);
        season.why_never = fields.text("why_never");
        season.sources = sources(fields);
        if (const Node* list = fields.list("needs")) {
            for (const Node& item : list->items) {
                Fields need(item, fmt::format("a need of {}", fields.what()), source_);
                if (!need.is_mapping()) continue;
                std::string text = need.text("text");
                season.needs.push_back({std::move(text), sources(need)});
                need.refuse_others();
            }
        }
        fields.refuse_others();
        check_days(fields, season);
        return season;
    }

    void read_not_offered(const Node& item, Seasons& seasons) {
        Fields fields(item, "an entry of 'not_offered'", source_);
        if (!fields.is_mapping()) return;
        NotOffered left_out;
        left_out.title = fields.text("title");
        left_out.why = fields.text("why");
        left_out.sources = sources(fields);
        fields.refuse_others();
        seasons.not_offered.push_back(std::move(left_out));
    }

    packs::YamlSource source_;
    Fields top_;
    const std::vector<packs::Source>& known_sources_;
};

}  // namespace

std::chrono::month_day parse_day_of_year(std::string_view text) {
    const auto refuse = [&](const char* why) {
        throw measure::InputError(fmt::format("'{}' {}", text, why), {},
                                  "write the day and the month's name, such as 15 May");
    };
    const std::size_t blank = text.find(' ');
    if (blank == std::string_view::npos) refuse("is not a day and a month");
    const auto month = std::find(months.begin(), months.end(), text.substr(blank + 1));
    if (month == months.end()) refuse("does not end in the name of a month");
    const auto day = measure::parse_number(text.substr(0, blank));
    if (!day || *day < 1.0 || *day > 31.0 || *day != static_cast<int>(*day)) {
        refuse("does not begin with a day of the month");
    }
    const std::chrono::month_day found{
        std::chrono::month(static_cast<unsigned>(month - months.begin()) + 1),
        std::chrono::day(static_cast<unsigned>(*day))};
    if (!in_common_year(found).ok()) refuse("is not a day that every year has");
    return found;
}

Seasons read_seasons(const std::vector<packs::RuleFile>& files,
                     const std::vector<packs::Source>& sources) {
    const packs::RuleFile* file = packs::find_rule_file(files, "seasons.yaml");
    if (file == nullptr) {
        throw measure::InputError("there is no file 'seasons.yaml' among the rule files");
    }
    packs::Problems problems;
    problems.add_file(file->shown_name(), file->text);
    const Node root = packs::read_yaml(file->text, file->shown_name(), problems);
    problems.throw_if_any();
    Seasons seasons = SeasonsReader(root, file->shown_name(), sources, problems).read();
    problems.throw_if_any();
    return seasons;
}

}  // namespace ashtriage::season
