// How strongly each sign points to emerald ash borer.
//
// Sources: Ecological Research Institute, EAB survey protocol (definite: galleries, several
// D-shaped holes, typical larvae; probable: wide woodpecker flaking with holes where larvae were
// taken; possible: general signs of decline; one D-shaped hole alone is no proof). Ohio State
// Univ. Extension ENT-77 (native borers are in nearly every weak ash and rule nothing in or out).
// Boggs, Stone, Herms 2013 (attack begins at the top; no holes at eye level proves nothing).
#include <gtest/gtest.h>

#include <array>

#include "built_in_judge.hpp"

namespace ashtriage::published {
namespace {

Entries without_signs() {
    return {{"galleries_seen", "no"},
            {"larvae_seen", "no"},
            {"exit_holes", "0"},
            {"woodpecker_damage", "none"},
            {"bark_splits", "none"},
            {"epicormic_shoots", "none"},
            {"canopy_dieback", "0 %"},
            {"canopy_thinning", "5 %"},
            {"branch_breaks_at_union", "no"}};
}

Entries with(Entries entries, const Entries& signs) {
    for (const observe::Finding& sign : signs) {
        std::erase_if(entries, [&](const auto& known) { return known.fact == sign.fact; });
        entries.push_back(sign);
    }
    return entries;
}

std::string evidence(const Entries& signs) {
    return outcome("evidence", facts_of(with(without_signs(), signs)));
}

TEST(SurveyProtocol, CallsGalleriesLarvaeAndSeveralDHolesDefinite) {
    EXPECT_EQ(evidence({{"galleries_seen", "yes"}}), "definite");
    EXPECT_EQ(evidence({{"larvae_seen", "yes"}}), "definite");
    EXPECT_EQ(evidence({{"exit_holes", "2"}, {"exit_hole_shape", "d_shaped"}}), "definite");
    EXPECT_EQ(evidence({{"exit_holes", "40"}, {"exit_hole_shape", "d_shaped"}}), "definite");
}

TEST(SurveyProtocol, CallsOneDHoleNoProof) {
    EXPECT_EQ(evidence({{"exit_holes", "1"}, {"exit_hole_shape", "d_shaped"}}), "possible");
}

TEST(SurveyProtocol, CallsWideWoodpeckerFlakingProbable) {
    EXPECT_EQ(evidence({{"woodpecker_damage", "heavy"}}), "probable");
    EXPECT_EQ(evidence({{"woodpecker_damage", "light"}}), "possible");
}

TEST(SurveyProtocol, CallsGeneralSignsOfDeclinePossible) {
    EXPECT_EQ(evidence({{"canopy_dieback", "40 %"}}), "possible");
    EXPECT_EQ(evidence({{"canopy_thinning", "40 %"}}), "possible");
    EXPECT_EQ(evidence({{"epicormic_shoots", "many"}}), "possible");
    EXPECT_EQ(evidence({{"bark_splits", "many"}}), "possible");
    EXPECT_EQ(evidence({{"branch_breaks_at_union", "yes"}}), "possible");
}

// However much of it there is, general decline never becomes more than possible.
TEST(SurveyProtocol, DoesNotAddUpGeneralSigns) {
    EXPECT_EQ(evidence({{"canopy_dieback", "90 %"},
                        {"epicormic_shoots", "many"},
                        {"bark_splits", "many"},
                        {"woodpecker_damage", "light"},
                        {"branch_breaks_at_union", "yes"}}),
              "possible");
}

// Holes of native borers are round or oval; they count neither for nor against.
TEST(HolesOfOtherInsects, ChangeNothingInTheEvidence) {
    const std::array<Entries, 6> signs{Entries{},
                                       {{"galleries_seen", "yes"}},
                                       {{"larvae_seen", "yes"}},
                                       {{"woodpecker_damage", "heavy"}},
                                       {{"bark_splits", "few"}},
                                       {{"canopy_dieback", "40 %"}}};
    for (const Entries& sign : signs) {
        const std::string without_holes = evidence(sign);
        for (const char* shape : {"round", "oval"}) {
            for (const char* count : {"1", "2", "30", "1000"}) {
                EXPECT_EQ(evidence(with(sign, {{"exit_holes", count}, {"exit_hole_shape", shape}})),
                          without_holes)
                    << count << " " << shape;
            }
        }
    }
    EXPECT_EQ(evidence({}), "none");
}

// Some D-shaped holes among others: how many of them are is not said.
TEST(HolesOfOtherInsects, AmongDHolesLeaveThemPossible) {
    EXPECT_EQ(evidence({{"exit_holes", "30"}, {"exit_hole_shape", "mixed"}}), "possible");
}

TEST(NoHolesAtEyeLevel, ProveNothing) {
    const auto open = possible("evidence", facts_of({{"exit_holes", "0"}}));
    EXPECT_EQ(open, (std::set<std::string>{"definite", "probable", "possible", "none"}));
}

// Top-down attack: where the lowest D-shaped holes are tells how far it has come. Low means late is
// an inference from that order.
TEST(PlaceOfTheHoles, TellsHowFarTheAttackHasCome) {
    const auto stage = [](const char* place) {
        return outcome("infestation_stage",
                       facts_of(with(without_signs(), {{"exit_holes", "6"},
                                                       {"exit_hole_shape", "d_shaped"},
                                                       {"exit_hole_place", place}})));
    };
    EXPECT_EQ(stage("upper_crown"), "early");
    EXPECT_EQ(stage("middle"), "middle");
    EXPECT_EQ(stage("eye_level"), "late");
    EXPECT_EQ(stage("low_trunk"), "late");
}

// Kentucky ENTFACT-453 and the Iowa EAB team: every North American ash and white fringetree are
// hosts, mountain ash is none. Rebek and others 2008, from memory: Manchurian ash resists.
TEST(Hosts, AreTheAshesOfNorthAmerica) {
    const auto host = [](const char* species) {
        return outcome("host", facts_of({{"species", species}}));
    };
    for (const char* ash : {"green_ash", "white_ash", "black_ash", "blue_ash", "pumpkin_ash"}) {
        EXPECT_EQ(host(ash), "ash") << ash;
    }
    EXPECT_EQ(host("manchurian_ash"), "resistant");
    EXPECT_EQ(host("mountain_ash"), "other");
    EXPECT_EQ(outcome("recommendation", facts_of({{"species", "mountain_ash"}})), "out_of_scope");
    EXPECT_EQ(outcome("recommendation", facts_of({{"species", "fringetree"}})), "out_of_scope");
}

}  // namespace
}  // namespace ashtriage::published
