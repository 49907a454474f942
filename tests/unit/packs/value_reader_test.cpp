// The quick reader of values against the general one: the same value, or the same refusal, on every
// text and however often it comes.
#include "packs/value_reader.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"

namespace ashtriage::packs {
namespace {

const RuleSet& rules() {
    static const RuleSet read = read_rule_set(built_in_rule_files());
    return read;
}

// The value, or what it is refused with.
struct Answer {
    std::optional<reason::Value> value;
    std::string refusal;

    friend bool operator==(const Answer&, const Answer&) = default;
};

template <class Read>
Answer answer(Read&& read) {
    try {
        return {std::forward<Read>(read)(), {}};
    } catch (const measure::InputError& error) {
        return {std::nullopt, std::string(error.what()) + " / " + error.hint()};
    }
}

// A reader for every fact.
class Readers {
 public:
    Readers() {
        for (std::size_t i = 0; i < rules().facts.size(); ++i) {
            const reason::Fact& fact = rules().model.facts[i];
            facts_.push_back(i);
            readers_.emplace_back(fact, rules().facts[i]);
        }
    }

    // Reads the text, twice, as a value of each fact; gives how many took it.
    int expect_agreement(const std::string& text) {
        int taken = 0;
        for (std::size_t i = 0; i < readers_.size(); ++i) {
            const reason::Fact& fact = rules().model.facts[facts_[i]];
            const Answer expected =
                answer([&] { return parse_value(fact, rules().facts[facts_[i]], text); });
            for (int times = 0; times < 2; ++times) {
                const Answer read = answer([&] { return readers_[i].read(text); });
                EXPECT_EQ(read, expected) << fact.name << ": '" << text << "' " << read.refusal;
            }
            if (expected.value) ++taken;
        }
        return taken;
    }

 private:
    std::vector<std::size_t> facts_;
    std::vector<ValueReader> readers_;
};

TEST(ValueReader, ReadsWhatTheGeneralReaderReads) {
    Readers readers;
    for (const char* text : {"35",
                             "35 %",
                             "35%",
                             "35  %",
                             "0",
                             "0.5",
                             ".5",
                             "100",
                             "20-30",
                             "20 to 30 %",
                             "over 50",
                             "at most 10 ft",
                             "3 in",
                             "3in",
                             "3 IN",
                             "3 \"",
                             "12 ft",
                             "4 mi",
                             "4 miles",
                             "6.5 km",
                             "2 tree heights",
                             "1 tree height",
                             "1 in per 6 in",
                             "45 degrees",
                             "45 degree",
                             "45 deg",
                             "unknown",
                             "could not see",
                             "does not apply",
                             "?",
                             "yes",
                             "Y",
                             "no",
                             "n",
                             "none",
                             "light or heavy",
                             "D-shaped",
                             "d_shaped",
                             "Green Ash",
                             "not clear"}) {
        EXPECT_GT(readers.expect_agreement(text), 0) << text;
    }
}

TEST(ValueReader, RefusesWhatTheGeneralReaderRefuses) {
    Readers readers;
    for (const std::string text :
         {"",           " ",           "1e2", "1e5 %", "0x10", "010",          "1.",
          "1..2",       ".",           "..",  "1.2.3", "+5",   "-5",           "--5",
          "5-",         "-",           "nan", "inf",   "1,5",  "5 % %",        "5 %x",
          "5 girth",    "99999999999", "1 2", "5 oz",  "5\t%", "\xE2\x89\xA4", "5\xC2\xA0%",
          "3.0000001e1"}) {
        readers.expect_agreement(text);
    }
    readers.expect_agreement(std::string(31, '1'));
    readers.expect_agreement(std::string(200, '0'));
    readers.expect_agreement(std::string(201, '1'));
    readers.expect_agreement("1." + std::string(29, '0'));
    readers.expect_agreement("1." + std::string(198, '0'));
    readers.expect_agreement("1." + std::string(199, '0'));
    readers.expect_agreement(std::string(400, '9'));
}

TEST(ValueReader, AgreesOnTextsPutTogetherAtRandom) {
    const std::vector<std::string> pieces{
        "0",   "1",    "7",       "30",   "99.5",     "100",          ".",    "-",
        " ",   " to ", "%",       "in",   " ft",      " mi",          "cm",   "over",
        ">",   "<=",   "unknown", "none", "low",      "high",         " or ", ",",
        "yes", "ash",  "_",       "\t",   " degrees", "tree heights", "e",    "\xE2\x80\x93"};
    std::mt19937 random(20260706);
    Readers readers;
    int taken = 0;
    for (int i = 0; i < 3000; ++i) {
        std::string text;
        for (std::size_t count = 1 + random() % 5; count > 0; --count) {
            text += pieces[random() % pieces.size()];
        }
        taken += readers.expect_agreement(text);
    }
    EXPECT_GT(taken, 300);
}

// More different texts than are remembered, each twice and not in the same order.
TEST(ValueReader, RemembersNothingWrongWhenItsMemoryIsFull) {
    Readers readers;
    for (const int step : {7, 11}) {
        for (int i = 0; i < 1500; ++i) {
            const int low = (i * step) % 1500;
            readers.expect_agreement(std::to_string(low / 20) + "." + std::to_string(low % 20) +
                                     " to " + std::to_string(low / 15));
        }
    }
}

}  // namespace
}  // namespace ashtriage::packs
