#include <stdexcept>
#include <string>

#include "entries.hpp"
#include "measure/parse.hpp"
#include "plan/crew_file.hpp"
#include "refusal.hpp"
#include "treat/application_sheet.hpp"
#include "weather/read_weather.hpp"

namespace ashtriage::fuzz {

namespace {

constexpr std::string_view crews_mark = "#crews\n";
constexpr std::string_view weather_mark = "#weather\n";

// What a sheet says must come back from the sheet that is written of it.
void check_written_again(const treat::ApplicationSheet& sheet) {
    const std::string written = treat::application_sheet(sheet);
    treat::ApplicationSheet again;
    try {
        again = treat::read_application_sheet(written, "written.yaml");
    } catch (const measure::InputError& error) {
        throw std::logic_error(std::string("a sheet that was written is refused: ") + error.what());
    }
    if (again.site != sheet.site || again.record != sheet.record) {
        throw std::logic_error("a sheet says something else when it is written again:\n" + written);
    }
}

}  // namespace

Refusal read_job(std::string_view bytes) {
    return refusal_of(bytes, [&] {
        if (bytes.starts_with(crews_mark)) {
            plan::read_crews(bytes, "crews.yaml",
                             {"trunk_injection_emamectin", "soil_drench_imidacloprid"});
        } else if (bytes.starts_with(weather_mark)) {
            weather::WeatherReading how;
            how.today = measure::parse_date("2026-05-20");
            weather::read_weather(bytes.substr(weather_mark.size()), "days.csv", how);
        } else {
            check_written_again(treat::read_application_sheet(bytes, "record.yaml"));
        }
    });
}

}  // namespace ashtriage::fuzz
