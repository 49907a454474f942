// A label card: what one label allows for one method, typed in from the label in the user's hand.
//
// The cards that come with the program are examples by active ingredient. They show how a card is
// filled in; nothing may be applied by them. What a label says about protective equipment, re-entry
// and the like is copied, never worked out.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "measure/stems.hpp"
#include "treat/amount.hpp"

namespace ashtriage::treat {

// How the product is brought to the tree.
enum class Application { basal_trunk_spray, soil_drench, soil_injection, trunk_injection };
enum class ProductForm { liquid, dry };

// What a rate is counted by. A rate by girth is refused on reading, with the way to turn it into
// one by DBH.
enum class Per { inch_dbh, cm_dbh };

enum class SignalWord { danger, warning, caution, none };

// Keys into the sources of the rule set; a card of one's own may say "label" instead.
using SourceKeys = std::vector<std::string>;

// So much active ingredient in so much product, as the label states it.
struct Strength {
    measure::Mass active;
    Amount per;
    std::optional<measure::Percent> percent_by_weight;  // when the label prints it as well
    SourceKeys sources;
};

// Product, undiluted, for each inch or centimetre of DBH.
struct Rate {
    Per per = Per::inch_dbh;
    StatedAmount low;
    StatedAmount usual;
    StatedAmount high;  // the most the label allows
    SourceKeys sources;
};

// The finished mix for each inch or centimetre of DBH: product, surfactant and carrier together.
struct Mix {
    std::string carrier;  // "water"
    StatedVolume finished;
    Per per = Per::inch_dbh;
    SourceKeys sources;
};

struct Surfactant {
    struct PerTrunk {
        StatedVolume amount;
        Per per = Per::inch_dbh;
    };

    std::string what;                                 // "organosilicone surfactant"
    std::variant<measure::Percent, PerTrunk> amount;  // the percentage is of the finished volume
    SourceKeys sources;
};

struct DbhRange {
    std::optional<measure::Length> from;  // both ends belong to the range
    std::optional<measure::Length> to;
    SourceKeys sources;
};

struct Limits {
    std::optional<StatedAmount> per_application;  // product for one tree, whatever its size
    std::optional<int> applications_per_year;
    std::optional<int> again_after_months;
    std::optional<measure::Mass> active_per_acre_per_year;
    SourceKeys sources;
};

// Bark is sprayed from the root flare up to this height above the ground.
struct SprayedBark {
    measure::Length up_to;
    SourceKeys sources;
};

// Injection holes, at most this far apart around the trunk.
struct Holes {
    measure::Length spacing;
    SourceKeys sources;
};

// The smallest step of what each part is measured with, in the unit of its marks.
struct Devices {
    StatedAmount product;
    std::optional<StatedVolume> surfactant;
    std::optional<StatedVolume> carrier;
};

struct Caution {
    std::string text;
    SourceKeys sources;
};

// What only a real label has; absent from an example card.
struct FromLabel {
    std::string product_name;
    std::string registration_number;  // text, never a number
    SignalWord signal_word = SignalWord::none;
    bool restricted_use = false;
    std::string re_entry;
    measure::Date checked_on;  // when the card was last held against the label
};

struct LabelCard {
    std::string key;    // the file's name without .yaml
    std::string title;  // active ingredient, strength and method in words
    bool example = true;
    std::string method;  // as the rule set's table of methods and the seasons name it
    Application application = Application::basal_trunk_spray;
    std::string active_ingredient;
    ProductForm product = ProductForm::liquid;
    Strength strength;
    Rate rate;
    std::optional<Mix> mix;  // none: the product is applied as it is
    std::optional<Surfactant> surfactant;
    DbhRange dbh;
    measure::StemRule several_stems = measure::StemRule::sum;  // what labels commonly say
    Limits limits;
    std::optional<SprayedBark> spray;
    std::optional<Holes> holes;
    Devices measure_with;
    std::string protective_equipment;  // as the label says it
    std::vector<Caution> cautions;
    std::optional<FromLabel> from_label;
};

// One inch or one centimetre.
measure::Length one(Per per);

// "inch DBH", "centimetre DBH".
std::string_view words(Per per);
// "basal trunk spray", "soil drench" ...
std::string_view words(Application application);
// "the sum of the DBH of all stems" ...
std::string_view words(measure::StemRule rule);

// The card for a method, or nothing. A card of one's own goes before an example.
const LabelCard* card_for_method(const std::vector<LabelCard>& cards, std::string_view method);

// What is said wherever an example card is used; empty for a card copied from a real label.
std::string example_notice(const LabelCard& card);

}  // namespace ashtriage::treat
