// How long a long sheet takes, from CSV to CSV recommendations: 100,000 rows of an invented
// inventory of twelve columns, drawn once from a fixed seed, with one and with two judging threads.
//
// Beside the rows in a second, which hang on the machine, `times_reading` tells how many times as
// long it takes as the plain reading of the same rows in the same run.
//
// Run the program itself for figures; as a test it only shows that it still runs.
#include <benchmark/benchmark.h>

#include <chrono>
#include <iterator>
#include <random>
#include <sstream>
#include <streambuf>
#include <string>
#include <string_view>

#include "measure/date.hpp"
#include "packs/csv_blocks.hpp"
#include "packs/fact_units.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "present/triage_stream.hpp"
#include "season/read_seasons.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage {
namespace {

constexpr std::size_t rows = 100'000;

const present::Knowledge& knowledge() {
    static const present::Knowledge built_in =
        present::read_knowledge(packs::built_in_rule_files());
    return built_in;
}

class Inventory {
 public:
    std::string text() {
        std::string sheet =
            "tree,dbh,species,standing_dead,leaves,canopy_dieback,canopy_thinning,exit_holes,"
            "exit_hole_shape,woodpecker_damage,owner_value,infestation_distance\n";
        for (std::size_t row = 0; row < rows; ++row) {
            const std::string holes = one_of({"0", "0", "0", "1", "2", "5"});
            for (const std::string& cell :
                 {"T" + std::to_string(row), often(decimal(2.0, 40.0)),
                  often(one_of({"green ash", "white_ash", "black ash", "not_ash"})),
                  often(one_of({"no", "no", "no", "yes"})), often("in_leaf"), often(percent()),
                  often(percent()), holes,
                  holes == "0" ? "" : often(one_of({"d_shaped", "round", "oval", "not clear"})),
                  often(one_of({"none", "light", "heavy"})),
                  often(one_of({"low", "middle", "high"}))}) {
                sheet += cell + ',';
            }
            sheet += often(decimal(0.0, 40.0)) + '\n';
        }
        return sheet;
    }

 private:
    std::string one_of(std::initializer_list<const char*> texts) {
        return *std::next(texts.begin(), static_cast<std::ptrdiff_t>(random_() % texts.size()));
    }
    // One cell in ten is empty.
    std::string often(std::string cell) { return random_() % 10 == 0 ? std::string{} : cell; }
    std::string percent() {
        return std::to_string(5 * (random_() % 21)) + (random_() % 5 == 0 ? " %" : "");
    }
    std::string decimal(double low, double high) {
        return packs::number_text(std::uniform_real_distribution<>(low, high)(random_), 1);
    }

    std::mt19937 random_{1847};
};

const std::string& sheet() {
    static const std::string text = Inventory().text();
    return text;
}

// Takes everything and keeps nothing.
class Nowhere : public std::streambuf {
 protected:
    std::streamsize xsputn(const char* /*text*/, std::streamsize size) override { return size; }
    int_type overflow(int_type c) override { return traits_type::not_eof(c); }
};

std::size_t bytes_read() {
    std::istringstream stream(sheet());
    packs::CsvBlocks blocks(stream, "inventory.csv");
    packs::CsvBlock block;
    std::size_t bytes = 0;
    while (blocks.next(block)) {
        for (const packs::CsvBlock::Row& row : block.rows()) {
            for (std::size_t i = 0; i < row.fields; ++i) bytes += block.field(row, i).size();
        }
    }
    return bytes;
}

double seconds_to_read() {
    const auto begin = std::chrono::steady_clock::now();
    benchmark::DoNotOptimize(bytes_read());
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

void read_only(benchmark::State& state) {
    while (state.KeepRunning()) benchmark::DoNotOptimize(bytes_read());
    state.SetItemsProcessed(static_cast<std::int64_t>(rows) * state.iterations());
}

void triage_stream(benchmark::State& state) {
    Nowhere nowhere;
    std::ostream output(&nowhere);
    double reading = 0.0;
    double judging = 0.0;
    while (state.KeepRunning()) {
        state.PauseTiming();
        reading += seconds_to_read();
        state.ResumeTiming();
        const auto begin = std::chrono::steady_clock::now();
        std::istringstream stream(sheet());
        const auto end = present::stream_triage(
            stream, "inventory.csv", knowledge(), measure::parse_date("2026-07-10"),
            {output, output, nullptr}, static_cast<unsigned>(state.range(0)));
        judging += std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
        if (end.rows != rows || end.left_out != 0) state.SkipWithError("rows were left out");
    }
    state.SetItemsProcessed(static_cast<std::int64_t>(rows) * state.iterations());
    state.counters["times_reading"] = judging / reading;
}

BENCHMARK(read_only)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(triage_stream)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace ashtriage

BENCHMARK_MAIN();
