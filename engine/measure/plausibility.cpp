#include "measure/plausibility.hpp"

#include <cmath>
#include <cstdint>
#include <numbers>

#include "measure/stems.hpp"
#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

// A tree outside 1 to 60 in is asked about, not refused: a few real ones lie outside.
constexpr Length smallest_expected = Length::from_ticks(units::inch.ticks);
constexpr Length largest_expected = Length::from_ticks(60 * units::inch.ticks);

// How far from pi or 2.54 times the last DBH still raises the question. The tree has grown since,
// tapes differ, and owners divide a girth by 3 (5 percent off); together that stays well inside 15
// percent, while no stem more than doubles between two visits. This is the program's own choice:
// being asked once too often costs a second.
constexpr double mix_up_tolerance = 0.15;

// The FIA national core field guide allows 0.1 in for each 20 in of diameter, begun or full (from
// memory). Two visits may each be off by that much, in opposite directions.
Length tape_difference(Length dbh) {
    const Length twenty_inches = Length::from_ticks(20 * units::inch.ticks);
    const Length tenth_of_an_inch = Length::from_ticks(units::inch.ticks / 10);
    const std::int64_t begun = multiply_divide(dbh.ticks(), 1, twenty_inches.ticks(), Rounding::up);
    return 2 * (tenth_of_an_inch * begun);
}

std::string shown(Length length) {
    return length.with_unit(units::inch, 1) + " (" + length.with_unit(units::centimetre, 1) + ")";
}

bool about(double ratio, double factor) {
    return std::abs(ratio / factor - 1.0) <= mix_up_tolerance;
}

Length inches_read_as_centimetres(Length dbh) {
    return dbh.scaled(units::centimetre.ticks, units::inch.ticks, Rounding::nearest);
}

}  // namespace

std::vector<DbhQuestion> questions_about_dbh(Length dbh, std::optional<Length> last_visit) {
    std::vector<DbhQuestion> questions;
    const auto ask = [&questions](DbhDoubt doubt, std::string text) {
        questions.push_back({doubt, std::move(text)});
    };
    const Length from_girth = dbh > Length{} ? diameter_from_girth(dbh) : Length{};
    const Length from_centimetres = inches_read_as_centimetres(dbh);

    if (dbh < smallest_expected) {
        ask(DbhDoubt::too_small, "A DBH of " + shown(dbh) + " is under 1 in. Is the unit right?");
    }
    if (dbh > largest_expected) {
        ask(DbhDoubt::too_large, "A DBH of " + shown(dbh) +
                                     " is over 60 in. If this is the girth, the DBH is " +
                                     shown(from_girth) + "; if it was read in cm, " +
                                     shown(from_centimetres) + ". Which was measured?");
    }
    if (!last_visit || *last_visit <= Length{}) return questions;

    const std::string then = " The DBH at the last visit was " + shown(*last_visit) + ".";
    const double ratio = dbh / *last_visit;
    if (about(ratio, std::numbers::pi)) {
        ask(DbhDoubt::girth_as_diameter,
            "A DBH of " + shown(dbh) + " is about 3.14 times the last." + then +
                " Is this the girth? The DBH would then be " + shown(from_girth) + ".");
    }
    if (about(ratio, units::inch.ticks / static_cast<double>(units::centimetre.ticks))) {
        ask(DbhDoubt::centimetres_as_inches,
            "A DBH of " + shown(dbh) + " is about 2.54 times the last." + then +
                " Was it read in cm? The DBH would then be " + shown(from_centimetres) + ".");
    }
    if (dbh<*last_visit&& * last_visit - dbh> tape_difference(*last_visit)) {
        ask(DbhDoubt::shrunk, "A DBH of " + shown(dbh) + " is less than before." + then +
                                  " Stems do not shrink that much: which of the two is right, and"
                                  " was it the same height and the same stem?");
    }
    return questions;
}

std::optional<std::string> girth_question(Length typed) {
    const Length rarely_treated = Length::from_ticks(25 * units::inch.ticks);
    if (typed < rarely_treated) return std::nullopt;
    return "If " + shown(typed) + " is the girth, the DBH is " + shown(diameter_from_girth(typed)) +
           ": measure again, girth / 3.14. A girth is written \"girth " +
           typed.text(units::inch, 0) + " in\".";
}

}  // namespace ashtriage::measure
