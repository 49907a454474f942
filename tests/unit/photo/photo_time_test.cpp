// Date and time taken: tags 0x9003 and 0x9011 of CIPA DC-008 (Exif 2.31).
#include <gmock/gmock.h>
#include <libexif/exif-data.h>

#include <cstdlib>
#include <cstring>
#include <memory>

#include "photo/photo_facts.hpp"
#include "photo_builder.hpp"

namespace ashtriage::photo {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::PhotoBuilder;
using namespace std::chrono_literals;

PhotoFacts facts_with_date(std::string_view date_time) {
    return testing::facts_of(
        PhotoBuilder().exif_text(testing::date_time_original, date_time).jpeg());
}

PhotoFacts facts_with_offset(std::string_view offset) {
    return testing::facts_of(PhotoBuilder()
                                 .exif_text(testing::date_time_original, "2026:06:14 09:30:05")
                                 .exif_text(testing::offset_time_original, offset)
                                 .jpeg());
}

TEST(PhotoTime, IsTheCamerasLocalDateAndTime) {
    for (const testing::ByteOrder order :
         {testing::ByteOrder::intel, testing::ByteOrder::motorola}) {
        const PhotoFacts facts =
            testing::facts_of(PhotoBuilder(order)
                                  .exif_text(testing::date_time_original, "2026:06:14 09:30:05")
                                  .jpeg());
        ASSERT_TRUE(facts.taken);
        EXPECT_EQ(facts.taken->date, 2026y / std::chrono::June / 14);
        EXPECT_EQ(facts.taken->since_midnight, 9h + 30min + 5s);
        EXPECT_FALSE(facts.taken->offset_from_utc);
        EXPECT_THAT(facts.left_out, IsEmpty());
    }
}

TEST(PhotoTime, FirstAndLastSecondOfADayStayOnThatDay) {
    const PhotoFacts first = facts_with_date("2026:06:14 00:00:00");
    ASSERT_TRUE(first.taken);
    EXPECT_EQ(first.taken->date, 2026y / std::chrono::June / 14);
    EXPECT_EQ(first.taken->since_midnight, 0s);
    const PhotoFacts last = facts_with_date("2026:06:14 23:59:59");
    ASSERT_TRUE(last.taken);
    EXPECT_EQ(last.taken->date, 2026y / std::chrono::June / 14);
    EXPECT_EQ(last.taken->since_midnight, 24h - 1s);
}

TEST(PhotoTime, KnowsLeapDays) {
    EXPECT_TRUE(facts_with_date("2024:02:29 12:00:00").taken);
    EXPECT_FALSE(facts_with_date("2026:02:29 12:00:00").taken);
    EXPECT_FALSE(facts_with_date("2100:02:29 12:00:00").taken);
}

TEST(PhotoTime, LeavesOutWhatIsNoDayOrTimeAndSaysSo) {
    for (const std::string_view written :
         {"2026:13:01 12:00:00", "2026:00:01 12:00:00", "2026:04:31 12:00:00",
          "2026:06:14 24:00:00", "2026:06:14 12:60:00", "2026:06:14 12:00:60",
          "2026-06-14 12:00:00", "2026:06:14T12:00:00", "2026:06:14", "2026:6:14 12:00:00",
          "2026:06:14 12:00:00Z", "+026:06:14 12:00:00", "0001:01:01 12:00:00",
          "2026:06:14 -1:00:00"}) {
        const PhotoFacts facts = facts_with_date(written);
        EXPECT_FALSE(facts.taken) << written;
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr(std::string(written))));
    }
}

TEST(PhotoTime, IsUnknownWhenTheClockWasNeverSet) {
    for (const std::string_view written : {"0000:00:00 00:00:00", "    :  :     :  :  ", ""}) {
        const PhotoFacts facts = facts_with_date(written);
        EXPECT_FALSE(facts.taken) << written;
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("clock")));
    }
}

TEST(PhotoTime, IsUnknownWithoutTheTagAndNothingIsLeftOut) {
    const PhotoFacts facts =
        testing::facts_of(PhotoBuilder().exif_text(testing::offset_time_original, "-05:00").jpeg());
    EXPECT_EQ(facts, PhotoFacts{});
}

TEST(PhotoTime, ReadsTheOffsetFromUtc) {
    EXPECT_EQ(facts_with_offset("-05:00").taken->offset_from_utc, -5h);
    EXPECT_EQ(facts_with_offset("+00:00").taken->offset_from_utc, 0min);
    EXPECT_EQ(facts_with_offset("-03:30").taken->offset_from_utc, -(3h + 30min));
    EXPECT_EQ(facts_with_offset("+14:00").taken->offset_from_utc, 14h);
}

TEST(PhotoTime, KeepsTheTimeWhenTheOffsetIsNone) {
    for (const std::string_view written :
         {"+14:01", "05:00", "-5:00", "-05:60", "-05.00", "UTC+1"}) {
        const PhotoFacts facts = facts_with_offset(written);
        ASSERT_TRUE(facts.taken) << written;
        EXPECT_FALSE(facts.taken->offset_from_utc) << written;
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr(std::string(written))));
    }
}

TEST(PhotoTime, ABlankOffsetIsNoneAndNotWorthAWord) {
    const PhotoFacts facts = facts_with_offset("   :  ");
    ASSERT_TRUE(facts.taken);
    EXPECT_FALSE(facts.taken->offset_from_utc);
    EXPECT_THAT(facts.left_out, IsEmpty());
}

TEST(PhotoTime, AnEveningOffsetDoesNotMoveTheDate) {
    const PhotoFacts facts =
        testing::facts_of(PhotoBuilder()
                              .exif_text(testing::date_time_original, "2026:06:14 22:30:00")
                              .exif_text(testing::offset_time_original, "-05:00")
                              .jpeg());
    EXPECT_EQ(facts.taken->date, 2026y / std::chrono::June / 14);  // already the 15th in UTC
}

// A block written by libexif itself, as a second writer beside the builder of these tests.
TEST(PhotoTime, ReadsABlockWrittenByALibrary) {
    struct Free {
        void operator()(ExifData* data) const { exif_data_unref(data); }
        void operator()(ExifEntry* entry) const { exif_entry_unref(entry); }
        void operator()(unsigned char* bytes) const { std::free(bytes); }
    };
    const std::unique_ptr<ExifData, Free> data(exif_data_new());
    const std::unique_ptr<ExifEntry, Free> entry(exif_entry_new());
    exif_content_add_entry(data->ifd[EXIF_IFD_EXIF], entry.get());
    exif_entry_initialize(entry.get(), EXIF_TAG_DATE_TIME_ORIGINAL);
    ASSERT_EQ(entry->size, 20U);
    std::memcpy(entry->data, "2025:07:04 16:05:59", 20);
    unsigned char* written = nullptr;
    unsigned size = 0;
    exif_data_save_data(data.get(), &written, &size);
    const std::unique_ptr<unsigned char, Free> owner(written);
    ASSERT_GT(size, 0U);

    const PhotoFacts facts =
        testing::facts_of(PhotoBuilder::jpeg_around(testing::Bytes(written, written + size)));
    ASSERT_TRUE(facts.taken);
    EXPECT_EQ(facts.taken->date, 2025y / std::chrono::July / 4);
    EXPECT_EQ(facts.taken->since_midnight, 16h + 5min + 59s);
}

}  // namespace
}  // namespace ashtriage::photo
