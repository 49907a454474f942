#include "book/applications.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>

#include "book/amount_cells.hpp"
#include "book/book_error.hpp"
#include "book/entries.hpp"
#include "book/position_cells.hpp"
#include "book/statement.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "measure/input_error.hpp"
#include "treat/check_application.hpp"

namespace ashtriage::book {

using treat::ApplicationRecord;

namespace {

// In the order of treat::CountedUse.
constexpr std::array<std::string_view, 4> counted_words{"soil", "bark", "injection", "other"};

constexpr std::string_view applicator = "applicator";
constexpr std::string_view supervisor = "supervisor";
constexpr std::string_view assistant = "assistant";
constexpr std::string_view photo = "photo";
constexpr std::string_view does_not_apply = "does not apply";

void add_extent(Row& row, const std::optional<treat::Extent>& extent) {
    std::optional<measure::Area> area;
    std::optional<measure::Length> length;
    std::optional<std::string> unit;
    if (extent) {
        unit = extent->unit;
        if (const auto* size = std::get_if<measure::Area>(&extent->size)) area = *size;
        if (const auto* size = std::get_if<measure::Length>(&extent->size)) length = *size;
    }
    row.add(area).add(length).add(unit);
}

std::optional<treat::Extent> read_extent(RowReader& row) {
    const auto area = row.optional_quantity<measure::Area>();
    const auto length = row.optional_quantity<measure::Length>();
    const std::string unit = row.optional_text().value_or("");
    if (area) return treat::Extent{*area, unit};
    if (length) return treat::Extent{*length, unit};
    return std::nullopt;
}

void add_dilution(Row& row, const std::optional<treat::Dilution>& dilution) {
    std::optional<treat::Amount> product;
    std::optional<measure::Volume> water;
    if (dilution) {
        product = dilution->product;
        water = dilution->water;
    }
    add_amount(row, product);
    row.add(water);
}

std::optional<treat::Dilution> read_dilution(RowReader& row) {
    const std::optional<treat::Amount> product = read_amount(row);
    const auto water = row.optional_quantity<measure::Volume>();
    if (!product || !water) return std::nullopt;
    return treat::Dilution{*product, *water};
}

template <class Value>
std::optional<std::int64_t> minutes_of(const std::optional<Value>& value) {
    return value ? std::optional<std::int64_t>{value->minutes} : std::nullopt;
}

template <class Value>
std::optional<Value> read_minutes(RowReader& row) {
    const std::optional<std::int64_t> minutes = row.optional_integer();
    return minutes ? std::optional<Value>{Value{static_cast<int>(*minutes)}} : std::nullopt;
}

std::optional<std::int64_t> wide(const std::optional<int>& number) {
    return number ? std::optional<std::int64_t>{*number} : std::nullopt;
}

// The columns of the table, in their order.
Row header_of(const ApplicationRecord& record) {
    Row row;
    row.add(record.id).add(record.site).add(record.written_on);
    add_correction(row, record.correction);
    row.add(record.work_date).add(minutes_of(record.started)).add(minutes_of(record.finished));
    row.add(minutes_of(record.utc_offset));
    row.add(record.customer_name).add(record.customer_address).add(record.site_address);
    row.add(record.location);
    add_position(row, record.position);
    row.add(record.map_reference).add(record.crop).add(record.target_pest);
    row.add(wide(record.number_of_trees)).add(record.dbh_sum);
    add_extent(row, record.extent);
    row.add(record.product_name).add(record.registration_number);
    row.add(record.establishment_number).add(record.lot_number).add(record.label_company);
    row.add(record.restricted_use).add(record.label_card).add(record.label_card_text);
    add_rate(row, record.rate);
    add_dilution(row, record.dilution);
    add_amount(row, record.planned_product);
    add_amount(row, record.total_product);
    row.add(record.mixed).add(record.total_mix).add(record.method);
    row.add(record.counted_as ? std::optional{std::string{counted_word(*record.counted_as)}}
                              : std::nullopt);
    row.add(record.equipment).add(record.mix_load_place);
    row.add(record.air_temperature).add(record.wind_speed).add(record.wind_from);
    row.add(record.soil_state).add(record.rain_forecast).add(record.bloom_state);
    row.add(record.assistant_training).add(record.firm_name).add(record.firm_address);
    row.add(record.firm_license).add(record.permit_number).add(record.customer_copy_given_on);
    row.add(record.notes);
    return row;
}

ApplicationRecord read_header(RowReader& row, const Database& database) {
    ApplicationRecord record;
    record.id = row.integer();
    record.site = row.integer();
    record.written_on = row.date();
    record.correction = read_correction(row);
    record.work_date = row.date();
    record.started = read_minutes<treat::LocalTime>(row);
    record.finished = read_minutes<treat::LocalTime>(row);
    record.utc_offset = read_minutes<treat::UtcOffset>(row);
    record.customer_name = row.text();
    record.customer_address = row.text();
    record.site_address = row.text();
    record.location = row.text();
    record.position = read_position(row);
    record.map_reference = row.text();
    record.crop = row.text();
    record.target_pest = row.text();
    if (const auto trees = row.optional_integer()) {
        record.number_of_trees = static_cast<int>(*trees);
    }
    record.dbh_sum = row.optional_quantity<measure::Length>();
    record.extent = read_extent(row);
    record.product_name = row.text();
    record.registration_number = row.text();
    record.establishment_number = row.text();
    record.lot_number = row.text();
    record.label_company = row.text();
    record.restricted_use = row.optional_flag();
    record.label_card = row.text();
    record.label_card_text = row.text();
    record.rate = read_rate(row);
    record.dilution = read_dilution(row);
    record.planned_product = read_amount(row);
    record.total_product = read_amount(row);
    record.mixed = row.optional_quantity<measure::Volume>();
    record.total_mix = row.optional_quantity<measure::Volume>();
    record.method = row.text();
    if (const auto word = row.optional_text()) {
        record.counted_as = read_counted_use(*word, database);
    }
    record.equipment = row.text();
    record.mix_load_place = row.text();
    record.air_temperature = row.optional_quantity<measure::Temperature>();
    record.wind_speed = row.optional_quantity<measure::Speed>();
    record.wind_from = row.text();
    record.soil_state = row.text();
    record.rain_forecast = row.text();
    record.bloom_state = row.text();
    record.assistant_training = row.text();
    record.firm_name = row.text();
    record.firm_address = row.text();
    record.firm_license = row.text();
    record.permit_number = row.text();
    record.customer_copy_given_on = row.optional_date();
    record.notes = row.text();
    return record;
}

Entries actives_of(const ApplicationRecord& record) {
    return entries_of(record.actives, [](const treat::AppliedActive& active) {
        return Row{}.add(active.name).add(active.mass);
    });
}

Entries trees_of(const ApplicationRecord& record) {
    return entries_of(record.trees, [](const treat::TreatedTree& tree) {
        Row row;
        row.add(tree.tree).add(tree.label).add(tree.dbh);
        add_amount(row, tree.product);
        row.add(tree.mix);
        add_rate(row, tree.rate);
        return row;
    });
}

Row cells_of(const treat::Person& person, std::string_view role) {
    return Row{}
        .add(role)
        .add(person.name)
        .add(person.address)
        .add(person.license)
        .add(person.license_expires);
}

// An applicator or supervisor of whom nothing is known takes no row.
Entries people_of(const ApplicationRecord& record) {
    Entries people;
    const treat::Person nobody;
    if (record.applicator != nobody) people.push_back(cells_of(record.applicator, applicator));
    if (record.supervisor != nobody) people.push_back(cells_of(record.supervisor, supervisor));
    for (const treat::Person& person : record.assistants) {
        people.push_back(cells_of(person, assistant));
    }
    return people;
}

Entries words_of(const ApplicationRecord& record) {
    Entries words;
    for (const std::string& file : record.photos) words.push_back(Row{}.add(photo).add(file));
    for (const std::string& name : record.does_not_apply) {
        words.push_back(Row{}.add(does_not_apply).add(name));
    }
    return words;
}

// Everything the seal covers.
Row whole(const ApplicationRecord& record) {
    Row row = header_of(record);
    for (const Entries& entries :
         {actives_of(record), trees_of(record), people_of(record), words_of(record)}) {
        add_entries(row, entries);
    }
    return row;
}

template <class Read>
void read_entries(const Database& database, std::string_view columns, std::string_view table,
                  treat::ApplicationId id, Read read) {
    Statement select_entries{
        database,
        fmt::format("SELECT {} FROM {} WHERE application = ? ORDER BY position", columns, table)};
    for (const Row& row : select_entries.rows(Row{}.add(id))) {
        RowReader reader{row, database.path()};
        read(reader);
    }
}

void read_trees(const Database& database, ApplicationRecord& record) {
    read_entries(database,
                 "tree, label, dbh_nm, product_tenth_pl, product_ng, mix_tenth_pl, rate_amount, "
                 "rate_per",
                 "treated_trees", record.id, [&](RowReader& row) {
                     treat::TreatedTree tree;
                     tree.tree = row.optional_integer();
                     tree.label = row.text();
                     tree.dbh = row.optional_quantity<measure::Length>();
                     tree.product = read_amount(row);
                     tree.mix = row.optional_quantity<measure::Volume>();
                     tree.rate = read_rate(row);
                     record.trees.push_back(std::move(tree));
                 });
}

void read_people(const Database& database, ApplicationRecord& record) {
    read_entries(database, "role, name, address, license, license_expires", "application_people",
                 record.id, [&](RowReader& row) {
                     const std::string role = row.text();
                     treat::Person person;
                     person.name = row.text();
                     person.address = row.text();
                     person.license = row.text();
                     person.license_expires = row.optional_date();
                     if (role == applicator) {
                         record.applicator = std::move(person);
                     } else if (role == supervisor) {
                         record.supervisor = std::move(person);
                     } else {
                         record.assistants.push_back(std::move(person));
                     }
                 });
}

void read_lists(const Database& database, ApplicationRecord& record) {
    read_entries(database, "name, mass_ng", "applied_actives", record.id, [&](RowReader& row) {
        treat::AppliedActive active;
        active.name = row.text();
        active.mass = row.optional_quantity<measure::Mass>();
        record.actives.push_back(std::move(active));
    });
    read_trees(database, record);
    read_people(database, record);
    read_entries(database, "kind, text", "application_words", record.id, [&](RowReader& row) {
        const std::string kind = row.text();
        (kind == photo ? record.photos : record.does_not_apply).push_back(row.text());
    });
}

RecordedApplication read(const Database& database, const SealedRow& row) {
    RowReader reader{row.cells, database.path()};
    RecordedApplication filed{read_header(reader, database), row.superseded_by};
    const std::string_view called = applications_table().record;
    try {
        read_lists(database, filed.record);
        check_seal(database, whole(filed.record), row.seal, called);
    } catch (const BookError&) {
        throw;
    } catch (const measure::InputError&) {  // a text that could never have been stored
        throw_damaged(database, called, fmt::format(" {}", filed.record.id));
    }
    return filed;
}

std::vector<RecordedApplication> select_applications(const Database& database,
                                                     std::string_view rest, std::int64_t key) {
    std::vector<RecordedApplication> found;
    for (const SealedRow& row :
         select_with_successors(database, applications_table(), rest, Row{}.add(key))) {
        found.push_back(read(database, row));
    }
    return found;
}

void check_trees(const Database& database, const ApplicationRecord& record) {
    Statement on_site{database, "SELECT count(*) FROM trees WHERE id = ? AND site = ?"};
    for (const treat::TreatedTree& tree : record.trees) {
        if (!tree.tree || on_site.number(Row{}.add(*tree.tree).add(record.site)) == 1) continue;
        throw measure::InputError(
            fmt::format("There is no tree number {} ('{}') on the site of this application",
                        *tree.tree, tree.label),
            database.path().string(), "Check the tree, and the site.");
    }
}

void check_against_corrected(const Database& database, const ApplicationRecord& record) {
    check_correction(database, applications_table(), record.correction);
    if (!record.correction) return;
    const auto corrected = find_application(database, record.correction->of);
    const std::string where = database.path().string();
    if (corrected->record.written_on != record.written_on) {
        throw measure::InputError(
            fmt::format("A correction of this application keeps the day on which it was first "
                        "written, {}",
                        measure::text(corrected->record.written_on)),
            where, "The day of the correction is kept beside it.");
    }
    const auto& before = corrected->record.correction;
    if (before && record.correction->on < before->on) {
        throw measure::InputError(
            fmt::format("The correction of {} is dated before the one of {} that it corrects",
                        measure::text(record.correction->on), measure::text(before->on)),
            where, "Check the date.");
    }
}

}  // namespace

std::string_view counted_word(treat::CountedUse use) {
    return counted_words.at(static_cast<std::size_t>(use));
}

treat::CountedUse read_counted_use(std::string_view word, const Database& database) {
    const auto found = std::ranges::find(counted_words, word);
    if (found == counted_words.end()) throw_damaged(database, "use of an active ingredient", "");
    return static_cast<treat::CountedUse>(found - counted_words.begin());
}

treat::ApplicationId add_application(Database& database, const ApplicationRecord& record) {
    treat::check(record);
    Transaction transaction{database};
    require_id(database, sites_table(), record.site);
    check_trees(database, record);
    check_against_corrected(database, record);
    ApplicationRecord stored = record;
    stored.id = next_id(database, applications_table().name);
    // The application itself comes last and closes its lists: see the schema.
    insert_entries(database, "applied_actives", stored.id, actives_of(stored));
    insert_entries(database, "treated_trees", stored.id, trees_of(stored));
    insert_entries(database, "application_people", stored.id, people_of(stored));
    insert_entries(database, "application_words", stored.id, words_of(stored));
    insert(database, applications_table(), header_of(stored), seal_of(whole(stored)));
    transaction.keep();
    return stored.id;
}

std::vector<RecordedApplication> read_applications(const Database& database, observe::SiteId site) {
    return select_applications(database, "WHERE r.site = ? ORDER BY r.work_date, r.id", site);
}

std::vector<RecordedApplication> read_applications_of_tree(const Database& database,
                                                           observe::TreeId tree) {
    return select_applications(database,
                               "WHERE r.id IN (SELECT application FROM treated_trees WHERE tree = ?"
                               ") ORDER BY r.work_date, r.id",
                               tree);
}

std::optional<RecordedApplication> find_application(const Database& database,
                                                    treat::ApplicationId id) {
    std::vector<RecordedApplication> found = select_applications(database, "WHERE r.id = ?", id);
    if (found.empty()) return std::nullopt;
    RecordedApplication only = std::move(found.front());
    return only;
}

std::vector<RecordedApplication> read_application_history(const Database& database,
                                                          treat::ApplicationId id) {
    std::vector<RecordedApplication> history;
    std::optional<RecordedApplication> each = find_application(database, id);
    while (each && each->record.correction) {
        each = find_application(database, each->record.correction->of);
    }
    while (each) {
        const std::optional<std::int64_t> later = each->superseded_by;
        history.push_back(std::move(*each));
        each = later ? find_application(database, *later) : std::nullopt;
    }
    return history;
}

}  // namespace ashtriage::book
