// The fields of a record by name, and the times in it.
#include <gtest/gtest.h>

#include <set>

#include "measure/input_error.hpp"
#include "record_example.hpp"
#include "treat/check_application.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;

TEST(RecordFields, AreAllGivenInAFullRecordAndMissingInABareOne) {
    for (const RecordField& field : record_fields()) {
        EXPECT_TRUE(field.given(test::full_record())) << field.name;
        const bool in_bare = field.name == "written_on" || field.name == "work_date";
        EXPECT_EQ(field.given(test::bare_record()), in_bare) << field.name;
    }
}

TEST(RecordFields, HaveEachANameOfItsOwn) {
    std::set<std::string_view> names;
    for (const RecordField& field : record_fields()) {
        EXPECT_TRUE(names.insert(field.name).second) << field.name;
        EXPECT_EQ(find_record_field(field.name), &field);
    }
    EXPECT_EQ(find_record_field("start"), nullptr);
}

TEST(RecordFields, CanBeSaidNotToApplyOnlyWhereThatCanBe) {
    for (const RecordField& field : record_fields()) {
        ApplicationRecord record = test::bare_record();
        record.does_not_apply = {std::string(field.name)};
        EXPECT_TRUE(said_not_to_apply(record, field));
        if (field.may_not_apply) {
            EXPECT_NO_THROW(check(record)) << field.name;
        } else {
            EXPECT_THROW(check(record), InputError) << field.name;
        }
    }
}

TEST(RecordFields, AskForNoWindDirectionInStillAir) {
    const RecordField* direction = find_record_field("wind_direction");
    ASSERT_NE(direction, nullptr);
    ApplicationRecord record = test::bare_record();
    record.wind_speed = measure::Speed{};
    EXPECT_TRUE(direction->given(record));
    record.wind_speed = measure::Speed::of("1", measure::units::mile_per_hour);
    EXPECT_FALSE(direction->given(record));
}

TEST(LocalTimes, AreReadAndWritten) {
    for (const char* written : {"00:00", "07:30", "12:05", "23:59"}) {
        EXPECT_EQ(text(parse_local_time(written)), written);
    }
    EXPECT_EQ(parse_local_time("16:05").minutes, 965);
    for (const char* written :
         {"", "7:30", "24:00", "12:60", "07:30 ", "0730", "07.30", "-7:30", "7:30 pm", "ab:cd"}) {
        EXPECT_THROW(parse_local_time(written), InputError) << written;
    }
}

TEST(UtcOffsets, AreReadAndWritten) {
    for (const char* written : {"-12:00", "-05:00", "-03:30", "+00:00", "+05:45", "+14:00"}) {
        EXPECT_EQ(text(parse_utc_offset(written)), written);
    }
    EXPECT_EQ(parse_utc_offset("-03:30").minutes, -210);
    for (const char* written :
         {"", "05:00", "-12:01", "+14:01", "-5:00", "Z", "−05:00", "-05:60"}) {
        EXPECT_THROW(parse_utc_offset(written), InputError) << written;
    }
}

}  // namespace
}  // namespace ashtriage::treat
