#include "packs/rule_files.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "measure/input_error.hpp"
#include "packs/bad_file.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/yaml_document.hpp"

namespace ashtriage::packs {
namespace {

namespace fs = std::filesystem;
using measure::InputError;
using testing::HasSubstr;

// A folder of its own for each test, removed at its end.
class RulesFolder : public testing::Test {
 protected:
    RulesFolder()
        : folder_(fs::path(testing::TempDir()) /
                  ("rules_" +
                   std::string(testing::UnitTest::GetInstance()->current_test_info()->name()))) {
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    ~RulesFolder() override { fs::remove_all(folder_); }

    void write(const std::string& name, const std::string& text) const {
        fs::create_directories((folder_ / name).parent_path());
        std::ofstream(folder_ / name, std::ios::binary) << text;
    }

    InputError error() const {
        try {
            rule_files(folder_);
        } catch (const InputError& found) {
            return found;
        }
        ADD_FAILURE() << "no error";
        return InputError("");
    }

    fs::path folder_;
};

TEST_F(RulesFolder, AnEmptyFolderChangesNothing) {
    const auto files = rule_files(folder_);
    const auto built_in = built_in_rule_files();
    ASSERT_EQ(files.size(), built_in.size());
    for (std::size_t i = 0; i < files.size(); ++i) EXPECT_EQ(files[i].text, built_in[i].text);
    EXPECT_EQ(rule_files(std::nullopt).size(), built_in.size());
}

TEST_F(RulesFolder, AFileTakesThePlaceOfTheBuiltInOne) {
    write("sources.yaml", "sources: {}\n");
    const auto files = rule_files(folder_);
    EXPECT_EQ(files.size(), built_in_rule_files().size());
    const RuleFile* file = find_rule_file(files, "sources.yaml");
    ASSERT_NE(file, nullptr);
    EXPECT_EQ(file->text, "sources: {}\n");
    EXPECT_EQ(file->shown_name(), (folder_ / "sources.yaml").string());
}

TEST_F(RulesFolder, MayAddLabelCards) {
    write("labels/my-card.yaml", "x: 1\n");
    const auto files = rule_files(folder_);
    EXPECT_NE(find_rule_file(files, "labels/my-card.yaml"), nullptr);
    EXPECT_TRUE(
        std::is_sorted(files.begin(), files.end(),
                       [](const RuleFile& a, const RuleFile& b) { return a.name < b.name; }));
}

TEST_F(RulesFolder, RefusesAMisspeltNameWithTheNearest) {
    write("sorces.yaml", "");
    EXPECT_THAT(error().what(), HasSubstr("'sorces.yaml' is not the name of a rule file"));
    EXPECT_EQ(error().hint(), "did you mean 'sources.yaml'?");
    EXPECT_EQ(error().where(), (folder_ / "sorces.yaml").string());
}

TEST_F(RulesFolder, RefusesAnotherEnding) {
    write("sources.yml", "");
    EXPECT_EQ(error().hint(), "did you mean 'sources.yaml'?");
}

TEST_F(RulesFolder, RefusesAFileThatIsNamedLikeNoRuleFile) {
    write("my-own-thoughts.yaml", "");
    EXPECT_FALSE(error().hint().empty());
}

TEST_F(RulesFolder, LeavesOtherFilesAlone) {
    write("README.md", "");
    write(".sorces.yaml.swp.yaml", "");
    write(".git/config.yaml", "");
    EXPECT_EQ(rule_files(folder_).size(), built_in_rule_files().size());
}

TEST_F(RulesFolder, RefusesAFolderThatDoesNotExist) {
    fs::remove_all(folder_);
    EXPECT_THAT(error().what(), HasSubstr("cannot be read"));
}

TEST_F(RulesFolder, AHugeFileIsRefusedWithoutBeingTakenInWhole) {
    write("sources.yaml", std::string(3 * largest_yaml_file, '#'));
    const auto files = rule_files(folder_);
    EXPECT_LE(find_rule_file(files, "sources.yaml")->text.size(), largest_yaml_file + 1);
    try {
        read_rule_set(files);
        FAIL();
    } catch (const BadFile& bad) {
        EXPECT_EQ(bad.problems().list()[0].id, "file-too-large");
    }
}

TEST(RuleFileNames, TellPacksFromOtherFiles) {
    EXPECT_TRUE(is_pack("hazard.yaml"));
    EXPECT_FALSE(is_pack("sources.yaml"));
    EXPECT_FALSE(is_pack("seasons.yaml"));
    EXPECT_FALSE(is_pack("records.yaml"));
    EXPECT_FALSE(is_pack("method_facts.yaml"));
    EXPECT_FALSE(is_pack("labels/card.yaml"));
}

}  // namespace
}  // namespace ashtriage::packs
