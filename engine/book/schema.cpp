#include "book/schema.hpp"

#include <array>

namespace ashtriage::book {

namespace {

// Lengths are whole nanometres and areas whole hundredths of a square millimetre (1e-8 m2), as in
// measure/quantity.hpp. Dates are YYYY-MM-DD. A seal is the fingerprint of its record (row.hpp);
// that of a walk-around covers its stems and findings.
//
// Stems and findings are written before their walk-around, which is why their references are
// checked at the end of the transaction: once the walk-around is there, nothing can be added to it.
//
// date(x) alone gives 2026-02-31 back as it is; only arithmetic makes 2026-03-03 of it.
//
// The columns description, possible, facts, reasons, flags and answers hold JSON. SQLite 3.40 does
// not let a table that is not trusted check that, so it is done before they are written.
constexpr std::string_view edition_1 = R"sql(
CREATE TABLE clients (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    address TEXT NOT NULL,
    telephone TEXT NOT NULL,
    email TEXT NOT NULL,
    seal INTEGER NOT NULL
) STRICT;

CREATE TABLE sites (
    id INTEGER PRIMARY KEY,
    client INTEGER NOT NULL REFERENCES clients (id),
    name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
    address TEXT NOT NULL,
    area_hundredth_mm2 INTEGER CHECK (area_hundredth_mm2 > 0),
    soil TEXT NOT NULL,
    distance_to_water_nm INTEGER CHECK (distance_to_water_nm >= 0),
    infestation_distance_nm INTEGER CHECK (infestation_distance_nm >= 0),
    in_quarantined_county INTEGER CHECK (in_quarantined_county IN (0, 1)),
    latitude REAL CHECK (latitude BETWEEN -90 AND 90),
    longitude REAL CHECK (longitude BETWEEN -180 AND 180),
    elevation_nm INTEGER,
    seal INTEGER NOT NULL,
    CHECK ((latitude IS NULL) = (longitude IS NULL)),
    CHECK (elevation_nm IS NULL OR latitude IS NOT NULL)
) STRICT;
CREATE INDEX sites_by_client ON sites (client);

CREATE TABLE trees (
    id INTEGER PRIMARY KEY,
    site INTEGER NOT NULL REFERENCES sites (id),
    label TEXT NOT NULL CHECK (trim(label) <> ''),
    place TEXT NOT NULL,
    latitude REAL CHECK (latitude BETWEEN -90 AND 90),
    longitude REAL CHECK (longitude BETWEEN -180 AND 180),
    elevation_nm INTEGER,
    seal INTEGER NOT NULL,
    UNIQUE (site, label),
    CHECK ((latitude IS NULL) = (longitude IS NULL)),
    CHECK (elevation_nm IS NULL OR latitude IS NOT NULL)
) STRICT;

-- What a record said before its description was changed, oldest first, with the day of the change.
CREATE TABLE earlier_descriptions (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL CHECK (kind IN ('client', 'site', 'tree')),
    record INTEGER NOT NULL,
    changed_on TEXT NOT NULL CHECK (date(changed_on, '+0 days') IS changed_on),
    description TEXT NOT NULL CHECK (description <> ''),
    seal INTEGER NOT NULL
) STRICT;
CREATE INDEX earlier_descriptions_by_record ON earlier_descriptions (kind, record);

CREATE TABLE walk_arounds (
    id INTEGER PRIMARY KEY,
    tree INTEGER NOT NULL REFERENCES trees (id),
    seen_on TEXT NOT NULL CHECK (date(seen_on, '+0 days') IS seen_on),
    observer TEXT NOT NULL CHECK (trim(observer) <> ''),
    notes TEXT NOT NULL,
    supersedes INTEGER UNIQUE CHECK (supersedes < id),
    seal INTEGER NOT NULL,
    UNIQUE (id, tree),
    FOREIGN KEY (supersedes, tree) REFERENCES walk_arounds (id, tree)
) STRICT;
CREATE INDEX walk_arounds_by_tree ON walk_arounds (tree, seen_on);

CREATE TABLE stems (
    walk_around INTEGER NOT NULL REFERENCES walk_arounds (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    measured TEXT NOT NULL CHECK (measured IN ('diameter', 'girth')),
    length_nm INTEGER NOT NULL CHECK (length_nm > 0),
    PRIMARY KEY (walk_around, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE findings (
    walk_around INTEGER NOT NULL REFERENCES walk_arounds (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    fact TEXT NOT NULL CHECK (trim(fact) <> ''),
    value TEXT NOT NULL CHECK (trim(value) <> ''),
    PRIMARY KEY (walk_around, position),
    UNIQUE (walk_around, fact)
) STRICT, WITHOUT ROWID;

CREATE TABLE recommendations (
    id INTEGER PRIMARY KEY,
    tree INTEGER NOT NULL,
    walk_around INTEGER NOT NULL,
    made_on TEXT NOT NULL CHECK (date(made_on, '+0 days') IS made_on),
    rules_edition TEXT NOT NULL CHECK (rules_edition <> ''),
    rules_hash TEXT NOT NULL CHECK (rules_hash <> ''),
    preset TEXT NOT NULL,
    possible TEXT NOT NULL CHECK (possible <> ''),
    firm INTEGER NOT NULL CHECK (firm IN (0, 1)),
    facts TEXT NOT NULL CHECK (facts <> ''),
    reasons TEXT NOT NULL CHECK (reasons <> ''),
    flags TEXT NOT NULL CHECK (flags <> ''),
    seal INTEGER NOT NULL,
    FOREIGN KEY (walk_around, tree) REFERENCES walk_arounds (id, tree)
) STRICT;
CREATE INDEX recommendations_by_tree ON recommendations (tree, made_on);
CREATE INDEX recommendations_by_walk_around ON recommendations (walk_around);

-- Interviews that were interrupted, so that they can be taken up again.
CREATE TABLE drafts (
    site INTEGER NOT NULL REFERENCES sites (id),
    label TEXT NOT NULL CHECK (trim(label) <> ''),
    answers TEXT NOT NULL CHECK (answers <> ''),
    updated_on TEXT NOT NULL CHECK (date(updated_on, '+0 days') IS updated_on),
    seal INTEGER NOT NULL,
    PRIMARY KEY (site, label)
) STRICT, WITHOUT ROWID;

-- What was seen and what was answered stays. INSERT OR REPLACE is met as well: it would delete.
CREATE TRIGGER walk_arounds_are_not_changed BEFORE UPDATE ON walk_arounds
    BEGIN SELECT RAISE(ABORT, 'a walk-around is never changed: record a new one'); END;
CREATE TRIGGER walk_arounds_are_not_deleted BEFORE DELETE ON walk_arounds
    BEGIN SELECT RAISE(ABORT, 'a walk-around is never deleted'); END;
CREATE TRIGGER walk_arounds_are_not_replaced BEFORE INSERT ON walk_arounds
    WHEN EXISTS (SELECT 1 FROM walk_arounds
                 WHERE id = NEW.id OR supersedes = NEW.supersedes)
    BEGIN SELECT RAISE(ABORT, 'a walk-around is never replaced: record a new one'); END;

CREATE TRIGGER stems_are_not_changed BEFORE UPDATE ON stems
    BEGIN SELECT RAISE(ABORT, 'a measured stem is never changed: record a new walk-around'); END;
CREATE TRIGGER stems_are_not_deleted BEFORE DELETE ON stems
    BEGIN SELECT RAISE(ABORT, 'a measured stem is never deleted'); END;
CREATE TRIGGER stems_are_not_added_later BEFORE INSERT ON stems
    WHEN EXISTS (SELECT 1 FROM walk_arounds WHERE id = NEW.walk_around)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to a walk-around: record a new one'); END;

CREATE TRIGGER findings_are_not_changed BEFORE UPDATE ON findings
    BEGIN SELECT RAISE(ABORT, 'a finding is never changed: record a new walk-around'); END;
CREATE TRIGGER findings_are_not_deleted BEFORE DELETE ON findings
    BEGIN SELECT RAISE(ABORT, 'a finding is never deleted'); END;
CREATE TRIGGER findings_are_not_added_later BEFORE INSERT ON findings
    WHEN EXISTS (SELECT 1 FROM walk_arounds WHERE id = NEW.walk_around)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to a walk-around: record a new one'); END;

CREATE TRIGGER recommendations_are_not_changed BEFORE UPDATE ON recommendations
    BEGIN SELECT RAISE(ABORT, 'a recommendation is never changed: make a new one'); END;
CREATE TRIGGER recommendations_are_not_deleted BEFORE DELETE ON recommendations
    BEGIN SELECT RAISE(ABORT, 'a recommendation is never deleted'); END;
CREATE TRIGGER recommendations_are_not_replaced BEFORE INSERT ON recommendations
    WHEN EXISTS (SELECT 1 FROM recommendations WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'a recommendation is never replaced: make a new one'); END;

CREATE TRIGGER earlier_descriptions_are_not_changed BEFORE UPDATE ON earlier_descriptions
    BEGIN SELECT RAISE(ABORT, 'an earlier description is never changed'); END;
CREATE TRIGGER earlier_descriptions_are_not_deleted BEFORE DELETE ON earlier_descriptions
    BEGIN SELECT RAISE(ABORT, 'an earlier description is never deleted'); END;
CREATE TRIGGER earlier_descriptions_are_not_replaced BEFORE INSERT ON earlier_descriptions
    WHEN EXISTS (SELECT 1 FROM earlier_descriptions WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'an earlier description is never replaced'); END;
)sql";

constexpr std::string_view edition_2 = R"sql(
-- Applications as they were done. Empty texts and missing values: not written down yet. Volumes are
-- whole tenths of a picolitre, weights whole nanograms, speeds whole millimetres an hour and
-- temperatures 1/18000 kelvin, as in measure/quantity.hpp. An amount of product is a volume or a
-- weight. Times are minutes after midnight.
CREATE TABLE applications (
    id INTEGER PRIMARY KEY,
    site INTEGER NOT NULL REFERENCES sites (id),
    written_on TEXT NOT NULL CHECK (date(written_on, '+0 days') IS written_on),
    supersedes INTEGER UNIQUE REFERENCES applications (id) CHECK (supersedes < id),
    corrected_by TEXT CHECK (trim(corrected_by) <> ''),
    corrected_on TEXT CHECK (date(corrected_on, '+0 days') IS corrected_on),
    corrected_because TEXT CHECK (trim(corrected_because) <> ''),
    withdraws INTEGER CHECK (withdraws IN (0, 1)),
    work_date TEXT NOT NULL CHECK (date(work_date, '+0 days') IS work_date),
    started_minutes INTEGER CHECK (started_minutes BETWEEN 0 AND 1439),
    finished_minutes INTEGER CHECK (finished_minutes BETWEEN 0 AND 1439),
    utc_offset_minutes INTEGER CHECK (utc_offset_minutes BETWEEN -720 AND 840),
    customer_name TEXT NOT NULL,
    customer_address TEXT NOT NULL,
    site_address TEXT NOT NULL,
    location TEXT NOT NULL,
    latitude REAL CHECK (latitude BETWEEN -90 AND 90),
    longitude REAL CHECK (longitude BETWEEN -180 AND 180),
    elevation_nm INTEGER,
    map_reference TEXT NOT NULL,
    crop TEXT NOT NULL,
    target_pest TEXT NOT NULL,
    number_of_trees INTEGER CHECK (number_of_trees > 0),
    dbh_sum_nm INTEGER CHECK (dbh_sum_nm > 0),
    area_hundredth_mm2 INTEGER CHECK (area_hundredth_mm2 > 0),
    length_nm INTEGER CHECK (length_nm > 0),
    extent_unit TEXT,
    product_name TEXT NOT NULL,
    registration_number TEXT NOT NULL,
    establishment_number TEXT NOT NULL,
    lot_number TEXT NOT NULL,
    label_company TEXT NOT NULL,
    restricted_use INTEGER CHECK (restricted_use IN (0, 1)),
    label_card TEXT NOT NULL,
    label_card_text TEXT NOT NULL,
    rate_amount TEXT,
    rate_per TEXT,
    dilution_product_tenth_pl INTEGER CHECK (dilution_product_tenth_pl > 0),
    dilution_product_ng INTEGER CHECK (dilution_product_ng > 0),
    dilution_water_tenth_pl INTEGER CHECK (dilution_water_tenth_pl > 0),
    planned_product_tenth_pl INTEGER CHECK (planned_product_tenth_pl > 0),
    planned_product_ng INTEGER CHECK (planned_product_ng > 0),
    total_product_tenth_pl INTEGER CHECK (total_product_tenth_pl > 0),
    total_product_ng INTEGER CHECK (total_product_ng > 0),
    mixed_tenth_pl INTEGER CHECK (mixed_tenth_pl > 0),
    total_mix_tenth_pl INTEGER CHECK (total_mix_tenth_pl > 0),
    method TEXT NOT NULL,
    counted_as TEXT CHECK (counted_as IN ('soil', 'bark', 'injection', 'other')),
    equipment TEXT NOT NULL,
    mix_load_place TEXT NOT NULL,
    air_temperature_18000th_k INTEGER CHECK (air_temperature_18000th_k >= 0),
    wind_speed_mm_per_hour INTEGER CHECK (wind_speed_mm_per_hour >= 0),
    wind_from TEXT NOT NULL,
    soil_state TEXT NOT NULL,
    rain_forecast TEXT NOT NULL,
    bloom_state TEXT NOT NULL,
    assistant_training TEXT NOT NULL,
    firm_name TEXT NOT NULL,
    firm_address TEXT NOT NULL,
    firm_license TEXT NOT NULL,
    permit_number TEXT NOT NULL,
    customer_copy_given_on TEXT
        CHECK (date(customer_copy_given_on, '+0 days') IS customer_copy_given_on),
    notes TEXT NOT NULL,
    seal INTEGER NOT NULL,
    CHECK ((supersedes IS NULL) = (corrected_by IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_on IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_because IS NULL)),
    CHECK ((supersedes IS NULL) = (withdraws IS NULL)),
    CHECK (written_on >= work_date),
    CHECK ((latitude IS NULL) = (longitude IS NULL)),
    CHECK (elevation_nm IS NULL OR latitude IS NOT NULL),
    CHECK (area_hundredth_mm2 IS NULL OR length_nm IS NULL),
    CHECK ((area_hundredth_mm2 IS NULL AND length_nm IS NULL) = (extent_unit IS NULL)),
    CHECK ((rate_amount IS NULL) = (rate_per IS NULL)),
    CHECK (dilution_product_tenth_pl IS NULL OR dilution_product_ng IS NULL),
    CHECK ((dilution_product_tenth_pl IS NULL AND dilution_product_ng IS NULL)
           = (dilution_water_tenth_pl IS NULL)),
    CHECK (planned_product_tenth_pl IS NULL OR planned_product_ng IS NULL),
    CHECK (total_product_tenth_pl IS NULL OR total_product_ng IS NULL)
) STRICT;
CREATE INDEX applications_by_site ON applications (site, work_date);

-- The lists of an application are written before it, as stems are before their walk-around.
CREATE TABLE applied_actives (
    application INTEGER NOT NULL REFERENCES applications (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    mass_ng INTEGER CHECK (mass_ng > 0),
    PRIMARY KEY (application, position),
    UNIQUE (application, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE treated_trees (
    application INTEGER NOT NULL REFERENCES applications (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    tree INTEGER REFERENCES trees (id),
    label TEXT NOT NULL CHECK (trim(label) <> ''),
    dbh_nm INTEGER CHECK (dbh_nm > 0),
    product_tenth_pl INTEGER CHECK (product_tenth_pl > 0),
    product_ng INTEGER CHECK (product_ng > 0),
    mix_tenth_pl INTEGER CHECK (mix_tenth_pl > 0),
    rate_amount TEXT,
    rate_per TEXT,
    PRIMARY KEY (application, position),
    UNIQUE (application, label),
    CHECK (product_tenth_pl IS NULL OR product_ng IS NULL),
    CHECK ((rate_amount IS NULL) = (rate_per IS NULL))
) STRICT, WITHOUT ROWID;
CREATE INDEX treated_trees_by_tree ON treated_trees (tree);

CREATE TABLE application_people (
    application INTEGER NOT NULL REFERENCES applications (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    role TEXT NOT NULL CHECK (role IN ('applicator', 'supervisor', 'assistant')),
    name TEXT NOT NULL,
    address TEXT NOT NULL,
    license TEXT NOT NULL,
    license_expires TEXT CHECK (date(license_expires, '+0 days') IS license_expires),
    PRIMARY KEY (application, position)
) STRICT, WITHOUT ROWID;

-- Names of photographs, and of fields of which the writer says that they do not apply.
CREATE TABLE application_words (
    application INTEGER NOT NULL REFERENCES applications (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL CHECK (position >= 1),
    kind TEXT NOT NULL CHECK (kind IN ('photo', 'does not apply')),
    text TEXT NOT NULL CHECK (trim(text) <> ''),
    PRIMARY KEY (application, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE other_uses (
    id INTEGER PRIMARY KEY,
    site INTEGER NOT NULL REFERENCES sites (id),
    active_ingredient TEXT NOT NULL CHECK (trim(active_ingredient) <> ''),
    mass_ng INTEGER NOT NULL CHECK (mass_ng > 0),
    used_on TEXT NOT NULL CHECK (date(used_on, '+0 days') IS used_on),
    what TEXT NOT NULL CHECK (trim(what) <> ''),
    counted_as TEXT NOT NULL CHECK (counted_as IN ('soil', 'bark', 'injection', 'other')),
    supersedes INTEGER UNIQUE REFERENCES other_uses (id) CHECK (supersedes < id),
    corrected_by TEXT CHECK (trim(corrected_by) <> ''),
    corrected_on TEXT CHECK (date(corrected_on, '+0 days') IS corrected_on),
    corrected_because TEXT CHECK (trim(corrected_because) <> ''),
    withdraws INTEGER CHECK (withdraws IN (0, 1)),
    seal INTEGER NOT NULL,
    CHECK ((supersedes IS NULL) = (corrected_by IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_on IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_because IS NULL)),
    CHECK ((supersedes IS NULL) = (withdraws IS NULL))
) STRICT;
CREATE INDEX other_uses_by_site ON other_uses (site, used_on);

CREATE TABLE raised_allowances (
    id INTEGER PRIMARY KEY,
    site INTEGER NOT NULL REFERENCES sites (id),
    active_ingredient TEXT NOT NULL CHECK (trim(active_ingredient) <> ''),
    per_acre_ng INTEGER NOT NULL CHECK (per_acre_ng > 0),
    reference TEXT NOT NULL CHECK (trim(reference) <> ''),
    jurisdiction TEXT NOT NULL CHECK (trim(jurisdiction) <> ''),
    expires TEXT NOT NULL CHECK (date(expires, '+0 days') IS expires),
    confirmed_by TEXT NOT NULL CHECK (trim(confirmed_by) <> ''),
    confirmed_on TEXT NOT NULL CHECK (date(confirmed_on, '+0 days') IS confirmed_on),
    supersedes INTEGER UNIQUE REFERENCES raised_allowances (id) CHECK (supersedes < id),
    corrected_by TEXT CHECK (trim(corrected_by) <> ''),
    corrected_on TEXT CHECK (date(corrected_on, '+0 days') IS corrected_on),
    corrected_because TEXT CHECK (trim(corrected_because) <> ''),
    withdraws INTEGER CHECK (withdraws IN (0, 1)),
    seal INTEGER NOT NULL,
    CHECK ((supersedes IS NULL) = (corrected_by IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_on IS NULL)),
    CHECK ((supersedes IS NULL) = (corrected_because IS NULL)),
    CHECK ((supersedes IS NULL) = (withdraws IS NULL))
) STRICT;
CREATE INDEX raised_allowances_by_site ON raised_allowances (site);

-- What was done stays. INSERT OR REPLACE is met as well: it would delete.
CREATE TRIGGER applications_are_not_changed BEFORE UPDATE ON applications
    BEGIN SELECT RAISE(ABORT, 'an application is never changed: record a correction'); END;
CREATE TRIGGER applications_are_not_deleted BEFORE DELETE ON applications
    BEGIN SELECT RAISE(ABORT, 'an application is never deleted: record a correction'); END;
CREATE TRIGGER applications_are_not_replaced BEFORE INSERT ON applications
    WHEN EXISTS (SELECT 1 FROM applications
                 WHERE id = NEW.id OR supersedes = NEW.supersedes)
    BEGIN SELECT RAISE(ABORT, 'an application is never replaced: record a correction'); END;

CREATE TRIGGER other_uses_are_not_changed BEFORE UPDATE ON other_uses
    BEGIN SELECT RAISE(ABORT, 'another use is never changed: record a correction'); END;
CREATE TRIGGER other_uses_are_not_deleted BEFORE DELETE ON other_uses
    BEGIN SELECT RAISE(ABORT, 'another use is never deleted: record a correction'); END;
CREATE TRIGGER other_uses_are_not_replaced BEFORE INSERT ON other_uses
    WHEN EXISTS (SELECT 1 FROM other_uses
                 WHERE id = NEW.id OR supersedes = NEW.supersedes)
    BEGIN SELECT RAISE(ABORT, 'another use is never replaced: record a correction'); END;

CREATE TRIGGER raised_allowances_are_not_changed BEFORE UPDATE ON raised_allowances
    BEGIN SELECT RAISE(ABORT, 'a raised allowance is never changed: record a correction'); END;
CREATE TRIGGER raised_allowances_are_not_deleted BEFORE DELETE ON raised_allowances
    BEGIN SELECT RAISE(ABORT, 'a raised allowance is never deleted: record a correction'); END;
CREATE TRIGGER raised_allowances_are_not_replaced BEFORE INSERT ON raised_allowances
    WHEN EXISTS (SELECT 1 FROM raised_allowances
                 WHERE id = NEW.id OR supersedes = NEW.supersedes)
    BEGIN SELECT RAISE(ABORT, 'a raised allowance is never replaced: record a correction'); END;

CREATE TRIGGER applied_actives_are_not_changed BEFORE UPDATE ON applied_actives
    BEGIN SELECT RAISE(ABORT, 'an application is never changed: record a correction'); END;
CREATE TRIGGER applied_actives_are_not_deleted BEFORE DELETE ON applied_actives
    BEGIN SELECT RAISE(ABORT, 'an application is never deleted: record a correction'); END;
CREATE TRIGGER applied_actives_are_not_added_later BEFORE INSERT ON applied_actives
    WHEN EXISTS (SELECT 1 FROM applications WHERE id = NEW.application)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to an application: record a correction'); END;

CREATE TRIGGER treated_trees_are_not_changed BEFORE UPDATE ON treated_trees
    BEGIN SELECT RAISE(ABORT, 'an application is never changed: record a correction'); END;
CREATE TRIGGER treated_trees_are_not_deleted BEFORE DELETE ON treated_trees
    BEGIN SELECT RAISE(ABORT, 'an application is never deleted: record a correction'); END;
CREATE TRIGGER treated_trees_are_not_added_later BEFORE INSERT ON treated_trees
    WHEN EXISTS (SELECT 1 FROM applications WHERE id = NEW.application)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to an application: record a correction'); END;

CREATE TRIGGER application_people_are_not_changed BEFORE UPDATE ON application_people
    BEGIN SELECT RAISE(ABORT, 'an application is never changed: record a correction'); END;
CREATE TRIGGER application_people_are_not_deleted BEFORE DELETE ON application_people
    BEGIN SELECT RAISE(ABORT, 'an application is never deleted: record a correction'); END;
CREATE TRIGGER application_people_are_not_added_later BEFORE INSERT ON application_people
    WHEN EXISTS (SELECT 1 FROM applications WHERE id = NEW.application)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to an application: record a correction'); END;

CREATE TRIGGER application_words_are_not_changed BEFORE UPDATE ON application_words
    BEGIN SELECT RAISE(ABORT, 'an application is never changed: record a correction'); END;
CREATE TRIGGER application_words_are_not_deleted BEFORE DELETE ON application_words
    BEGIN SELECT RAISE(ABORT, 'an application is never deleted: record a correction'); END;
CREATE TRIGGER application_words_are_not_added_later BEFORE INSERT ON application_words
    WHEN EXISTS (SELECT 1 FROM applications WHERE id = NEW.application)
    BEGIN SELECT RAISE(ABORT, 'nothing is added to an application: record a correction'); END;
)sql";

constexpr std::array steps{edition_1, edition_2};

}  // namespace

std::span<const std::string_view> steps_of_schema() {
    return steps;
}

int newest_edition() {
    return static_cast<int>(steps.size());
}

}  // namespace ashtriage::book
