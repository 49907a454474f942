// Cautions about the places of many sites are said once each.
#include "present/place_cautions.hpp"

#include <gtest/gtest.h>

namespace ashtriage::present {
namespace {

TEST(PlaceCautions, AreSaidOnceWithTheSitesTheyAreAbout) {
    PlaceCautions cautions;
    EXPECT_EQ(cautions.text(), "");
    cautions.add("Elm Court", {"Not known.", "By a shore?"});
    cautions.add("Mill Lane", {"By a shore?"});
    cautions.add("Elm Court", {"Not known."});
    EXPECT_EQ(cautions.text(), "Elm Court: Not known.\nElm Court and Mill Lane: By a shore?\n");
}

TEST(PlaceCautions, NameSomeOfManySites) {
    PlaceCautions cautions;
    for (const char* site : {"A", "B", "C", "D", "E"}) cautions.add(site, {"Not known."});
    EXPECT_EQ(cautions.text(), "A, B, C and 2 more sites: Not known.\n");
}

}  // namespace
}  // namespace ashtriage::present
