#include "present/season_chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "present/text_layout.hpp"
#include "weather/projection.hpp"

namespace ashtriage::present {

using measure::Date;
using weather::HeatTotals;

namespace {

// From where little has been added to where the borers are past.
constexpr std::chrono::month_day chart_begins{std::chrono::March, std::chrono::day{1}};
constexpr int chart_days = 214;  // to 30 September
constexpr double chart_top = 1600.0;

Date first_of_chart(int year) {
    return {std::chrono::year(year), chart_begins.month(), chart_begins.day()};
}

// The total at the end of a day of the chart, counted from 0; nothing beyond what is known.
using Curve = std::vector<std::optional<double>>;

Curve curve_of(const HeatTotals& totals) {
    const Date first = first_of_chart(static_cast<int>(totals.first.year()));
    Curve curve;
    for (int day = 0; day < chart_days; ++day) {
        curve.push_back(totals.total_on(measure::add_days(first, day)));
    }
    return curve;
}

// What the past seasons would add by their mean, on the days that are still to come.
Curve projected_curve(const SeasonReport& report) {
    const HeatTotals& totals = *report.known.heat;
    Curve curve(chart_days);
    if (totals.stopped || totals.complete() ||
        report.known.past.size() < weather::fewest_past_seasons) {
        return curve;
    }
    const Date first = first_of_chart(report.year());
    for (int day = 0; day < chart_days; ++day) {
        const Date date = measure::add_days(first, day);
        if (!totals.days.empty() && date <= totals.days.back().date) continue;
        curve[static_cast<std::size_t>(day)] =
            weather::project_total(totals, date, report.known.past).mean;
    }
    return curve;
}

struct Line {
    double degree_days = 0.0;
    std::string words;
};

// The figures of the borer, by height. Those of one event are one line when they are the same.
std::vector<Line> lines_of(const SeasonReport& report) {
    std::vector<Line> lines;
    for (const season::CalendarEvent& event : report.seasons.calendar.events) {
        if (event.of != season::EventOf::borer) continue;
        const bool band = event.from != event.to;
        for (const double figure : {event.from, event.to}) {
            if (figure > chart_top || (!band && !lines.empty() && figure == event.to &&
                                       lines.back().words == event.title)) {
                continue;
            }
            lines.push_back({figure, band ? event.title + (figure == event.from ? ", from" : ", to")
                                          : event.title});
        }
    }
    std::ranges::sort(lines, {}, &Line::degree_days);
    return lines;
}

// --- for the terminal ---------------------------------------------------------------------------

constexpr int chart_columns = 72;
constexpr int days_a_column = 3;
constexpr double height_of_row = 50.0;
constexpr int chart_rows = static_cast<int>(chart_top / height_of_row);

class TextChart {
 public:
    TextChart() : cells_(chart_rows, std::string(chart_columns, ' ')), labels_(chart_rows) {}

    void draw_line(const Line& line) {
        const int row = row_of(line.degree_days);
        if (row >= chart_rows) return;
        const auto at = static_cast<std::size_t>(row);
        std::string& cells = cells_[at];
        if (labels_[at].empty()) {
            for (std::size_t i = 0; i < cells.size(); i += 2) cells[i] = '-';
            labels_[at] = fmt::format("{:g}", line.degree_days);
        }
        // At the right, where the curves of most years have gone beyond the top.
        const std::string words = " " + line.words.substr(0, 26);
        cells.replace(cells.size() - words.size(), words.size(), words);
    }

    void draw(const Curve& curve, char mark) {
        for (int column = 0; column < chart_columns; ++column) {
            const int day = std::min(column * days_a_column, chart_days - 1);
            const auto& total = curve[static_cast<std::size_t>(day)];
            if (!total) continue;
            const int row = row_of(*total);
            if (row < chart_rows) {
                cells_[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] = mark;
            }
        }
    }

    std::string text() const {
        std::string text;
        for (std::size_t row = cells_.size(); row-- > 0;) {
            std::string line = fmt::format("{:>5} |{}", labels_[row], cells_[row]);
            line.erase(line.find_last_not_of(' ') + 1);
            text += line + "\n";
        }
        text += "      +" + std::string(chart_columns, '-') + "\n       ";
        std::string months(chart_columns, ' ');
        const Date first = first_of_chart(2023);
        for (const auto& [month, name] : {std::pair{std::chrono::March, "Mar"},
                                          {std::chrono::April, "Apr"},
                                          {std::chrono::May, "May"},
                                          {std::chrono::June, "Jun"},
                                          {std::chrono::July, "Jul"},
                                          {std::chrono::August, "Aug"},
                                          {std::chrono::September, "Sep"}}) {
            const int day = measure::days_between(
                first, Date(std::chrono::year(2023), month, std::chrono::day{1}));
            months.replace(static_cast<std::size_t>(day / days_a_column), 3, name);
        }
        months.erase(months.find_last_not_of(' ') + 1);
        return text + months + "\n";
    }

 private:
    static int row_of(double total) { return static_cast<int>(total / height_of_row); }

    std::vector<std::string> cells_;  // from the bottom up
    std::vector<std::string> labels_;
};

// --- for a page
// -----------------------------------------------------------------------------------

constexpr double left = 60.0;
constexpr double right = 706.0;
constexpr double top = 12.0;
constexpr double bottom = 392.0;

double x_of(double day) {
    return left + (right - left) * day / chart_days;
}

double y_of(double total) {
    return bottom - (bottom - top) * total / chart_top;
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char each : text) {
        switch (each) {
            case '&':
                result += "&amp;";
                break;
            case '<':
                result += "&lt;";
                break;
            case '>':
                result += "&gt;";
                break;
            case '"':
                result += "&quot;";
                break;
            default:
                result += each;
        }
    }
    return result;
}

std::string polyline(const Curve& curve, std::string_view kind) {
    std::string points;
    for (int day = 0; day < chart_days; ++day) {
        const auto& total = curve[static_cast<std::size_t>(day)];
        if (!total || *total > chart_top) continue;
        points +=
            fmt::format("{}{:.1f},{:.1f}", points.empty() ? "" : " ", x_of(day), y_of(*total));
    }
    if (points.empty()) return {};
    return fmt::format("<polyline class=\"{}\" points=\"{}\"/>\n", kind, points);
}

std::string axes() {
    std::string text;
    for (int total = 0; total <= static_cast<int>(chart_top); total += 200) {
        text += fmt::format(
            "<line class=\"grid\" x1=\"{0:.1f}\" x2=\"{1:.1f}\" y1=\"{2:.1f}\" y2=\"{2:.1f}\"/>"
            "<text x=\"{3:.1f}\" y=\"{4:.1f}\" text-anchor=\"end\">{5}</text>\n",
            left, right, y_of(total), left - 6.0, y_of(total) + 4.0, total);
    }
    const Date first = first_of_chart(2023);
    for (const auto& [month, name] : {std::pair{std::chrono::March, "March"},
                                      {std::chrono::April, "April"},
                                      {std::chrono::May, "May"},
                                      {std::chrono::June, "June"},
                                      {std::chrono::July, "July"},
                                      {std::chrono::August, "August"},
                                      {std::chrono::September, "September"}}) {
        const int day =
            measure::days_between(first, Date(std::chrono::year(2023), month, std::chrono::day{1}));
        text += fmt::format(
            "<line class=\"grid\" x1=\"{0:.1f}\" x2=\"{0:.1f}\" y1=\"{1:.1f}\" y2=\"{2:.1f}\"/>"
            "<text x=\"{3:.1f}\" y=\"{4:.1f}\">{5}</text>\n",
            x_of(day), top, bottom, x_of(day) + 3.0, bottom + 16.0, name);
    }
    return text;
}

std::string bands(const SeasonReport& report) {
    std::string text;
    for (const season::CalendarEvent& event : report.seasons.calendar.events) {
        if (event.of != season::EventOf::borer || event.from > chart_top) continue;
        const double high = std::min(event.to, chart_top);
        text += fmt::format(
            "<rect class=\"band\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>"
            "<text class=\"event\" text-anchor=\"end\" x=\"{:.1f}\" y=\"{:.1f}\">{}</text>\n",
            left, y_of(high), right - left, std::max(1.5, y_of(event.from) - y_of(high)),
            right - 5.0, y_of(event.from) - 3.0, escaped(event.title));
    }
    return text;
}

}  // namespace

std::string season_chart_text(const SeasonReport& report) {
    if (!report.known.heat) return {};
    TextChart chart;
    for (const Line& line : lines_of(report)) chart.draw_line(line);
    for (const HeatTotals& season : report.known.past) chart.draw(curve_of(season), ':');
    chart.draw(projected_curve(report), '+');
    chart.draw(curve_of(*report.known.heat), '#');
    std::string key = fmt::format("# {}", report.year());
    if (!report.known.past.empty()) {
        key += fmt::format("   : {} past season{}", report.known.past.size(),
                           report.known.past.size() == 1 ? "" : "s");
    }
    if (report.known.past.size() >= weather::fewest_past_seasons) key += "   + projected";
    return paragraph("Degree days F from 1 January, at the end of the day") + chart.text() +
           paragraph(key, "       ");
}

std::string season_chart_svg(const SeasonReport& report) {
    if (!report.known.heat) return {};
    std::string text = fmt::format(
        "<svg viewBox=\"0 0 720 420\" role=\"img\" aria-label=\"Degree days of {} against the "
        "figures of the calendar, with {} past seasons\">\n",
        report.year(), report.known.past.size());
    text += axes() + bands(report);
    for (const HeatTotals& season : report.known.past) text += polyline(curve_of(season), "past");
    text += polyline(projected_curve(report), "projected");
    text += polyline(curve_of(*report.known.heat), "now");
    return text + "</svg>\n";
}

}  // namespace ashtriage::present
