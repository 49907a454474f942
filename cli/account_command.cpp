// account: what the acre still takes this year, and what else counts toward it.
#include <algorithm>
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/account_listing.hpp"
#include "present/text_layout.hpp"
#include "record_command.hpp"
#include "work_options.hpp"

namespace ashtriage::cli {

namespace {

struct UseOptions {
    std::string site;
    std::string active;
    std::string amount;
    std::string on;
    std::string what;
    std::string counted = "other";
};

struct RaiseOptions {
    std::string site;
    std::string active;
    std::string per_acre;
    std::string reference;
    std::string jurisdiction;
    std::string expires;
    std::string by;
    bool confirmed = false;
};

struct WithdrawOptions {
    std::string kind;
    std::string number;
    std::string by;
    std::string because;
};

ExitCode show(const Options& options, const WorkOptions& asked) {
    const present::PlannedWork work = planned_work(options, asked);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const present::SiteAccount account =
        present::site_account(book, work, load_knowledge(options).cards);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::account_text(account);
            break;
        case Format::csv:
            std::cout << present::account_csv(account);
            break;
        case Format::json:
            std::cout << present::account_json(account).dump(2) << "\n";
            break;
    }
    const bool over = std::ranges::any_of(account.accounts, [](const treat::AcreAccount& each) {
        return each.over() > measure::Mass{};
    });
    return over || account.example || !account.untold.empty() ? ExitCode::finding : ExitCode::done;
}

// Adds the record to the book, or only tries to in a dry run.
template <class Record>
ExitCode add(const Options& options, book::Book& book, const Record& record,
             const std::string& done) {
    const auto add_it = [&] { return book.add(record); };
    const auto id = options.dry_run ? book.rehearse(add_it) : book.in_transaction(add_it);
    std::cout << present::paragraph(
        options.dry_run ? std::string("Nothing stands against it; it would be recorded.")
                        : done + " Number " + std::to_string(id) + ".");
    return ExitCode::done;
}

// Whether a label card has this name for an active ingredient; asks about it if none has, since it
// is most likely a slip of the pen.
bool is_on_a_card(const Options& options, const std::string& active) {
    std::vector<std::string> names;
    for (const treat::LabelCard& card : load_knowledge(options).cards) {
        names.push_back(card.active_ingredient);
        for (const treat::OtherActive& other : card.other_actives) names.push_back(other.name);
    }
    if (std::ranges::find(names, active) != names.end()) return true;
    const std::string near = packs::nearest(active, names);
    std::cout << present::paragraph(
        "No label card has an active ingredient \"" + active +
            "\", so this changes no account until one has." +
            (near.empty() ? std::string() : " Did you mean \"" + near + "\"?"),
        "WARNING: ");
    return false;
}

// Whether a label card counts such a use of its active ingredient toward a yearly limit; says so if
// none does.
bool is_counted(const Options& options, const treat::OtherUse& use) {
    std::vector<std::string> counted;
    bool limited = false;
    for (const treat::LabelCard& card : load_knowledge(options).cards) {
        if (card.active_ingredient != use.active_ingredient ||
            !card.limits.active_per_acre_per_year) {
            continue;
        }
        limited = true;
        if (card.limits.counted.contains(use.counted_as)) return true;
        for (const treat::CountedUse each : card.limits.counted) {
            const std::string word(treat::words(each));
            if (std::ranges::find(counted, word) == counted.end()) counted.push_back(word);
        }
    }
    std::cout << present::paragraph(
        limited ? "The label cards count these uses toward the yearly amount: " +
                      packs::joined(counted, "and") + ". Recorded as \"" +
                      std::string(treat::words(use.counted_as)) +
                      "\" it does not count. Granules or a drench on turf or shrubs are soil: say "
                      "--counted."
                : "No label card limits " + use.active_ingredient + " by the acre.",
        limited ? "WARNING: " : "");
    return false;
}

// More than so many times the card's own limit may be a slip of the pen. A bound of our own that
// comes from no source.
constexpr int most_times_raised = 2;

// Whether it raises the limit of any card. Asks about one that does not, or by very much.
bool is_above_the_limit(const Options& options, const treat::RaisedAllowance& raised) {
    bool raises = false;
    for (const treat::LabelCard& card : load_knowledge(options).cards) {
        const auto& limit = card.limits.active_per_acre_per_year;
        if (card.active_ingredient != raised.active_ingredient || !limit) continue;
        raises = raises || raised.per_acre > *limit;
        const std::string by_itself = "The label card \"" + card.key + "\" allows " +
                                      limit->with_unit(measure::units::pound, 3) +
                                      " per acre and year by itself: ";
        if (raised.per_acre <= *limit) {
            std::cout << present::paragraph(
                by_itself + "this does not raise its limit, and does not lower it either.",
                "WARNING: ");
        } else if (raised.per_acre > *limit * most_times_raised) {
            std::cout << present::paragraph(
                by_itself + raised.per_acre.with_unit(measure::units::pound, 3) +
                    " is more than twice that. Read the figure of the local label once more; "
                    "\"ashtriage account withdraw\" takes this one back.",
                "WARNING: ");
        }
    }
    return raises;
}

treat::CountedUse counted(const std::string& word) {
    if (word == "soil") return treat::CountedUse::soil;
    if (word == "bark") return treat::CountedUse::bark;
    if (word == "injection") return treat::CountedUse::injection;
    return treat::CountedUse::other;
}

ExitCode use(const Options& options, const UseOptions& asked) {
    auto book = book::Book::open(options.book_path());
    treat::OtherUse use;
    use.site = find_site(book, asked.site).id;
    use.active_ingredient = asked.active;
    use.mass = value_of("amount", [&] { return measure::parse_mass(asked.amount); });
    use.date = asked.on.empty() ? options.date()
                                : value_of("--on", [&] { return measure::parse_date(asked.on); });
    use.what = asked.what;
    use.counted_as = counted(asked.counted);
    const bool known = is_on_a_card(options, use.active_ingredient);
    const bool counts = known && is_counted(options, use);
    return add(options, book, use,
               counts ? "Recorded; it counts toward the year's amount on the acre."
                      : "Recorded under that name.");
}

ExitCode raise(const Options& options, const RaiseOptions& asked) {
    if (!asked.confirmed) {
        std::cerr << present::paragraph(
            "STOP: a raised limit counts only once somebody has seen the local label that grants "
            "it, with its number and the day on which it ends. Such labels lapse. Read it; then "
            "say "
            "so with --i-have-read-it.");
        return ExitCode::finding;
    }
    auto book = book::Book::open(options.book_path());
    treat::RaisedAllowance raised;
    raised.site = find_site(book, asked.site).id;
    raised.active_ingredient = asked.active;
    raised.per_acre = value_of("amount", [&] { return measure::parse_mass(asked.per_acre); });
    raised.reference = asked.reference;
    raised.jurisdiction = asked.jurisdiction;
    raised.expires = value_of("--expires", [&] { return measure::parse_date(asked.expires); });
    raised.confirmed_by = asked.by;
    raised.confirmed_on = options.date();
    const bool known = is_on_a_card(options, raised.active_ingredient);
    const bool raises = is_above_the_limit(options, raised);
    return add(options, book, raised,
               known && raises
                   ? "Recorded; a higher limit than the card's holds on this site until it expires."
                   : "Recorded.");
}

template <class Found>
ExitCode withdraw(const Options& options, book::Book& book, const WithdrawOptions& asked,
                  std::int64_t id, Found found) {
    if (!found) {
        throw measure::InputError("There is no number " + asked.number + " of this kind", "number",
                                  "\"ashtriage account\" lists them.");
    }
    auto record = found->record;
    record.correction = treat::Correction{id, asked.by, options.date(), asked.because, true};
    return add(options, book, record, "Withdrawn; the record itself stays.");
}

ExitCode withdraw(const Options& options, const WithdrawOptions& asked) {
    auto book = book::Book::open(options.book_path());
    const std::int64_t id = value_of("number", [&] { return number_of(asked.number); });
    return asked.kind == "use" ? withdraw(options, book, asked, id, book.find_other_use(id))
                               : withdraw(options, book, asked, id, book.find_raised_allowance(id));
}

void add_use(CLI::App& account, Selection& selection) {
    const auto asked = std::make_shared<UseOptions>();
    CLI::App* command = account.add_subcommand(
        "use", "Another use of an active ingredient on the site, such as on turf or shrubs");
    command->fallthrough();
    command->add_option("active", asked->active, "The active ingredient, as label cards spell it")
        ->required();
    command->add_option("amount", asked->amount, "Of active ingredient, not of product: \"40 g\"")
        ->required();
    command->add_option("--what", asked->what, "\"turf, grubs\"")->required();
    command->add_option("--on", asked->on, "The day; without it, today");
    command->add_option("--counted", asked->counted, "soil, bark, injection or other")
        ->check(CLI::IsMember({"soil", "bark", "injection", "other"}))
        ->capture_default_str();
    command->add_option("--site", asked->site, "The site, if the book has more than one");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return use(options, *asked); };
    });
}

void add_raise(CLI::App& account, Selection& selection) {
    const auto asked = std::make_shared<RaiseOptions>();
    CLI::App* command = account.add_subcommand(
        "raise", "A local label that allows more on the acre, once somebody has read it");
    command->fallthrough();
    command->add_option("active", asked->active, "The active ingredient, as label cards spell it")
        ->required();
    command->add_option("amount", asked->per_acre, "Per acre and year: \"0.8 lb\"")->required();
    command->add_option("--reference", asked->reference, "The number of that label")->required();
    command->add_option("--jurisdiction", asked->jurisdiction, "Where it holds")->required();
    command->add_option("--expires", asked->expires, "The last day it holds")->required();
    command->add_option("--by", asked->by, "Who has read it")->required();
    command->add_flag("--i-have-read-it", asked->confirmed, "It is in force and covers this site");
    command->add_option("--site", asked->site, "The site, if the book has more than one");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return raise(options, *asked); };
    });
}

void add_withdraw(CLI::App& account, Selection& selection) {
    const auto asked = std::make_shared<WithdrawOptions>();
    CLI::App* command = account.add_subcommand(
        "withdraw", "Take back another use or a raised limit that was recorded by mistake");
    command->fallthrough();
    command->add_option("kind", asked->kind, "use or raise")
        ->required()
        ->check(CLI::IsMember({"use", "raise"}));
    command->add_option("number", asked->number, "Its number")->required();
    command->add_option("--by", asked->by, "Who withdraws it")->required();
    command->add_option("--because", asked->because, "Why")->required();
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return withdraw(options, *asked); };
    });
}

}  // namespace

void add_account_command(CLI::App& app, Selection& selection) {
    const auto asked = std::make_shared<WorkOptions>();
    CLI::App* command =
        app.add_subcommand("account", "How much active ingredient the acre still takes this year");
    command->require_subcommand(0, 1);
    command->add_option("--site", asked->site, "The site, if the book has more than one");
    command->add_option("--card", asked->card,
                        "The label card that all are planned by; without it, that of each tree's "
                        "method");
    add_use(*command, selection);
    add_raise(*command, selection);
    add_withdraw(*command, selection);
    command->callback([&selection, command, asked] {
        if (!command->get_subcommands().empty()) return;
        selection.action = [asked](const Options& options) { return show(options, *asked); };
    });
}

}  // namespace ashtriage::cli
