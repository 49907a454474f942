#include <sstream>
#include <string>

#include "entries.hpp"
#include "fixed_files.hpp"
#include "refusal.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::fuzz {

namespace {

constexpr std::string_view yaml_mark = "#yaml\n";

}  // namespace

Refusal read_sheet(std::string_view bytes) {
    const measure::Date day = measure::parse_date("2026-05-20");
    return refusal_of(bytes, [&] {
        if (bytes.starts_with(yaml_mark)) {
            triage::read_walk_sheet_yaml(bytes, "sheet.yaml", fixed_rules(), day);
        } else {
            std::istringstream stream{std::string(bytes)};
            triage::read_walk_sheet_csv(stream, "sheet.csv", fixed_rules(), day);
        }
    });
}

}  // namespace ashtriage::fuzz
