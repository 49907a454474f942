#include "season/read_method_season.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "measure/parse.hpp"
#include "packs/sources.hpp"
#include "season/day_of_year.hpp"
#include "season/read_whole_number.hpp"

namespace ashtriage::season {

using packs::Fields;
using packs::Node;

namespace {

// A mark lies within one season of its event.
constexpr packs::Bounds mark_days{-120.0, 120.0};
constexpr packs::Bounds heat_totals{1.0, 10000.0};

using NamedEnd = std::pair<std::string_view, const AnchoredDay*>;

class MethodReader {
 public:
    MethodReader(const Node& node, const std::string& what, const Calendar& calendar,
                 const std::vector<packs::Source>& known_sources, const packs::YamlSource& source)
        : source_(source),
          fields_(node, what, source),
          calendar_(calendar),
          known_sources_(known_sources) {}

    MethodSeason read(const std::string& method) {
        MethodSeason season;
        season.method = method;
        if (!fields_.is_mapping()) return season;
        const std::size_t problems_before = source_.problems.size();
        season.title = fields_.text("title");
        season.opens = read_end("opens");
        season.best_until = read_end("best_until");
        season.closes = read_end("closes");
        read_never_in(season);
        season.why_never = fields_.text("why_never");
        season.sources = sources(fields_);
        read_needs(season);
        read_larger_stems(season);
        if (const Node* node = fields_.mapping_or_null("again")) {
            Fields again(*node, fmt::format("'again' of {}", fields_.what()), source_);
            season.again = Repeat{read_whole_number(again, "days", {1.0, 120.0}), sources(again)};
            again.refuse_others();
        }
        fields_.refuse_others();
        check_days(season);
        // A mark that could not be read has been reported already.
        if (source_.problems.size() == problems_before) check_marks(season);
        return season;
    }

 private:
    SourceKeys sources(Fields& fields) {
        return packs::read_source_keys(fields, "source", known_sources_);
    }

    void read_mark(Fields& fields, Mark& mark) {
        if (fields.has("days")) mark.days = read_whole_number(fields, "days", mark_days);
        mark.included = fields.yes_no("included");
        mark.sources = sources(fields);
        fields.refuse_others();
    }

    HeatMark read_heat(const Node& node, const std::string& what) {
        HeatMark mark;
        Fields fields(node, what, source_);
        mark.degree_days = fields.number("degree_days", heat_totals);
        read_mark(fields, mark);
        return mark;
    }

    CueMark read_cue(const Node& node, const std::string& what) {
        CueMark mark;
        Fields fields(node, what, source_);
        mark.cue = fields.text("cue");
        const auto found = std::ranges::find(calendar_.events, mark.cue, &CalendarEvent::name);
        if (!mark.cue.empty() && (found == calendar_.events.end() || !found->cue)) {
            std::vector<std::string> names;
            for (const CalendarEvent& event : calendar_.events) {
                if (event.cue) names.push_back(event.name);
            }
            fields.refuse("cue", "unknown-cue",
                          fmt::format("the calendar has no cue '{}'", mark.cue),
                          packs::nearest_hint(mark.cue, names));
        }
        read_mark(fields, mark);
        return mark;
    }

    AnchoredDay read_end(std::string_view name) {
        AnchoredDay end;
        const Node* node = fields_.mapping(name);
        if (node == nullptr) return end;
        const std::string what = fmt::format("'{}' of {}", name, fields_.what());
        Fields fields(*node, what, source_);
        end.day = fields.parsed("date", parse_day_of_year).value_or(std::chrono::month_day{});
        end.moves = fields.yes_no("moves");
        end.sources = sources(fields);
        if (const Node* heat = fields.mapping_or_null("by_heat")) {
            end.heat = read_heat(*heat, "'by_heat' of " + what);
        }
        if (const Node* cue = fields.mapping_or_null("by_cue")) {
            end.cue = read_cue(*cue, "'by_cue' of " + what);
        }
        if (const Node* leaf_out = fields.mapping_or_null("by_leaf_out")) {
            end.leaf_out.emplace();
            Fields mark(*leaf_out, "'by_leaf_out' of " + what, source_);
            read_mark(mark, *end.leaf_out);
        }
        fields.refuse_others();
        return end;
    }

    void read_never_in(MethodSeason& season) {
        const Node* list = fields_.list("never_in");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            const auto time = packs::read_choice(item, "an entry of 'never_in'",
                                                 {"spring", "summer", "autumn", "winter"}, source_);
            if (time) season.never_in.push_back(static_cast<TimeOfYear>(*time));
        }
        if (std::ranges::find(season.never_in, TimeOfYear::winter) == season.never_in.end()) {
            fields_.refuse(
                "never_in", "winter-allowed",
                fmt::format("{} does not leave out winter", fields_.what()),
                "no method is used in winter, on dormant trees or frozen soil: add winter");
        }
    }

    void read_needs(MethodSeason& season) {
        const Node* list = fields_.list("needs");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            Fields need(item, fmt::format("a need of {}", fields_.what()), source_);
            if (!need.is_mapping()) continue;
            std::string text = need.text("text");
            season.needs.push_back({std::move(text), sources(need)});
            need.refuse_others();
        }
    }

    void read_larger_stems(MethodSeason& season) {
        const Node* node = fields_.mapping_or_null("larger_stems");
        if (node == nullptr) return;
        const std::string what = fmt::format("'larger_stems' of {}", fields_.what());
        Fields fields(*node, what, source_);
        LargerStems larger;
        larger.over =
            fields.parsed("over", [](std::string_view text) { return measure::parse_length(text); })
                .value_or(measure::Length());
        if (const Node* best = fields.mapping("best_until")) {
            larger.best_until = read_heat(*best, "'best_until' of " + what);
        }
        fields.refuse_others();
        season.larger_stems = std::move(larger);
    }

    static std::array<NamedEnd, 3> ends_of(const MethodSeason& season) {
        return {{{"opens", &season.opens},
                 {"best_until", &season.best_until},
                 {"closes", &season.closes}}};
    }

    void check_days(const MethodSeason& season) {
        const auto ends = ends_of(season);
        // A day that could not be read has been reported already.
        if (std::ranges::any_of(ends, [](const NamedEnd& end) { return !end.second->day.ok(); })) {
            return;
        }
        for (const auto& [name, end] : ends) {
            const TimeOfYear time = time_of_year(in_common_year(end->day));
            if (std::ranges::find(season.never_in, time) == season.never_in.end()) continue;
            fields_.refuse(name, "day-in-never",
                           fmt::format("'{}' of {} lies in {}, which 'never_in' leaves out", name,
                                       fields_.what(), words(time)),
                           "change the date, or take it out of 'never_in'");
        }
        if (season.opens.day > season.best_until.day || season.best_until.day > season.closes.day) {
            fields_.refuse(
                "opens", "days-out-of-order",
                fmt::format("{} does not open, reach the end of its better part and close "
                            "in this order",
                            fields_.what()),
                "put 'opens', 'best_until' and 'closes' in the order of the year");
        }
    }

    // Whether a window from the one mark to the other has no day, whatever the weather.
    static bool leaves_no_day(const Mark& first, const Mark& last) {
        const int opens = first.days + (first.included ? 0 : 1);
        const int closes = last.days - (last.included ? 0 : 1);
        return opens > closes;
    }
    static bool leaves_no_day(const HeatMark& first, const HeatMark& last) {
        return first.degree_days >= last.degree_days &&
               leaves_no_day(static_cast<const Mark&>(first), static_cast<const Mark&>(last));
    }
    // A later total may be reached on the same day as an earlier one, so its days count alike.
    static bool closes_before_it_opens(const HeatMark& first, const HeatMark& last) {
        return leaves_no_day(first, last) ||
               (first.degree_days > last.degree_days && first.days >= last.days);
    }

    void check_marks(const MethodSeason& season) {
        for (const auto& [name, end] :
             {NamedEnd{"best_until", &season.best_until}, NamedEnd{"closes", &season.closes}}) {
            const bool by_heat = season.opens.heat && end->heat &&
                                 closes_before_it_opens(*season.opens.heat, *end->heat);
            const bool by_leaf_out = season.opens.leaf_out && end->leaf_out &&
                                     leaves_no_day(*season.opens.leaf_out, *end->leaf_out);
            if (!by_heat && !by_leaf_out) continue;
            fields_.refuse(name, "marks-out-of-order",
                           fmt::format("by {}, '{}' of {} comes before it opens",
                                       by_heat ? "degree days" : "leaf-out", name, fields_.what()),
                           "give a later mark, or let the window open earlier");
        }
    }

    const packs::YamlSource& source_;
    Fields fields_;
    const Calendar& calendar_;
    const std::vector<packs::Source>& known_sources_;
};

}  // namespace

MethodSeason read_method_season(const std::string& method, const Node& node,
                                const std::string& what, const Calendar& calendar,
                                const std::vector<packs::Source>& known_sources,
                                const packs::YamlSource& source) {
    return MethodReader(node, what, calendar, known_sources, source).read(method);
}

}  // namespace ashtriage::season
