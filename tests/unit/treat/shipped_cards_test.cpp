// The example cards that come with the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "treat/dose.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::treat {
namespace {

std::vector<LabelCard> shipped_cards() {
    const auto files = packs::built_in_rule_files();
    packs::Problems problems;
    const auto sources = packs::read_sources(files, problems);
    problems.throw_if_any();
    return read_label_cards(files, sources);
}

TEST(ShippedCards, AreThereForTheFourMethods) {
    std::vector<std::string> methods;
    for (const LabelCard& card : shipped_cards()) methods.push_back(card.method);
    EXPECT_THAT(methods, testing::UnorderedElementsAre(
                             "basal_spray_dinotefuran", "trunk_injection_emamectin",
                             "soil_drench_imidacloprid", "trunk_injection_azadirachtin"));
}

TEST(ShippedCards, AreAllExamplesAndSayWhereEveryCautionComesFrom) {
    for (const LabelCard& card : shipped_cards()) {
        EXPECT_TRUE(card.example) << card.key;
        EXPECT_FALSE(card.from_label) << card.key;
        EXPECT_FALSE(card.cautions.empty()) << card.key;
        for (const Caution& caution : card.cautions) EXPECT_FALSE(caution.sources.empty());
    }
}

TEST(ShippedCards, GiveADoseForAStreetTreeAndCallItAnExample) {
    for (const LabelCard& card : shipped_cards()) {
        const Dose dose = dose_for(card, measure::Length::of("17", measure::units::inch));
        EXPECT_FALSE(dose.stopped()) << card.key;
        EXPECT_NE(dose.find(Part::product), nullptr) << card.key;
        EXPECT_EQ(dose.findings.at(0).id, "example-card") << card.key;
    }
}

TEST(ShippedCards, NeverCallAnythingSafe) {
    for (const packs::RuleFile& file : packs::built_in_rule_files()) {
        if (!file.name.starts_with("labels/") && file.name != "seasons.yaml") continue;
        std::string text = file.text;
        std::transform(text.begin(), text.end(), text.begin(),
                       [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
        EXPECT_EQ(text.find("safe"), std::string::npos) << file.name;
    }
}

}  // namespace
}  // namespace ashtriage::treat
