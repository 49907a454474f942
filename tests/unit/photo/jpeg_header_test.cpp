// Marker layout: ITU-T T.81 (JPEG), annex B.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <functional>

#include "measure/input_error.hpp"
#include "photo/photo_facts.hpp"
#include "photo_builder.hpp"

namespace ashtriage::photo {
namespace {

using testing::Bytes;
using testing::facts_of;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::PhotoBuilder;

Bytes dated_photo() {
    return PhotoBuilder().exif_text(testing::date_time_original, "2026:06:14 09:30:05").jpeg();
}

// A JPEG with these segments between its start and the Exif segment of dated_photo().
Bytes dated_photo_behind(const Bytes& segments) {
    Bytes photo = dated_photo();
    photo.insert(photo.begin() + 2, segments.begin(), segments.end());
    return photo;
}

void expect_refused(const std::function<void()>& read, const std::string& words) {
    try {
        read();
        ADD_FAILURE() << "was accepted";
    } catch (const measure::InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr(words));
        EXPECT_THAT(error.hint(), Not(IsEmpty()));
    }
}

TEST(JpegHeader, FindsExifBehindOtherSegments) {
    const Bytes jfif = {0xFF, 0xE0, 0, 9, 'J', 'F', 'I', 'F', 0, 1, 2};
    const Bytes comment = {0xFF, 0xFE, 0, 2};
    const Bytes other_app1 = {0xFF, 0xE1, 0, 8, 'h', 't', 't', 'p', ':', 0};
    const Bytes fill_bytes = {0xFF, 0xFF, 0xFF};
    const Bytes restart_marker = {0xFF, 0xD3};
    for (const Bytes& before : {jfif, comment, other_app1, fill_bytes, restart_marker}) {
        EXPECT_TRUE(facts_of(dated_photo_behind(before)).taken);
    }
}

TEST(JpegHeader, TheFirstExifBlockCounts) {
    const Bytes later =
        PhotoBuilder().exif_text(testing::date_time_original, "2027:01:01 00:00:00").jpeg();
    Bytes both = dated_photo();
    both.resize(both.size() - 4);  // without the scan
    both.insert(both.end(), later.begin() + 2, later.end());
    EXPECT_EQ(facts_of(both).taken->date.year(), std::chrono::year{2026});
}

TEST(JpegHeader, APhotographWithoutExifHasNoFacts) {
    EXPECT_EQ(facts_of({0xFF, 0xD8, 0xFF, 0xDA}), PhotoFacts{});
    EXPECT_EQ(facts_of({0xFF, 0xD8, 0xFF, 0xD9}), PhotoFacts{});
    EXPECT_EQ(facts_of({0xFF, 0xD8, 0xFF, 0xFE, 0, 3, 'x', 0xFF, 0xDA}), PhotoFacts{});
}

TEST(JpegHeader, ExifInsideThePictureIsNotLookedFor) {
    Bytes photo = {0xFF, 0xD8, 0xFF, 0xDA};
    const Bytes dated = dated_photo();
    photo.insert(photo.end(), dated.begin() + 2, dated.end());
    EXPECT_EQ(facts_of(photo), PhotoFacts{});
}

TEST(JpegHeader, OtherFilesAreRefused) {
    const Bytes png = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
    const Bytes text = {'#', ' ', 'n', 'o', 't', 'e', 's'};
    const Bytes empty;
    for (const Bytes& file : {png, text, empty}) {
        expect_refused([&] { facts_of(file); }, "\"tree.jpg\" is not a JPEG photograph");
    }
}

TEST(JpegHeader, ADamagedHeaderIsRefused) {
    expect_refused([] { facts_of({0xFF, 0xD8, 0x00, 0xE1, 0, 2}); }, "is damaged");
    // A segment length counts its own two bytes, so 0 and 1 cannot be.
    expect_refused([] { facts_of({0xFF, 0xD8, 0xFF, 0xE1, 0, 0}); }, "is damaged");
    expect_refused([] { facts_of({0xFF, 0xD8, 0xFF, 0xE1, 0, 1}); }, "is damaged");
}

class PhotoFile : public ::testing::Test {
 protected:
    void SetUp() override {
        folder_ = std::filesystem::path(::testing::TempDir()) /
                  ::testing::UnitTest::GetInstance()->current_test_info()->name();
        std::filesystem::create_directories(folder_);
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    std::filesystem::path folder_;
};

TEST_F(PhotoFile, IsReadFromAPathWithSpacesAndAccents) {
    const std::filesystem::path file = folder_ / "frêne no 7, north side.jpg";
    const Bytes photo = dated_photo();
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(photo.data()),
               static_cast<std::streamsize>(photo.size()));
    EXPECT_TRUE(read_photo_facts(file).taken);
}

TEST_F(PhotoFile, ThatIsMissingOrAFolderIsRefused) {
    expect_refused([&] { read_photo_facts(folder_ / "none.jpg"); }, "There is no file");
    expect_refused([&] { read_photo_facts(folder_); }, "is not a file");
}

}  // namespace
}  // namespace ashtriage::photo
