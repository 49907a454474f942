// Everything that a rule pack is refused for: one change to a pack that is well, and what is said.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct Refusal {
    std::string_view from;
    std::string_view to;
    std::string id;
    std::string_view at;    // the problem stands where this text stands in the changed pack
    std::string_view hint;  // part of the hint
};

class RefusedPack : public testing::TestWithParam<Refusal> {};

// Where `text` stands in `pack`, counted from 1.
Place place_of(const std::string& pack, std::string_view text) {
    const std::size_t position = pack.find(text);
    EXPECT_NE(position, std::string::npos) << text;
    const std::string before = pack.substr(0, position);
    const auto lines = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
    const std::size_t line_start =
        before.rfind('\n') == std::string::npos ? 0 : before.rfind('\n') + 1;
    return {lines + 1, position - line_start + 1};
}

TEST_P(RefusedPack, IsRefusedForThisAlone) {
    const std::string pack = changed(GetParam().from, GetParam().to);
    const auto problems = problems_of(pack);
    ASSERT_EQ(problems.size(), 1U) << GetParam().to << "\n"
                                   << (problems.empty() ? "" : problems[0].message) << "\n"
                                   << (problems.size() < 2 ? "" : problems[1].message);
    const Problem& problem = problems.front();
    EXPECT_EQ(problem.id, GetParam().id) << problem.message;
    EXPECT_EQ(problem.file, "small.yaml");
    EXPECT_EQ(problem.place, place_of(pack, GetParam().at)) << problem.message;
    EXPECT_FALSE(problem.source_line.empty());
    EXPECT_THAT(problem.hint, HasSubstr(GetParam().hint)) << problem.message;
}

std::string case_name(const testing::TestParamInfo<Refusal>& info) {
    std::string name = info.param.id + "_" + std::to_string(info.index);
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

INSTANTIATE_TEST_SUITE_P(
    OfTheHead, RefusedPack,
    testing::Values(Refusal{"pack: small", "pack: other", "wrong-pack-name", "other", "same name"},
                    Refusal{"edition: 2026.1\n", "", "missing-key", "pack:", "edition"},
                    Refusal{"about: A rule pack for tests.", "abuot: x\nabout: y", "unknown-key",
                            "abuot", "'about'"},
                    Refusal{"edition: 2026.1\n", "edition: 1\nedition: 2\n", "duplicate-key",
                            "edition: 2", "one of"}),
    case_name);

INSTANTIATE_TEST_SUITE_P(
    OfSettings, RefusedPack,
    testing::Values(
        Refusal{"unit: percent, source: handbook,", "unit: precent, source: handbook,",
                "unknown-value", "precent", "'percent'"},
        Refusal{"value: 50, unit: percent,", "value: 50,", "missing-key", "{value: 50", "unit"},
        Refusal{"value: no, source", "value: no, unit: count, source", "not-for-this-kind", "count",
                ""},
        Refusal{"value: 50, unit", "value: 050, unit", "not-a-number", "050", ""},
        Refusal{"value: 50, unit", "value: 101, unit", "outside-range", "101", "from 0 to 100 %"},
        Refusal{"value: 50, unit: percent", "value: 50, unit: feet", "wrong-unit",
                "stop_above}}}, {dead", "unit of the fact"},
        Refusal{", source: handbook, about: No treatment", ", about: No treatment", "missing-key",
                "{value: 50", "source"},
        Refusal{"source: handbook, about: No", "source: handbok, about: No", "unknown-source",
                "handbok", "'handbook'"},
        Refusal{"  careful: {value: no,",
                "  loose: {value: no, source: invented, about: x}\n  careful: {value: no,",
                "unused-setting", "loose", "leave it out"},
        Refusal{"  careful: {value: no,",
                "  not: {value: no, source: invented, about: x}\n  careful: {value: no,",
                "bad-name", "not: {value", "another word"},
        Refusal{"  careful: {value: no,",
                "  Loose: {value: no, source: invented, about: x}\n  careful: {value: no,",
                "bad-name", "Loose", "small letters"},
        Refusal{"{stop_above: 30, careful: yes}", "{stop_abve: 30, careful: yes}",
                "unknown-setting", "stop_abve", "'stop_above'"},
        Refusal{"{stop_above: 30, careful: yes}", "{stop_above: 130, careful: yes}",
                "outside-range", "130", "from 0 to 100 %"},
        Refusal{"{stop_above: 30, careful: yes}", "{stop_above: 30, careful: 1}", "not-yes-no",
                "1}", "yes or no"}),
    case_name);

INSTANTIATE_TEST_SUITE_P(
    OfFacts, RefusedPack,
    testing::Values(
        Refusal{"kind: ordered", "kind: orderd", "unknown-value", "orderd", "'ordered'"},
        Refusal{"    range: [0, 100]\n", "", "missing-key", "kind: number", "range"},
        Refusal{"range: [0, 100]", "range: [100, 0]", "bad-range", "[100, 0]", "lowest"},
        Refusal{"range: [0, 100]", "range: [0]", "bad-range", "[0]", "lowest"},
        Refusal{"range: [0, 100]", "range: [0, .inf]", "not-a-number", ".inf", ""},
        Refusal{"range: [0, 100]", "range: 100", "wrong-kind", "100", ""},
        Refusal{"eye_error: 10", "eye_error: -1", "out-of-range", "-1", ""},
        Refusal{"eye_error: 10", "eye_error: 101", "out-of-range", "101", ""},
        Refusal{"eye_error: 10", "levels: [a, b]", "not-for-this-kind", "[a, b]", "kind"},
        Refusal{"levels: [none, light, heavy]", "levels: [none]", "too-few-values", "[none]", ""},
        Refusal{"levels: [none, light, heavy]", "levels: none", "wrong-kind", "none\n    safety",
                "[one, two]"},
        Refusal{"levels: [none, light, heavy]", "levels: [none, light, none]", "duplicate-name",
                "none]", "name of its own"},
        Refusal{"levels: [none, light, heavy]", "levels: [none, light, unknown]", "bad-name",
                "unknown]", "taken"},
        Refusal{"levels: [none, light, heavy]", "levels: [none, light, light_or_heavy]", "bad-name",
                "light_or_heavy", "taken"},
        Refusal{"levels: [none, light, heavy]", "levels: [none, light, Heavy]", "bad-name", "Heavy",
                "small letters"},
        Refusal{"    safety: yes\n", "    safety: true\n", "not-yes-no", "true", "yes or no"},
        Refusal{"effort: climb", "effort: clim", "unknown-value", "clim\n", "'climb'"},
        Refusal{"    help: Look high up.\n", "    helpp: Look.\n", "unknown-key", "helpp",
                "'help'"},
        Refusal{"group: tree, ", "", "missing-key", "{kind: yes_no", "group"},
        Refusal{"  loss:\n", "  any: {kind: yes_no, group: a, ask: b, source: invented}\n  loss:\n",
                "bad-name", "any: {kind", "another word"},
        Refusal{"  loss:\n",
                "  careful: {kind: yes_no, group: a, ask: b, source: invented}\n  loss:\n",
                "duplicate-name", "careful: {kind", "share their names"},
        Refusal{"only_if: {holes: {at_least: 1}}", "only_if: {hols: {at_least: 1}}", "unknown-fact",
                "hols", "'holes'"},
        Refusal{"only_if: {holes: {at_least: 1}}", "only_if: {signs: weak}", "table-in-only-if",
                "{signs: weak}", "facts"},
        Refusal{"only_if: {holes: {at_least: 1}}", "only_if: {hole_shape: round}", "cycle",
                "{hole_shape: round}", "before it"}),
    case_name);

INSTANTIATE_TEST_SUITE_P(
    OfConditions, RefusedPack,
    testing::Values(
        Refusal{"when: {pecking: {at_least: light}}", "when:", "empty-value", "when:, gives: weak",
                "always"},
        Refusal{"when: {loss: {at_least: 50}}", "when: {loss: {between: [50, 20]}}", "bad-range",
                "[50, 20]", "[20, 50]"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {peking: {at_least: light}}",
                "unknown-fact", "peking", "'pecking'"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {careful: yes}", "unknown-fact",
                "careful: yes}, gives", "{setting: {careful: yes}}"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {pecking: {at_least: lght}}",
                "unknown-value", "lght", "'light'"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {pecking: {atleast: light}}",
                "unknown-key", "atleast", "'at_least'"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {pecking: {above: heavy}}",
                "never-holds", "{above: heavy}", "none, light and heavy"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {pecking: {one_of: []}}", "wrong-kind",
                "[]", ""},
        Refusal{"when: {pecking: {at_least: light}}", "when: {hole_shape: {at_least: round}}",
                "not-ordered", "at_least: round", "one_of"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: 5}", "wrong-kind", "5}",
                "{is: 50}"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: 101}}", "outside-range",
                "101", "from 0 to 100 %"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: -1}}", "outside-range",
                "-1", "from 0 to 100 %"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: 100}}", "never-holds",
                "{above: 100}", "from 0 to 100 %"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: 30, below: 20}}",
                "never-holds", "{above: 30", ""},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {between: [30]}}", "wrong-kind",
                "[30]", "both ends"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: .nan}}", "not-a-number",
                ".nan", ""},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {abov: 5}}", "unknown-key",
                "abov: 5", "'above'"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: {setting: stop_abov}}}",
                "unknown-setting", "stop_abov}", "'stop_above'"},
        Refusal{"when: {pecking: {at_least: light}}",
                "when: {holes: {above: {setting: stop_above}}}", "wrong-unit",
                "stop_above}}}, gives: weak", "unit"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {loss: {above: {setting: careful}}}",
                "wrong-unit", "careful}}}, gives: weak", "unit"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {setting: {stop_above: yes}}",
                "wrong-kind", "stop_above: yes", "comparison"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {setting: {carefl: yes}}",
                "unknown-setting", "carefl: yes", "'careful'"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {dead: true}", "unknown-value",
                "true}", "no, yes"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {}", "empty-condition",
                "{}, gives: weak", "always"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {setting: {}}", "empty-condition",
                "{}}, gives: weak", "{setting: {switch: yes}}"},
        Refusal{"when: {pecking: {at_least: light}}", "when: allways", "wrong-kind", "allways",
                "{fact: test}"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {all: {dead: yes}}", "wrong-kind",
                "{dead: yes}}, gives: weak", "all: ["},
        Refusal{"when: {pecking: {at_least: light}}", "when: {any: []}", "empty-condition",
                "[]}, gives", ""},
        Refusal{"when: {pecking: {at_least: light}}", "when: {flags: dead_tree}", "wrong-kind",
                "dead_tree}", "{includes: outcome}"},
        Refusal{"when: {pecking: {at_least: light}}", "when: {flags: {is: dead_tree}}",
                "unknown-key", "is: dead_tree", "includes"},
        Refusal{"not: {signs: none}", "not: {signs: strog}", "unknown-value", "strog", "'strong'"},
        Refusal{"not: {signs: none}", "not: {signs: {includes: strong}}", "unknown-key",
                "includes: strong", "one_of"}),
    case_name);

INSTANTIATE_TEST_SUITE_P(
    OfTables, RefusedPack,
    testing::Values(
        Refusal{"hit_policy: collect", "hit_policy: colect", "unknown-value", "colect",
                "'collect'"},
        Refusal{"gives: [remove, treat]", "gives: [remove, treat, treat]", "duplicate-name",
                "treat]", ""},
        Refusal{"    about: What to do.\n", "", "missing-key", "gives: [remove, treat]", "about"},
        Refusal{"gives: weak,", "gives: wek,", "unknown-value", "wek,", "'weak'"},
        Refusal{"id: pecked", "id: d-holes", "duplicate-id", "d-holes, when: {pecking",
                "of its own"},
        Refusal{"id: pecked", "id: Pecked!", "bad-name", "Pecked!", "small letters"},
        Refusal{"id: pecked, when: {pecking: {at_least: light}},", "id: pecked,", "missing-key",
                "{id: pecked", "when"},
        Refusal{"because: Pecked., ", "", "missing-key", "{id: pecked", "because"},
        Refusal{"because: Pecked., source: invented", "because: Pecked.", "missing-key",
                "{id: pecked", "source"},
        Refusal{"because: Pecked.,", "becaus: x, because: Pecked.,", "unknown-key",
                "becaus:", "'because'"},
        Refusal{"{loss} is above", "{los} is above", "unknown-placeholder", "A loss of", "'loss'"},
        Refusal{"{loss} is above", "{loss is above", "bad-placeholder", "A loss of",
                "{canopy_loss}"},
        Refusal{"client: Too little is left.", "client: The tree is safe.", "clears-a-tree",
                "The tree is safe", "looked for"},
        Refusal{"when: {dead: yes}, gives: dead_tree",
                "when: {flags: {includes: brittle}}, gives: dead_tree", "cycle", "{id: is-dead",
                "do not test it"}),
    case_name);

INSTANTIATE_TEST_SUITE_P(
    OfCases, RefusedPack,
    testing::Values(
        Refusal{"given: {loss: 60}", "given: {los: 60}", "unknown-fact", "los: 60", "'loss'"},
        Refusal{"given: {loss: 60}", "given: {loss: 101 %}", "bad-value", "101 %",
                "from 0 to 100 %"},
        Refusal{"given: {loss: 60}", "given: {loss: -1}", "bad-value", "-1", "could not see"},
        Refusal{"given: {loss: 60}", "given: {loss: .nan}", "bad-value", ".nan", ""},
        Refusal{"given: {loss: 60}", "given: {loss: 060}", "bad-value", "060", ""},
        Refusal{"given: {loss: 60}", "given: {loss: [60]}", "wrong-kind", "[60]", ""},
        Refusal{"given: {loss: 60}", "given: {loss: 60, holes: 0, hole_shape: round}",
                "does-not-apply", "{loss: 60, holes", "only_if"},
        Refusal{"pecking: light}", "pecking: lite}", "bad-value", "lite", "light"},
        Refusal{"preset: strict", "preset: strct", "unknown-preset", "strct", "'strict'"},
        Refusal{"{advice: remove, flags", "{advise: remove, flags", "unknown-table", "advise",
                "'advice'"},
        Refusal{"{advice: remove, flags", "{advice: remov, flags", "unknown-value", "remov,",
                "'remove'"},
        Refusal{"flags: [brittle]", "flags: []", "empty-value", "[]", "name outcomes"},
        Refusal{"{excludes: [dead_tree]}", "{exclude: [dead_tree], includes: [brittle]}",
                "unknown-key", "exclude:", "'excludes'"},
        Refusal{"{advice: remove, flags: [brittle]}", "{}", "empty-value", "{}", "name a table"},
        Refusal{"id: strict-one", "id: far-gone", "duplicate-id", "far-gone, preset", "of its own"},
        Refusal{"id: strict-one", "id: strict one", "bad-name", "strict one", "letters"}),
    case_name);

TEST(RefusedPacks, APackThatSaysNothingIsRefused) {
    const auto problems = problems_of("pack: small\nedition: 1\nabout: x\n");
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].id, "empty-pack");
    EXPECT_EQ(problems[0].place, (Place{1, 1}));
}

TEST(RefusedPacks, TheUnchangedPackIsWell) {
    EXPECT_TRUE(problems_of(small_pack).empty());
}

TEST(RefusedPacks, ShowAllProblemsTogetherInTheOrderOfTheFile) {
    std::string pack = changed("when: {pecking: {at_least: light}}", "when: {peking: light}");
    pack.replace(pack.find("kind: ordered"), 13, "kind: orderd ");
    pack.replace(pack.find("gives: treat"), 12, "gives: tread");
    try {
        read_rule_set(files_with(pack));
        FAIL();
    } catch (const BadFile& error) {
        const std::string text = error.what();
        EXPECT_EQ(error.problems().size(), 3U) << text;
        EXPECT_LT(text.find("orderd"), text.find("peking"));
        EXPECT_LT(text.find("peking"), text.find("tread"));
        EXPECT_TRUE(error.where().empty());
    }
}

TEST(RefusedPacks, AMistakeInAFactIsNotRepeatedWhereTheFactIsUsed) {
    const auto problems =
        problems_of(changed("levels: [none, light, heavy]", "levels: [none, 5!]"));
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].id, "bad-name");
}

TEST(RefusedPacks, NameTheWayOfACycle) {
    std::string pack = changed("when: {hole_shape: d_shaped}", "when: {advice: treat}");
    const auto problems = problems_of(pack);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].id, "cycle");
    EXPECT_THAT(problems[0].message, HasSubstr("signs -> advice -> signs"));
}

TEST(RefusedPacks, AFactOfTwoFilesIsRefused) {
    auto files = files_with(small_pack);
    files.push_back({"z.yaml",
                     "pack: z\nedition: 1\nabout: x\nfacts:\n  dead: {kind: yes_no, group: a, ask: "
                     "b, source: invented}\n",
                     {}});
    try {
        read_rule_set(files);
        FAIL();
    } catch (const BadFile& error) {
        const Problem& problem = error.problems().list().at(0);
        EXPECT_EQ(problem.id, "duplicate-name");
        EXPECT_EQ(problem.file, "z.yaml");
        EXPECT_EQ(problem.place, (Place{5, 3}));
        EXPECT_THAT(problem.message, HasSubstr("small.yaml"));
    }
}

TEST(RefusedPacks, SourcesNeedACitationAndAnEvidence) {
    auto files = files_with(small_pack);
    files[1].text =
        "sources:\n  invented: {evidence: red, citation: x}\n  handbook: {evidence: read}\n";
    try {
        read_rule_set(files);
        FAIL();
    } catch (const BadFile& error) {
        std::vector<std::string> ids;
        for (const Problem& problem : error.problems().list()) ids.push_back(problem.id);
        EXPECT_THAT(ids, ElementsAre("unknown-value", "missing-key"));
        EXPECT_EQ(error.problems().list()[0].hint, "did you mean 'read'?");
        EXPECT_EQ(error.problems().list()[0].file, "sources.yaml");
    }
}

TEST(RefusedPacks, TooManyOutcomesAreRefused) {
    std::string gives = "gives: [remove, treat";
    for (int i = 0; i < 61; ++i) gives += ", more_" + std::to_string(i);
    const auto problems = problems_of(changed("gives: [remove, treat", gives));
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].id, "too-many-values");
}

}  // namespace
}  // namespace ashtriage::packs
