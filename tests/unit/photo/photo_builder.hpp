// Small JPEG files with an Exif block, put together byte by byte from the layout in CIPA DC-008
// (Exif) and TIFF 6.0, so that the reader is held against the standard and not against the library
// it uses. They hold no picture: the header ends in an empty scan.
#pragma once

#include <cstddef>
#include <cstdint>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "photo/photo_facts.hpp"

namespace ashtriage::photo::testing {

using Bytes = std::vector<unsigned char>;

enum class ByteOrder { intel, motorola };

// Tag ids of CIPA DC-008.
inline constexpr std::uint16_t date_time_original = 0x9003;
inline constexpr std::uint16_t offset_time_original = 0x9011;
inline constexpr std::uint16_t latitude_reference = 0x0001;
inline constexpr std::uint16_t latitude = 0x0002;
inline constexpr std::uint16_t longitude_reference = 0x0003;
inline constexpr std::uint16_t longitude = 0x0004;
inline constexpr std::uint16_t altitude_reference = 0x0005;
inline constexpr std::uint16_t altitude = 0x0006;
inline constexpr std::uint16_t map_datum = 0x0012;

struct Rational {
    std::uint32_t numerator = 0;
    std::uint32_t denominator = 1;
};

class PhotoBuilder {
 public:
    explicit PhotoBuilder(ByteOrder order = ByteOrder::intel) : order_(order) {}

    PhotoBuilder& exif_text(std::uint16_t tag, std::string_view text) {
        exif_.push_back(text_entry(tag, text));
        return *this;
    }
    PhotoBuilder& gps_text(std::uint16_t tag, std::string_view text) {
        gps_.push_back(text_entry(tag, text));
        return *this;
    }
    PhotoBuilder& gps_byte(std::uint16_t tag, unsigned char value) {
        gps_.push_back({tag, byte_type, 1, {value}});
        return *this;
    }
    PhotoBuilder& gps_rationals(std::uint16_t tag, const std::vector<Rational>& values) {
        Entry entry{tag, rational_type, static_cast<std::uint32_t>(values.size()), {}};
        for (const Rational& value : values) {
            append_32(entry.value, value.numerator);
            append_32(entry.value, value.denominator);
        }
        gps_.push_back(std::move(entry));
        return *this;
    }
    // The position of a place in degrees, minutes and hundredths of a second.
    PhotoBuilder& position(const std::string& north_or_south, std::uint32_t lat_degrees,
                           std::uint32_t lat_minutes, std::uint32_t lat_hundredths,
                           const std::string& east_or_west, std::uint32_t lon_degrees,
                           std::uint32_t lon_minutes, std::uint32_t lon_hundredths) {
        gps_text(latitude_reference, north_or_south);
        gps_rationals(latitude, {{lat_degrees, 1}, {lat_minutes, 1}, {lat_hundredths, 100}});
        gps_text(longitude_reference, east_or_west);
        gps_rationals(longitude, {{lon_degrees, 1}, {lon_minutes, 1}, {lon_hundredths, 100}});
        return *this;
    }

    // "Exif\0\0" and the TIFF structure: IFD 0 with pointers to the Exif and the GPS directory.
    Bytes exif_block() const {
        constexpr std::uint32_t first_directory = 8;
        const std::uint32_t exif_at = first_directory + directory_size(2);
        const std::uint32_t exif_size = directory_size(exif_.size()) + values_size(exif_);
        const std::uint32_t gps_at = exif_at + exif_size;

        Bytes tiff = order_ == ByteOrder::intel ? Bytes{'I', 'I'} : Bytes{'M', 'M'};
        append_16(tiff, 42);
        append_32(tiff, first_directory);
        append_directory(
            tiff, {pointer_entry(exif_pointer, exif_at), pointer_entry(gps_pointer, gps_at)});
        append_directory(tiff, exif_);
        append_directory(tiff, gps_);

        Bytes block;
        block.reserve(6 + tiff.size());
        for (const char letter : {'E', 'x', 'i', 'f', '\0', '\0'}) {
            block.push_back(static_cast<std::uint8_t>(letter));
        }
        for (const auto byte : tiff) block.push_back(byte);
        return block;
    }

    Bytes jpeg() const { return jpeg_around(exif_block()); }

    // A JPEG header with this content in an APP1 segment, followed by an empty scan.
    static Bytes jpeg_around(const Bytes& app1) {
        Bytes jpeg = {0xFF, 0xD8, 0xFF, 0xE1};
        const std::size_t length = app1.size() + 2;
        jpeg.push_back(static_cast<unsigned char>(length >> 8U));
        jpeg.push_back(static_cast<unsigned char>(length & 0xFFU));
        jpeg.insert(jpeg.end(), app1.begin(), app1.end());
        const Bytes end = {0xFF, 0xDA, 0xFF, 0xD9};
        jpeg.insert(jpeg.end(), end.begin(), end.end());
        return jpeg;
    }

 private:
    // Field types of TIFF 6.0.
    static constexpr std::uint16_t byte_type = 1;
    static constexpr std::uint16_t ascii_type = 2;
    static constexpr std::uint16_t long_type = 4;
    static constexpr std::uint16_t rational_type = 5;

    static constexpr std::uint16_t exif_pointer = 0x8769;
    static constexpr std::uint16_t gps_pointer = 0x8825;

    struct Entry {
        std::uint16_t tag = 0;
        std::uint16_t type = 0;
        std::uint32_t count = 0;
        Bytes value;
    };

    static Entry text_entry(std::uint16_t tag, std::string_view text) {
        Bytes value(text.begin(), text.end());
        value.push_back(0);
        return {tag, ascii_type, static_cast<std::uint32_t>(value.size()), value};
    }
    Entry pointer_entry(std::uint16_t tag, std::uint32_t offset) const {
        Entry entry{tag, long_type, 1, {}};
        append_32(entry.value, offset);
        return entry;
    }

    static std::uint32_t directory_size(std::size_t entries) {
        return static_cast<std::uint32_t>(2 + 12 * entries + 4);
    }
    // Values longer than four bytes stand behind the directory.
    static std::uint32_t values_size(const std::vector<Entry>& entries) {
        std::size_t size = 0;
        for (const Entry& entry : entries) {
            if (entry.value.size() > 4) size += entry.value.size();
        }
        return static_cast<std::uint32_t>(size);
    }

    void append_16(Bytes& bytes, std::uint32_t value) const {
        const auto low = static_cast<unsigned char>(value & 0xFFU);
        const auto high = static_cast<unsigned char>(value >> 8U & 0xFFU);
        bytes.push_back(order_ == ByteOrder::intel ? low : high);
        bytes.push_back(order_ == ByteOrder::intel ? high : low);
    }
    void append_32(Bytes& bytes, std::uint32_t value) const {
        append_16(bytes, order_ == ByteOrder::intel ? value & 0xFFFFU : value >> 16U);
        append_16(bytes, order_ == ByteOrder::intel ? value >> 16U : value & 0xFFFFU);
    }
    // Appended where the TIFF structure so far ends, with offsets counted from its start.
    void append_directory(Bytes& tiff, const std::vector<Entry>& entries) const {
        auto behind = static_cast<std::uint32_t>(tiff.size()) + directory_size(entries.size());
        Bytes values;
        append_16(tiff, static_cast<std::uint32_t>(entries.size()));
        for (const Entry& entry : entries) {
            append_16(tiff, entry.tag);
            append_16(tiff, entry.type);
            append_32(tiff, entry.count);
            if (entry.value.size() > 4) {
                append_32(tiff, behind);
                behind += static_cast<std::uint32_t>(entry.value.size());
                values.insert(values.end(), entry.value.begin(), entry.value.end());
            } else {
                Bytes inside = entry.value;
                inside.resize(4);
                tiff.insert(tiff.end(), inside.begin(), inside.end());
            }
        }
        append_32(tiff, 0);  // no further directory
        tiff.insert(tiff.end(), values.begin(), values.end());
    }

    ByteOrder order_;
    std::vector<Entry> exif_;
    std::vector<Entry> gps_;
};

inline PhotoFacts facts_of(const Bytes& jpeg) {
    std::istringstream stream(std::string(jpeg.begin(), jpeg.end()));
    return read_photo_facts(stream, "tree.jpg");
}

}  // namespace ashtriage::photo::testing
