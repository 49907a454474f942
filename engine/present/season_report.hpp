// What is known of a year, and the window of each method in it: what the listings, the chart and
// the page of the season are made from.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "packs/rule_set.hpp"
#include "season/window.hpp"

namespace ashtriage::present {

struct MethodWindow {
    const season::MethodSeason* method = nullptr;
    season::NextWindow next;
    bool on_request = false;               // sources disagree on it
    std::optional<season::Window> passed;  // this year's, when it is over
};

// The seasons and the sources must outlive the report.
struct SeasonReport {
    measure::Date as_of{};
    const season::Seasons& seasons;
    const std::vector<packs::Source>& sources;
    std::optional<season::Location> location = std::nullopt;
    season::KnownYear known = {};
    std::vector<std::string> notes = {};  // about the files of weather
    std::vector<MethodWindow> methods = {};

    int year() const { return static_cast<int>(as_of.year()); }
    // Whether anything is known beside the calendar.
    bool knows_more() const { return known.heat || known.leaf_out || !known.cues.empty(); }
};

// The windows on the day or after it: of one method, or of all when `method` is empty; with
// `on_request`, those too that are otherwise left out. Throws InputError for an unknown method.
void add_methods(SeasonReport& report, std::string_view method = {}, bool on_request = false);

// How the degree days were reckoned, where, and how far they go; nothing without weather.
std::vector<std::string> heat_lines(const SeasonReport& report);

// "by full leaf-out", "by 850 degree days, projected; give or take 7 days; 12 June to 25 June in
// past years".
std::string basis_words(const season::EndBasis& by);
// "calendar", "heat-measured" ...
std::string_view basis_name(season::Basis basis);
std::string_view state_name(season::WindowState state);
// "Open now; 12 days left." Nothing when there is no window.
std::string state_words(const MethodWindow& each);
// From when to when this year's window was open, and whether that was measured; nothing when it is
// not over.
std::string passed_words(const MethodWindow& each);

// In which times of the year the method is never used, and why; nothing when no reason is given.
std::string never_words(const season::MethodSeason& method);

// What has to be read beside the windows, each once.
std::vector<std::string> cautions(const SeasonReport& report);

// "[key] citation (evidence)" for each key, each once and in this order.
std::vector<std::string> citations(const std::vector<packs::Source>& sources,
                                   const season::SourceKeys& keys);

}  // namespace ashtriage::present
