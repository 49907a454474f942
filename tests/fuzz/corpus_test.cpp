// The files of the folder corpus, through the functions that the fuzzer calls: those named well-*
// must be well, and those named refused-* refused. Whatever the fuzzer found once is kept there.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "entries.hpp"

namespace ashtriage::fuzz {
namespace {

namespace fs = std::filesystem;

struct Target {
    std::string name;
    Refusal (*read)(std::string_view);
};

void PrintTo(const Target& target, std::ostream* stream) {
    *stream << target.name;
}

class Corpus : public testing::TestWithParam<Target> {
 protected:
    static std::vector<fs::path> files() {
        std::vector<fs::path> found;
        const fs::path folder = fs::path(ASHTRIAGE_SOURCE_DIR) / "tests/fuzz/corpus";
        for (const auto& entry : fs::directory_iterator(folder / GetParam().name)) {
            found.push_back(entry.path());
        }
        std::sort(found.begin(), found.end());
        return found;
    }

    static std::string bytes_of(const fs::path& path) {
        std::ifstream stream(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(stream), {}};
    }
};

TEST_P(Corpus, ComesOutAsTheNamesOfItsFilesSay) {
    std::size_t well = 0;
    std::size_t refused = 0;
    for (const fs::path& path : files()) {
        SCOPED_TRACE(path.filename());
        const std::string name = path.filename().string();
        const bool should_be_well = name.starts_with("well-");
        ASSERT_TRUE(should_be_well || name.starts_with("refused-"));
        ++(should_be_well ? well : refused);
        Refusal refusal;
        EXPECT_NO_THROW(refusal = GetParam().read(bytes_of(path)));
        EXPECT_EQ(!refusal, should_be_well) << refusal.value_or("");
    }
    EXPECT_GE(well, 3);
    EXPECT_GE(refused, 3);
}

TEST_P(Corpus, NeverFailsOnAFileCutOffAnywhere) {
    for (const fs::path& path : files()) {
        SCOPED_TRACE(path.filename());
        const std::string bytes = bytes_of(path);
        const std::size_t step = 1 + bytes.size() / 40;
        for (std::size_t length = 0; length < bytes.size(); length += step) {
            EXPECT_NO_THROW(GetParam().read(bytes.substr(0, length))) << length;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Fuzz, Corpus,
                         testing::Values(Target{"job", read_job}, Target{"rules", read_rules},
                                         Target{"sheet", read_sheet},
                                         Target{"values", read_values}),
                         [](const auto& target) { return target.param.name; });

}  // namespace
}  // namespace ashtriage::fuzz
