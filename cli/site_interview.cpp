#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/words.hpp"
#include "triage/sheet_entries.hpp"
#include "triage/tables.hpp"
#include "walk_interview.hpp"

namespace ashtriage::cli {

namespace {

// Every question may be left open; false: the person wants to stop.
bool ask_about(Prompt& prompt, const packs::RuleSet& rules, observe::Client& client,
               observe::Site& site) {
    const auto text_of = [](std::string& target) {
        return [&target](const std::string& text) { target = text; };
    };
    observe::Position position;
    bool has_position = false;
    return prompt.fill("Who is the client?", false, text_of(client.name)) &&
           prompt.fill("The site's address? (Enter: leave open)", true, text_of(site.address)) &&
           prompt.fill("How large is it, e.g. \"0.5 acres\"? (Enter: leave open)", true,
                       [&](const std::string& text) { site.area = measure::parse_area(text); }) &&
           prompt.fill(
               "How far is the nearest known infestation, in miles? (Enter: not known)", true,
               [&](const std::string& text) {
                   site.infestation_distance = measure::parse_length(text, measure::units::mile);
               }) &&
           prompt.fill(
               "Is the county infested or under quarantine? yes or no (Enter: not known)", true,
               [&](const std::string& text) {
                   const auto answer =
                       triage::finding_of(rules, triage::fact::in_quarantined_county, text);
                   site.in_quarantined_county = packs::normalised(answer.value).starts_with('y');
               }) &&
           prompt.fill(
               "How far are the trees from open water or a well, in feet? (Enter: not "
               "known)",
               true,
               [&](const std::string& text) {
                   site.distance_to_water = measure::parse_length(text, measure::units::foot);
               }) &&
           prompt.fill(
               "The latitude, in degrees, e.g. 41.9? It moves the season to this place. "
               "(Enter: not known)",
               true,
               [&](const std::string& text) {
                   position.latitude = triage::parse_degrees(text, 90);
                   has_position = true;
               }) &&
           (!has_position || prompt.fill("The longitude, in degrees, west negative, e.g. -87.7?",
                                         false, [&](const std::string& text) {
                                             position.longitude = triage::parse_degrees(text, 180);
                                             site.position = position;
                                         }));
}

}  // namespace

std::optional<observe::Site> set_up_site(Prompt& prompt, book::Book& book,
                                         const packs::RuleSet& rules, const std::string& name,
                                         bool dry_run) {
    prompt.say("The site \"" + name + "\" is new. A few questions about it first; \"stop\" ends.");
    observe::Client client;
    observe::Site site;
    site.name = name;
    if (!ask_about(prompt, rules, client, site)) return std::nullopt;
    if (dry_run) return site;
    book.in_transaction([&] {
        for (const observe::Client& known : book.clients()) {
            if (known.name == client.name) site.client = known.id;
        }
        if (site.client == 0) site.client = book.add(client);
        site.id = book.add(site);
    });
    return site;
}

}  // namespace ashtriage::cli
