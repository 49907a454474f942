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

constexpr std::array steps{edition_1};

}  // namespace

std::span<const std::string_view> steps_of_schema() {
    return steps;
}

int newest_edition() {
    return static_cast<int>(steps.size());
}

}  // namespace ashtriage::book
