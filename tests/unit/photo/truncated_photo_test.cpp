// Files cut off or changed anywhere: every one is either refused in words or read without harm.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "measure/input_error.hpp"
#include "photo/photo_facts.hpp"
#include "photo_builder.hpp"

namespace ashtriage::photo {
namespace {

using testing::Bytes;
using testing::facts_of;
using testing::PhotoBuilder;

PhotoBuilder full_photo(testing::ByteOrder order) {
    return PhotoBuilder(order)
        .exif_text(testing::date_time_original, "2026:06:14 09:30:05")
        .exif_text(testing::offset_time_original, "-05:00")
        .position("N", 41, 52, 5520, "W", 87, 37, 4080)
        .gps_byte(testing::altitude_reference, 0)
        .gps_rationals(testing::altitude, {{180, 1}})
        .gps_text(testing::map_datum, "WGS-84");
}

// Whatever is read from damaged bytes must still be a date, a place and a height that exist.
void expect_plausible(const PhotoFacts& facts) {
    if (facts.taken) {
        EXPECT_TRUE(facts.taken->date.ok());
        EXPECT_GE(facts.taken->since_midnight, std::chrono::seconds{0});
        EXPECT_LT(facts.taken->since_midnight, std::chrono::hours{24});
    }
    if (facts.position) {
        EXPECT_LE(std::abs(facts.position->latitude), 90.0);
        EXPECT_LE(std::abs(facts.position->longitude), 180.0);
    }
}

TEST(TruncatedPhoto, AFileCutAnywhereInItsHeaderIsRefused) {
    const Bytes photo = full_photo(testing::ByteOrder::intel).jpeg();
    const PhotoFacts whole = facts_of(photo);
    ASSERT_TRUE(whole.taken && whole.position && whole.altitude);
    const std::size_t header_end = photo.size() - 4;  // all but the scan
    for (std::size_t length = 0; length < header_end; ++length) {
        const Bytes cut(photo.begin(), photo.begin() + static_cast<std::ptrdiff_t>(length));
        EXPECT_THROW(facts_of(cut), measure::InputError) << length;
    }
    for (std::size_t length = header_end; length <= photo.size(); ++length) {
        const Bytes cut(photo.begin(), photo.begin() + static_cast<std::ptrdiff_t>(length));
        EXPECT_EQ(facts_of(cut), whole) << length;
    }
}

TEST(TruncatedPhoto, AnExifBlockCutAnywhereGivesOnlyWhatIsWholeInIt) {
    for (const testing::ByteOrder order :
         {testing::ByteOrder::intel, testing::ByteOrder::motorola}) {
        const Bytes block = full_photo(order).exif_block();
        const PhotoFacts whole = facts_of(PhotoBuilder::jpeg_around(block));
        for (std::size_t length = 0; length < block.size(); ++length) {
            const Bytes cut(block.begin(), block.begin() + static_cast<std::ptrdiff_t>(length));
            const PhotoFacts facts = facts_of(PhotoBuilder::jpeg_around(cut));
            if (facts.taken) {
                EXPECT_EQ(facts.taken->date, whole.taken->date) << length;
                EXPECT_EQ(facts.taken->since_midnight, whole.taken->since_midnight) << length;
            }
            if (facts.position) {
                EXPECT_EQ(facts.position, whole.position) << length;
            }
            if (facts.altitude) {
                EXPECT_EQ(facts.altitude, whole.altitude) << length;
            }
        }
    }
}

TEST(TruncatedPhoto, APositionThatBreaksOffIsLeftOutAndSaysSo) {
    Bytes block = PhotoBuilder().position("N", 41, 52, 5520, "W", 87, 37, 4080).exif_block();
    block.pop_back();  // the last byte of the longitude
    const PhotoFacts facts = facts_of(PhotoBuilder::jpeg_around(block));
    EXPECT_FALSE(facts.position);
    EXPECT_THAT(facts.left_out,
                ::testing::ElementsAre(::testing::HasSubstr("longitude is missing")));
}

TEST(DamagedPhoto, EveryByteSetToEveryValueIsRefusedOrReadPlausibly) {
    const Bytes photo = full_photo(testing::ByteOrder::motorola).jpeg();
    std::size_t read = 0;
    std::size_t refused = 0;
    for (std::size_t at = 0; at < photo.size(); ++at) {
        Bytes changed = photo;
        for (unsigned value = 0; value < 256; ++value) {
            changed[at] = static_cast<unsigned char>(value);
            try {
                expect_plausible(facts_of(changed));
                ++read;
            } catch (const measure::InputError&) {
                ++refused;
            }
        }
    }
    EXPECT_EQ(read + refused, photo.size() * 256);
    EXPECT_GT(read, 0U);
    EXPECT_GT(refused, 0U);
}

TEST(DamagedPhoto, DirectoriesThatPointAtThemselvesEnd) {
    Bytes block = full_photo(testing::ByteOrder::intel).exif_block();
    // IFD 0 begins at TIFF offset 8; its two entries' value fields are the pointers. Point both
    // back at IFD 0, and let IFD 0 name itself as the next directory too.
    const std::size_t tiff = 6;
    const std::size_t first_pointer = tiff + 8 + 2 + 8;
    const std::size_t second_pointer = first_pointer + 12;
    const std::size_t next_directory = second_pointer + 4;
    for (const std::size_t at : {first_pointer, second_pointer, next_directory}) {
        std::fill_n(block.begin() + static_cast<std::ptrdiff_t>(at), 4,
                    static_cast<unsigned char>(0));
        block[at] = 8;
    }
    const PhotoFacts facts = facts_of(PhotoBuilder::jpeg_around(block));
    EXPECT_FALSE(facts.taken);
    EXPECT_FALSE(facts.position);
}

}  // namespace
}  // namespace ashtriage::photo
