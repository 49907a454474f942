#include "season/read_calendar.hpp"

#include <fmt/format.h>

#include <tuple>
#include <utility>

#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "season/day_of_year.hpp"
#include "season/read_whole_number.hpp"

namespace ashtriage::season {

using packs::Fields;
using packs::Node;

namespace {

// Far more than any year brings where ash grows.
constexpr double most_degree_days = 10000.0;

class CalendarReader {
 public:
    CalendarReader(const Node& node, const std::vector<packs::Source>& known_sources,
                   const packs::YamlSource& source)
        : source_(source), top_(node, "the calendar", source), known_sources_(known_sources) {}

    Calendar read() {
        Calendar calendar;
        read_reckoning(calendar);
        if (const Node* node = top_.mapping("give_or_take")) {
            Fields fields(*node, "'give_or_take'", source_);
            calendar.give_or_take_days = read_whole_number(fields, "days", {0.0, 60.0});
            calendar.give_or_take_sources = sources(fields);
            fields.refuse_others();
        }
        if (const Node* node = top_.mapping("leaf_out")) {
            Fields fields(*node, "'leaf_out'", source_);
            calendar.leaf_out = fields.text("says");
            calendar.leaf_out_sources = sources(fields);
            fields.refuse_others();
        }
        if (const Node* events = top_.mapping("events")) {
            for (const packs::Entry& entry : events->entries) {
                calendar.events.push_back(read_event(entry));
            }
        }
        if (const Node* regions = top_.list_or_null("regions")) {
            for (const Node& item : regions->items) {
                Fields fields(item, "an entry of 'regions'", source_);
                if (!fields.is_mapping()) continue;
                RegionDates region{fields.text("region"), fields.text("says"), sources(fields)};
                fields.refuse_others();
                calendar.regions.push_back(std::move(region));
            }
        }
        top_.refuse_others();
        return calendar;
    }

 private:
    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    void read_reckoning(Calendar& calendar) {
        const Node* node = top_.mapping("degree_days");
        if (node == nullptr) return;
        Fields fields(*node, "'degree_days'", source_);
        const auto base = fields.parsed(
            "base", [](std::string_view text) { return measure::parse_temperature(text); });
        calendar.base = base.value_or(measure::Temperature());
        calendar.start =
            fields.parsed("from", parse_day_of_year).value_or(std::chrono::month_day{});
        calendar.how = fields.text("says");
        calendar.sources = sources(fields);
        fields.refuse_others();
    }

    std::pair<double, double> read_band(Fields& fields) {
        const double from = fields.number("from", {0.0, most_degree_days});
        const double to = fields.number("to", {0.0, most_degree_days});
        if (from > to) {
            fields.refuse(
                "to", "band-out-of-order",
                fmt::format("{} ends at {:g}, before it begins at {:g}", fields.what(), to, from),
                "give the lower figure as 'from'");
        }
        return {from, to};
    }

    CalendarEvent read_event(const packs::Entry& entry) {
        CalendarEvent event;
        event.name = entry.key;
        Fields fields(entry.value, fmt::format("the event '{}'", entry.key), source_);
        if (!fields.is_mapping()) return event;
        event.title = fields.text("title");
        event.of = static_cast<EventOf>(fields.choice("of", {"borer", "plant"}));
        std::tie(event.from, event.to) = read_band(fields);
        event.cue = fields.yes_no_or("cue", false);
        event.note = fields.text_or("note", "");
        event.sources = sources(fields);
        if (const Node* figures = fields.list("figures")) {
            for (const Node& item : figures->items) {
                Fields figure(item, fmt::format("a figure of {}", fields.what()), source_);
                if (!figure.is_mapping()) continue;
                const auto [from, to] = read_band(figure);
                event.figures.push_back({from, to, figure.text_or("says", ""), sources(figure)});
                figure.refuse_others();
            }
            if (event.figures.empty()) {
                fields.refuse("figures", "no-figure",
                              fmt::format("{} has no published figure", fields.what()),
                              "give at least one, with its source");
            }
        }
        fields.refuse_others();
        return event;
    }

    const packs::YamlSource& source_;
    Fields top_;
    const std::vector<packs::Source>& known_sources_;
};

}  // namespace

Calendar read_calendar(const Node& node, const std::vector<packs::Source>& known_sources,
                       const packs::YamlSource& source) {
    return CalendarReader(node, known_sources, source).read();
}

}  // namespace ashtriage::season
