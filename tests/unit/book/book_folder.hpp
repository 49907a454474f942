// A folder of its own for each test, and what the tests of the book have in common.
#pragma once

#include <gtest/gtest.h>
#include <stdlib.h>

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "../treat/record_example.hpp"
#include "book/book.hpp"
#include "book/database.hpp"
#include "measure/units.hpp"

namespace ashtriage::book {

class BookFolder : public testing::Test {
 protected:
    BookFolder() {
        std::string pattern =
            (std::filesystem::temp_directory_path() / "book-test-XXXXXX").string();
        if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
        folder = pattern;
    }
    ~BookFolder() override {
        std::error_code ignored;
        std::filesystem::permissions(folder, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(folder, ignored);
    }

    std::filesystem::path in_folder(std::string_view name) const { return folder / name; }

    std::filesystem::path folder;
};

inline std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline void write_bytes(const std::filesystem::path& path, std::string_view bytes) {
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

// The kind of trouble that `work` meets; fails the test when it meets none.
template <class Work>
BookError trouble_with(Work&& work) {
    try {
        std::forward<Work>(work)();
    } catch (const BookError& error) {
        return error;
    }
    ADD_FAILURE() << "nothing was refused";
    return {Trouble::failed, "nothing was refused", {}};
}

// Runs SQL past everything that the book itself would let through.
inline void run_sql(const std::filesystem::path& path, const std::string& script) {
    Database database = Database::open(path, Access::read_write);
    database.execute(script);
}

inline measure::Date day(std::string_view text) {
    return measure::parse_date(text);
}

inline observe::Client example_client() {
    return {.id = 0,
            .name = "Orchard Trust of Sampleton — Zoë",
            .address = "1 Example Road\nSampleton",
            .telephone = "555-0100",
            .email = "trees@sampleton.example"};
}

inline observe::Site example_site(observe::ClientId client) {
    using namespace measure::units;
    return {.id = 0,
            .client = client,
            .name = "Mill Lane",
            .address = "Mill Lane 3, Sampleton",
            .area = measure::Area::of("1.37", acre),
            .soil = "clay loam",
            .distance_to_water = measure::Length::of("212.5", foot),
            .infestation_distance = measure::Length::of("9.3", mile),
            .in_quarantined_county = true,
            .position = observe::Position{44.987654321012345, -93.25000000000001,
                                          measure::Length::of("253.4", metre)}};
}

inline observe::Tree example_tree(observe::SiteId site, std::string label) {
    return {.id = 0,
            .site = site,
            .label = std::move(label),
            .place = "north of the gate, 木 🌳",
            .position = observe::Position{44.9876, -93.2501, {}}};
}

inline observe::WalkAround example_walk_around(observe::TreeId tree, std::string_view date) {
    return {.id = 0,
            .tree = tree,
            .date = day(date),
            .observer = "R. Éxample",
            .stems = {{observe::StemMeasure::diameter,
                       measure::Length::of("14.3", measure::units::inch)},
                      {observe::StemMeasure::girth,
                       measure::Length::of("61.7", measure::units::centimetre)}},
            .findings = {{"canopy_loss", "20-30 %"},
                         {"woodpecker_damage", "light"},
                         {"galleries_seen", "could not see"}},
            .notes = "Ladder needed.\n\"Second\" visit; 'tag' loose.",
            .supersedes = {}};
}

inline StoredRecommendation example_recommendation(observe::TreeId tree,
                                                   observe::WalkAroundId walk_around,
                                                   std::string_view date) {
    return {.id = 0,
            .tree = tree,
            .walk_around = walk_around,
            .date = day(date),
            .edition = "2026.1",
            .hash = "0f3a",
            .preset = "published",
            .possible = {"treat", "monitor"},
            .firm = false,
            .facts = {{"canopy_loss", "20-30 %"}, {"dbh", "14.3 in"}, {"note", "“café”"}},
            .reasons_json = R"([{"rule":"good-enough"}])",
            .flags_json = R"(["dead-limb"])"};
}

// Everything that can be read out of a book.
struct Content {
    std::vector<observe::Client> clients;
    std::vector<observe::Site> sites;
    std::vector<observe::Tree> trees;
    std::vector<FiledWalkAround> walk_arounds;
    std::vector<StoredRecommendation> recommendations;
    std::vector<EarlierDescription> earlier;
    std::vector<Draft> drafts;
    std::vector<RecordedApplication> applications;
    std::vector<RecordedOtherUse> other_uses;
    std::vector<RecordedRaisedAllowance> raised_allowances;

    friend bool operator==(const Content&, const Content&) = default;
};

inline Content content_of(const Book& book) {
    Content content;
    const auto append = [](auto& to, const auto& from) {
        to.insert(to.end(), from.begin(), from.end());
    };
    content.clients = book.clients();
    content.sites = book.sites();
    content.drafts = book.drafts();
    for (const observe::Client& client : content.clients) {
        append(content.earlier, book.earlier_of_client(client.id));
    }
    for (const observe::Site& site : content.sites) {
        append(content.trees, book.trees(site.id));
        append(content.earlier, book.earlier_of_site(site.id));
        append(content.applications, book.applications(site.id));
        append(content.other_uses, book.other_uses(site.id));
        append(content.raised_allowances, book.raised_allowances(site.id));
    }
    for (const observe::Tree& tree : content.trees) {
        append(content.walk_arounds, book.walk_arounds(tree.id));
        append(content.recommendations, book.recommendations(tree.id));
        append(content.earlier, book.earlier_of_tree(tree.id));
    }
    return content;
}

inline treat::ApplicationRecord example_application(observe::SiteId site, observe::TreeId tree) {
    treat::ApplicationRecord record = treat::test::full_record();
    record.site = site;
    record.trees.front().tree = tree;
    return record;
}

inline treat::OtherUse example_other_use(observe::SiteId site) {
    return {.id = 0,
            .site = site,
            .active_ingredient = "imidacloprid",
            .mass = measure::Mass::of("31.7", measure::units::gram),
            .date = day("2026-05-20"),
            .what = "turf, grubs",
            .counted_as = treat::CountedUse::soil,
            .correction = {}};
}

inline treat::RaisedAllowance example_raised_allowance(observe::SiteId site) {
    return {.id = 0,
            .site = site,
            .active_ingredient = "imidacloprid",
            .per_acre = measure::Mass::of("0.8", measure::units::pound),
            .reference = "SLN XX-00-0000",
            .jurisdiction = "Invented State",
            .expires = day("2027-12-31"),
            .confirmed_by = "R. Éxample",
            .confirmed_on = day("2026-04-01"),
            .correction = {}};
}

// A correction of the record with that number.
inline treat::Correction example_correction(std::int64_t of) {
    return {.of = of,
            .by = "S. Éxample",
            .on = day("2026-05-21"),
            .why = "A figure was misread.",
            .withdraws = false};
}

// A book with at least one of everything, each record filled in as far as it can be.
inline void make_example_book(const std::filesystem::path& path) {
    Book book = Book::create(path);
    book.in_transaction([&book] {
        observe::Client client = example_client();
        client.id = book.add(client);
        observe::Site site = example_site(client.id);
        site.id = book.add(site);
        for (const char* label : {"A-1", "A-2", "A-3"}) {
            const observe::TreeId tree = book.add(example_tree(site.id, label));
            const observe::WalkAroundId first = book.add(example_walk_around(tree, "2026-05-18"));
            observe::WalkAround correction = example_walk_around(tree, "2026-05-18");
            correction.supersedes = first;
            correction.stems.pop_back();
            const observe::WalkAroundId second = book.add(correction);
            book.add(example_recommendation(tree, second, "2026-05-19"));
        }
        treat::ApplicationRecord application = example_application(site.id, 1);
        application.correction = example_correction(book.add(application));
        application.air_temperature.reset();
        book.add(application);
        treat::OtherUse other = example_other_use(site.id);
        other.correction = example_correction(book.add(other));
        other.correction->withdraws = true;
        book.add(other);
        book.add(example_raised_allowance(site.id));
        client.telephone = "555-0199";
        book.update(client, day("2026-06-01"));
        site.soil = "sand";
        book.update(site, day("2026-06-02"));
        book.save_draft({.site = site.id,
                         .label = "A-4",
                         .answers_json = R"({"canopy_loss":"40 %"})",
                         .updated = day("2026-06-03")});
    });
}

}  // namespace ashtriage::book
