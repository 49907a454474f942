#include "book/filing.hpp"

#include <algorithm>
#include <optional>

#include "measure/input_error.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

// What the sheet says, and where it says nothing what was known before.
template <class Value>
Value newer(const Value& said, const Value& known) {
    return said == Value{} ? known : said;
}

observe::Client merged(const observe::Client& said, const observe::Client& known) {
    observe::Client client = known;
    client.address = newer(said.address, known.address);
    client.telephone = newer(said.telephone, known.telephone);
    client.email = newer(said.email, known.email);
    return client;
}

observe::ClientId file_client(Book& book, const observe::Client& said,
                              const measure::Date& filed_on, Filed& filed) {
    for (const observe::Client& known : book.clients()) {
        if (known.name != said.name) continue;
        if (!said.address.empty() && !known.address.empty() && known.address != said.address) {
            throw measure::InputError(
                "The book knows a client \"" + said.name + "\" at another address", {},
                "Leave the address out if it is the same person, or tell the two apart by name.");
        }
        const observe::Client now = merged(said, known);
        if (now != known) {
            book.update(now, filed_on);
            ++filed.clients_changed;
        }
        return known.id;
    }
    return book.add(said);
}

// Stands for the client of a site until a sheet names one.
std::string name_of_unnamed_client(const observe::Site& site) {
    return "(client of " + site.name + ")";
}

// The client of a site that the book knows, in the light of what the sheet says of the client.
observe::ClientId file_owner(Book& book, const observe::Client& said, const observe::Site& site,
                             const measure::Date& filed_on, Filed& filed) {
    const auto known = book.find_client(site.client);
    if (known && known->name != said.name && known->name != name_of_unnamed_client(site)) {
        throw measure::InputError("The site \"" + site.name + "\" belongs to \"" + known->name +
                                      "\" in the book, not to \"" + said.name + "\"",
                                  {}, "Leave the client out, or give the site another name.");
    }
    return file_client(book, said, filed_on, filed);
}

observe::Site merged(const observe::Site& said, const observe::Site& known) {
    observe::Site site = known;
    site.address = newer(said.address, known.address);
    site.area = newer(said.area, known.area);
    site.soil = newer(said.soil, known.soil);
    site.distance_to_water = newer(said.distance_to_water, known.distance_to_water);
    site.infestation_distance = newer(said.infestation_distance, known.infestation_distance);
    site.in_quarantined_county = newer(said.in_quarantined_county, known.in_quarantined_county);
    site.position = newer(said.position, known.position);
    return site;
}

observe::Site file_site(Book& book, const observe::WalkSheet& sheet, const std::string& site_name,
                        const measure::Date& filed_on, Filed& filed) {
    observe::Site said = sheet.site.value_or(observe::Site{});
    if (said.name.empty()) said.name = site_name;
    if (said.name.empty()) {
        throw measure::InputError("The sheet does not say which site it is about", {},
                                  "Name the site with --site.");
    }
    if (auto known = book.find_site(said.name)) {
        observe::Site now = merged(said, *known);
        if (sheet.client) now.client = file_owner(book, *sheet.client, *known, filed_on, filed);
        if (now != *known) {
            book.update(now, filed_on);
            ++filed.sites_changed;
        }
        return now;
    }
    const observe::Client unnamed{0, name_of_unnamed_client(said), {}, {}, {}};
    said.client = file_client(book, sheet.client.value_or(unnamed), filed_on, filed);
    said.id = book.add(said);
    ++filed.sites_added;
    return said;
}

observe::TreeId file_tree(Book& book, observe::Tree said, observe::SiteId site,
                          const measure::Date& filed_on, Filed& filed) {
    said.site = site;
    auto known = book.find_tree(site, said.label);
    if (!known) {
        ++filed.trees_added;
        return book.add(said);
    }
    observe::Tree now = *known;
    now.place = newer(said.place, known->place);
    now.position = newer(said.position, known->position);
    if (now != *known) {
        book.update(now, filed_on);
        ++filed.trees_changed;
    }
    return known->id;
}

bool same_record(observe::WalkAround a, const observe::WalkAround& b) {
    a.id = b.id;
    a.supersedes = b.supersedes;
    return a == b;
}

void file_walk_around(Book& book, observe::WalkAround said, observe::TreeId tree, Filed& filed) {
    said.tree = tree;
    for (const FiledWalkAround& known : book.walk_arounds(tree)) {
        if (known.superseded_by || known.seen.date != said.date) continue;
        if (same_record(said, known.seen)) {
            ++filed.walk_arounds_unchanged;
            return;
        }
        said.supersedes = known.seen.id;
    }
    book.add(said);
    ++(said.supersedes ? filed.walk_arounds_corrected : filed.walk_arounds_added);
}

}  // namespace

Filed file_sheet(Book& book, const observe::WalkSheet& sheet, const std::string& site_name,
                 const measure::Date& filed_on) {
    Filed filed;
    const observe::Site site = file_site(book, sheet, site_name, filed_on, filed);
    filed.site = site.id;
    for (const observe::SheetTree& entry : sheet.trees) {
        try {
            const observe::TreeId tree = file_tree(book, entry.tree, site.id, filed_on, filed);
            file_walk_around(book, entry.walk_around, tree, filed);
        } catch (const BookError&) {
            throw;
        } catch (const measure::InputError& error) {
            throw error.at(entry.place);
        }
    }
    return filed;
}

}  // namespace ashtriage::book
