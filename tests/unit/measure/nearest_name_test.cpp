#include "measure/nearest_name.hpp"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <string_view>

namespace ashtriage::measure {
namespace {

constexpr std::array names =
    std::to_array<std::string_view>({"canopy_loss", "exit_holes", "bark_split", "in", "inches"});

TEST(NearestName, FindsOneSlipOfThePen) {
    EXPECT_EQ(nearest_name("canopy_los", names), "canopy_loss");    // a letter left out
    EXPECT_EQ(nearest_name("canopyy_loss", names), "canopy_loss");  // one too many
    EXPECT_EQ(nearest_name("canopy_lose", names), "canopy_loss");   // another letter
    EXPECT_EQ(nearest_name("inhces", names), "inches");             // two swapped
    EXPECT_EQ(nearest_name("ni", names), "in");
    EXPECT_EQ(nearest_name("Exit_Holes", names), "exit_holes");  // only the case
}

TEST(NearestName, StaysSilentWhenNothingIsNear) {
    EXPECT_FALSE(nearest_name("woodpecker", names));
    EXPECT_FALSE(nearest_name("", names));
    EXPECT_FALSE(nearest_name("canopy_loss", {}));
    EXPECT_FALSE(nearest_name(std::string(10'000, 'x'), names));
}

TEST(NearestName, DoesNotTakeOneSingleLetterForAnother) {
    constexpr std::array letters = std::to_array<std::string_view>({"m", "g"});
    EXPECT_FALSE(nearest_name("x", letters));
}

TEST(NearestName, PrefersTheNearestAndThenTheFirst) {
    constexpr std::array close = std::to_array<std::string_view>({"light", "heavy", "lights"});
    EXPECT_EQ(nearest_name("lights", close), "lights");
    EXPECT_EQ(nearest_name("lightz", close), "light");
}

}  // namespace
}  // namespace ashtriage::measure
