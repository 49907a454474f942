#include "weather/weather_layouts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/units.hpp"
#include "packs/csv_rows.hpp"
#include "packs/utf8.hpp"
#include "packs/words.hpp"

namespace ashtriage::weather {

using measure::Date;
using measure::InputError;
using packs::normalised;

namespace {

// Written in the public files where nothing was measured.
constexpr std::string_view public_missing = "-9999";

bool all_digits(std::string_view text) {
    return !text.empty() &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string two_digits(std::string_view text) {
    return text.size() == 1 ? "0" + std::string(text) : std::string(text);
}

// Year first, with hyphens or strokes or neither: 2026-05-18, 2026/5/18, 20260518.
Date parse_table_date(std::string_view text) {
    if (text.size() == 8 && all_digits(text)) {
        return measure::parse_date(
            fmt::format("{}-{}-{}", text.substr(0, 4), text.substr(4, 2), text.substr(6, 2)));
    }
    const char mark = text.size() > 4 ? text[4] : '-';
    const std::size_t second = text.find(mark, 5);
    if ((mark == '-' || mark == '/') && second != std::string_view::npos) {
        return measure::parse_date(fmt::format("{}-{}-{}", text.substr(0, 4),
                                               two_digits(text.substr(5, second - 5)),
                                               two_digits(text.substr(second + 1))));
    }
    return measure::parse_date(text);
}

struct PublicElement {
    std::string_view name;
    Element element;
    std::string_view unit;
};

constexpr std::array<PublicElement, 4> public_elements{{{"TMIN", Element::minimum, "tenths c"},
                                                        {"TMAX", Element::maximum, "tenths c"},
                                                        {"PRCP", Element::rain, "tenths mm"},
                                                        {"AWND", Element::wind, "tenths ms"}}};

const PublicElement* find_public_element(std::string_view name) {
    const auto found = std::find_if(public_elements.begin(), public_elements.end(),
                                    [&](const PublicElement& each) { return each.name == name; });
    return found == public_elements.end() ? nullptr : &*found;
}

class LayoutReader {
 public:
    LayoutReader(std::string_view text, const std::string& file, const WeatherReading& how,
                 packs::Problems& problems)
        : text_(text), file_(file), how_(how), problems_(problems) {
        if (text_.starts_with(packs::byte_order_mark)) {
            text_.remove_prefix(packs::byte_order_mark.size());
        }
    }

    RawWeather read() {
        const std::string_view first = text_.substr(0, text_.find_first_of("\r\n"));
        if (is_fixed_width(first)) {
            read_fixed_width();
        } else if (const std::size_t fields = fields_of_long_row(first)) {
            read_csv(long_header(fields) + std::string(text_), 1);
        } else {
            read_csv(std::string(text_), 0);
        }
        return std::move(raw_);
    }

 private:
    static bool is_fixed_width(std::string_view line) {
        return line.size() >= 29 && line.find(',') == std::string_view::npos &&
               all_digits(line.substr(11, 6));
    }

    // How many fields the first line has if it is a row of the long layout without a header; else
    // 0.
    static std::size_t fields_of_long_row(std::string_view line) {
        std::vector<std::string_view> fields{line};
        while (true) {
            const std::size_t comma = fields.back().find(',');
            if (comma == std::string_view::npos) break;
            const std::string_view rest = fields.back().substr(comma + 1);
            fields.back() = fields.back().substr(0, comma);
            fields.push_back(rest);
        }
        const bool fits = fields.size() >= 4 && fields.size() <= 8 && fields[1].size() == 8 &&
                          all_digits(fields[1]) && fields[2].size() == 4;
        return fits ? fields.size() : 0;
    }

    static std::string long_header(std::size_t fields) {
        constexpr std::array<std::string_view, 8> names{"station", "date", "element", "value",
                                                        "m",       "q",    "s",       "time"};
        std::string header(names.front());
        for (std::size_t i = 1; i < fields; ++i) header.append(",").append(names.at(i));
        return header + "\n";
    }

    void problem(std::size_t line, std::string id, std::string message, std::string hint = {}) {
        problems_.add({std::move(id), file_, {line, 0}, std::move(message), std::move(hint), {}});
    }

    std::optional<Date> date_in(std::string_view text, std::size_t line) {
        try {
            return parse_table_date(packs::trimmed(text));
        } catch (const InputError& error) {
            problem(line, "bad-date", error.what(),
                    "dates are written with the year first: 2026-05-18");
            return std::nullopt;
        }
    }

    std::optional<double> number_in(std::string_view text, std::string_view column,
                                    std::size_t line) {
        const auto number = measure::parse_number(text);
        if (!number) {
            problem(line, "not-a-number", fmt::format("'{}' in '{}' is not a number", text, column),
                    "leave the field empty where nothing was measured");
        }
        return number;
    }

    void read_csv(const std::string& text, std::size_t lines_added) {
        std::istringstream stream(text);
        packs::CsvReader reader(stream, file_);
        const packs::CsvHeader& header = reader.header();
        const bool is_long = header.find("element") && header.find("value");
        if (is_long) {
            read_long_rows(reader, lines_added);
        } else {
            read_day_rows(reader);
        }
    }

    bool usable(const packs::CsvRow& row, std::size_t line) {
        if (row.fault.empty()) return true;
        problem(line, "row-width", row.fault);
        return false;
    }

    void read_long_rows(packs::CsvReader& reader, std::size_t lines_added) {
        const packs::CsvHeader& header = reader.header();
        const std::size_t station =
            header.find("id") ? *header.find("id") : header.require("station");
        const std::size_t date = header.require("date");
        const std::size_t element = header.require("element");
        const std::size_t value = header.require("value");
        const auto quality = header.find("q");
        const auto time = header.find("time");
        packs::CsvRow row;
        while (reader.next(row)) {
            const std::size_t line = row.line - lines_added;
            if (!usable(row, line)) continue;
            const PublicElement* known = find_public_element(row.fields[element]);
            if (known == nullptr || row.fields[value] == public_missing) continue;
            if (time && is_wanted(row.fields[station])) note_day_end(row.fields[*time]);
            const auto day = date_in(row.fields[date], line);
            const auto number = number_in(row.fields[value], known->name, line);
            if (!day || !number) continue;
            raw_.readings.push_back({line, row.fields[station], *day, known->element, *number,
                                     find_element_unit(known->element, known->unit),
                                     quality && !packs::trimmed(row.fields[*quality]).empty()});
        }
    }

    bool is_wanted(std::string_view station) const {
        return how_.station.empty() || normalised(station) == normalised(how_.station);
    }

    void note_day_end(std::string_view time) {
        if (!time.empty() && time != "2400" && time != "0000") raw_.day_ends = time;
    }

    // A column in use, with where it stands.
    struct Placed {
        WeatherColumn column;
        std::size_t index = 0;
        std::optional<std::size_t> attributes;
    };

    std::vector<Placed> placed_columns(const packs::CsvHeader& header, bool& is_public) const {
        is_public = how_.columns.empty() && header.find("date") &&
                    (header.find("tmin") || header.find("tmax")) && header.find("station");
        const std::vector<WeatherColumn> columns =
            !how_.columns.empty() ? parse_columns(how_.columns)
            : is_public           ? public_columns(header.names(), how_.temperature_unit, file_)
                                  : columns_by_name(header.names(), file_);
        std::vector<Placed> placed;
        for (const WeatherColumn& column : columns) {
            placed.push_back({column, header.require(column.name),
                              is_public ? header.find(column.name + "_attributes") : std::nullopt});
        }
        for (const auto& [element, name] :
             {std::pair{Element::date, "date"}, std::pair{Element::minimum, "tmin"},
              std::pair{Element::maximum, "tmax"}}) {
            if (std::none_of(placed.begin(), placed.end(),
                             [&, wanted = element](const Placed& each) {
                                 return each.column.element == wanted;
                             })) {
                throw InputError(fmt::format("no column holds '{}'", name), file_,
                                 "a date and both the minimum and the maximum are needed");
            }
        }
        return placed;
    }

    void read_day_rows(packs::CsvReader& reader) {
        bool is_public = false;
        const std::vector<Placed> columns = placed_columns(reader.header(), is_public);
        packs::CsvRow row;
        while (reader.next(row)) {
            if (usable(row, row.line)) read_day_row(row, columns, is_public);
        }
    }

    static std::string_view field_of(const packs::CsvRow& row, const std::vector<Placed>& columns,
                                     Element element) {
        for (const Placed& each : columns) {
            if (each.column.element == element) return row.fields[each.index];
        }
        return {};
    }

    void read_day_row(const packs::CsvRow& row, const std::vector<Placed>& columns,
                      bool is_public) {
        const std::string station(field_of(row, columns, Element::station));
        const auto date = date_in(field_of(row, columns, Element::date), row.line);
        if (!date) return;
        raw_.rows.push_back({row.line, station, *date});
        if (!raw_.place && (station.empty() || is_wanted(station))) {
            raw_.place = place_in(row, columns);
        }
        for (const Placed& each : columns) {
            if (!is_measured(each.column.element)) continue;
            const std::string_view field = packs::trimmed(row.fields[each.index]);
            if (field.empty() || field == "NA" || (is_public && field == public_missing)) continue;
            const auto number = number_in(field, each.column.name, row.line);
            if (!number) continue;
            const bool flagged =
                each.attributes && has_quality_flag(row.fields[*each.attributes], station);
            raw_.readings.push_back({row.line, station, *date, each.column.element, *number,
                                     each.column.unit, flagged});
        }
    }

    // Attributes are measurement flag, quality flag, source and perhaps the time, with commas
    // between.
    bool has_quality_flag(std::string_view attributes, std::string_view station) {
        const std::size_t first = attributes.find(',');
        if (first == std::string_view::npos) return false;
        const std::size_t second = attributes.find(',', first + 1);
        const std::size_t third =
            second == std::string_view::npos ? second : attributes.find(',', second + 1);
        if (third != std::string_view::npos && is_wanted(station)) {
            note_day_end(packs::trimmed(attributes.substr(third + 1)));
        }
        return !packs::trimmed(attributes.substr(first + 1, second - first - 1)).empty();
    }

    static std::optional<StationPlace> place_in(const packs::CsvRow& row,
                                                const std::vector<Placed>& columns) {
        const auto number = [&](Element element) {
            return measure::parse_number(packs::trimmed(field_of(row, columns, element)));
        };
        const auto latitude = number(Element::latitude);
        const auto longitude = number(Element::longitude);
        if (!latitude || !longitude || *latitude < -90.0 || *latitude > 90.0 ||
            *longitude < -180.0 || *longitude > 180.0) {
            return std::nullopt;
        }
        StationPlace place{*latitude, *longitude, std::nullopt};
        // The public files give metres and write 9999.9 where nobody knows.
        constexpr double highest = 9000.0;
        const auto elevation = number(Element::elevation);
        if (elevation && *elevation<highest&& * elevation> - highest) {
            place.elevation = measure::Length::of(*elevation, measure::units::metre);
        }
        return place;
    }

    // Station, year, month and element, then for each of 31 days five places of value and one each
    // of measurement flag, quality flag and source.
    void read_fixed_width() {
        std::size_t line_number = 0;
        for (std::string_view rest = text_; !rest.empty();) {
            const std::size_t end = std::min(rest.find('\n'), rest.size());
            std::string_view line = rest.substr(0, end);
            rest.remove_prefix(std::min(end + 1, rest.size()));
            ++line_number;
            if (line.ends_with('\r')) line.remove_suffix(1);
            if (packs::trimmed(line).empty()) continue;
            if (!is_fixed_width(line)) {
                problem(line_number, "fixed-width",
                        "the line does not begin with a station, a year, a month and an element");
                continue;
            }
            if (const PublicElement* known = find_public_element(line.substr(17, 4))) {
                read_month(line, line_number, *known);
            }
        }
    }

    void read_month(std::string_view line, std::size_t line_number, const PublicElement& known) {
        constexpr std::size_t before_days = 21;
        constexpr std::size_t day_width = 8;
        for (unsigned day = 1; day <= 31; ++day) {
            const std::size_t at = before_days + (day - 1) * day_width;
            if (at + 5 > line.size()) break;
            const std::string_view value = packs::trimmed(line.substr(at, 5));
            if (value.empty() || value == public_missing) continue;
            const auto date = date_in(fmt::format("{}{:02}", line.substr(11, 6), day), line_number);
            const auto number = number_in(value, known.name, line_number);
            if (!date || !number) continue;
            const bool flagged = at + 6 < line.size() && line[at + 6] != ' ';
            raw_.readings.push_back({line_number, std::string(line.substr(0, 11)), *date,
                                     known.element, *number,
                                     find_element_unit(known.element, known.unit), flagged});
        }
    }

    std::string_view text_;
    const std::string& file_;
    const WeatherReading& how_;
    packs::Problems& problems_;
    RawWeather raw_;
};

}  // namespace

RawWeather read_layout(std::string_view text, const std::string& file, const WeatherReading& how,
                       packs::Problems& problems) {
    return LayoutReader(text, file, how, problems).read();
}

}  // namespace ashtriage::weather
