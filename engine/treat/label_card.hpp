// A label card: what one label allows for one method, typed in from the label in the user's hand.
//
// The cards that come with the program are examples by active ingredient. They show how a card is
// filled in; nothing may be applied by them. What a label says about protective equipment, re-entry
// and the like is copied, never worked out.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "measure/stems.hpp"
#include "treat/amount.hpp"
#include "treat/label_conditions.hpp"
#include "treat/rate.hpp"

namespace ashtriage::treat {

// How the product is brought to the tree.
enum class Application {
    basal_trunk_spray,
    soil_drench,
    soil_injection,
    trunk_injection,
    cover_spray,
};
enum class ProductForm { liquid, dry };

enum class SignalWord { danger, warning, caution, none };

// So much active ingredient in so much product, as the label states it.
struct Strength {
    measure::Mass active;
    Amount per;
    std::optional<measure::Percent> percent_by_weight;  // when the label prints it as well
    SourceKeys sources;
};

// What counts toward the yearly amount of active ingredient on an acre.
enum class CountedUse { soil, bark, injection, other };

struct DbhRange {
    std::optional<measure::Length> from;  // both ends belong to the range
    std::optional<measure::Length> to;
    SourceKeys sources;
};

struct Limits {
    std::optional<StatedAmount> per_application;  // product for one tree, whatever its size
    std::optional<int> applications_per_year;
    std::optional<int> again_after_months;
    std::optional<int> again_after_days;
    std::optional<measure::Mass> active_per_acre_per_year;
    std::set<CountedUse> counted;  // toward it: all uses, unless the label says otherwise
    SourceKeys sources;
};

// Another active ingredient of the same product.
struct OtherActive {
    std::string name;
    Strength strength;
};

// Bark is sprayed from the root flare up to this height above the ground.
struct SprayedBark {
    measure::Length up_to;
    SourceKeys sources;
};

// Injection holes, at most this far apart around the trunk.
struct Holes {
    measure::Length spacing;
    std::optional<measure::Length> depth;  // into the wood, or into the soil
    std::optional<measure::Length> width;
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

// A label for one state's special need, or for an emergency.
struct SpecialNeed {
    std::string jurisdiction;
    std::string reference;
    measure::Date expires{};  // the last day it holds
};

// What only a real label has; absent from an example card. Texts are as typed from the label.
struct FromLabel {
    std::string product_name;
    std::string registration_number;  // text, never a number
    SignalWord signal_word = SignalWord::none;
    bool restricted_use = false;
    std::string re_entry;
    std::string first_aid;
    std::vector<std::string> sites;      // what may be treated, in the label's words
    bool sites_cover_ash = false;        // whoever typed the card says that they do
    std::vector<std::string> pests;      // against what
    bool pests_cover_borer = false;      // the emerald ash borer, likewise
    bool other_pests_allowed = false;    // on a site that is named
    std::vector<std::string> mandatory;  // statements that bind: must, do not
    std::vector<std::string> advisory;   // statements that advise: should
    std::string storage_and_disposal;
    std::string label_date;  // as printed on the label
    std::optional<SpecialNeed> special_need;
    measure::Date checked_on{};  // when the card was last held against the label
};

struct LabelCard {
    std::string key;    // the file's name without .yaml
    std::string title;  // active ingredient, strength and method in words
    bool example = true;
    std::string method;  // as the rule set's table of methods and the seasons name it
    Application application = Application::basal_trunk_spray;
    std::string active_ingredient;
    ProductForm product = ProductForm::liquid;
    std::string formulation;  // "soluble granule"; empty when not given
    Strength strength;
    std::vector<OtherActive> other_actives;
    Rates rates;
    std::optional<Mix> mix;  // none: the product is applied as it is
    std::optional<Surfactant> surfactant;
    DbhRange dbh;
    measure::StemRule several_stems = measure::StemRule::sum;  // what labels commonly say
    Limits limits;
    std::optional<SprayedBark> spray;
    std::optional<Holes> holes;
    Devices measure_with;
    Conditions conditions;
    std::vector<Buffer> buffers;
    bool never_food_trees = false;
    std::vector<std::string> never_mix_with;
    std::vector<std::string> mixing_order;          // step by step, as the label gives it
    std::vector<StatedAmount> containers;           // the sizes in which the product is sold
    std::vector<std::string> pollinators;           // what the label says of bees and bloom
    std::vector<std::string> protective_equipment;  // as the label says it, an item a line
    std::vector<Caution> cautions;
    std::optional<FromLabel> from_label;
};

// "basal trunk spray", "soil drench" ...
std::string_view words(Application application);
std::string_view words(SignalWord word);  // "DANGER"
std::string_view words(CountedUse use);   // "soil"
// Under which of the counted uses it falls.
CountedUse counted_use(Application application);
// "the sum of the DBH of all stems" ...
std::string_view words(measure::StemRule rule);

// Whether the product of the card holds the active ingredient, as its first or as another.
bool has_active(const LabelCard& card, std::string_view active_ingredient);

// What is said wherever an example card is used; empty for a card copied from a real label.
std::string example_notice(const LabelCard& card);

}  // namespace ashtriage::treat
