#include "present/spray_day_listing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "packs/sources.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

using plan::DayAnswer;
using plan::DayCheck;

namespace {

std::string answer_words(DayAnswer answer) {
    switch (answer) {
        case DayAnswer::no_go:
            return "NO-GO: at least one condition is known not to be as it has to be.";
        case DayAnswer::check:
            return "CHECK: nothing known forbids it, but not everything is known. Find out what is "
                   "marked check before you begin.";
        case DayAnswer::go:
            break;
    }
    return "GO, as far as it was looked at: nothing that is known stands against the day. That is "
           "no permission: the label in your hand decides, and the day as you find it on the spot.";
}

std::string sources_words(const std::vector<std::string>& keys) {
    return fmt::format("{}", fmt::join(keys, ", "));
}

std::string_view from_name(const DayCheck& check) {
    return check.from == plan::LimitFrom::card ? "card" : "rule";
}

std::string origin_words(const SprayDayReport& report, const DayCheck& check) {
    if (check.from == plan::LimitFrom::card) {
        return report.example_card ? "[EXAMPLE card]" : "[card]";
    }
    return check.sources.empty() ? std::string()
                                 : fmt::format("[rule: {}]", sources_words(check.sources));
}

std::string why(const SprayDayReport& report, const DayCheck& check) {
    std::string text = check.known;
    for (const std::string& part : {check.limit, origin_words(report, check)}) {
        if (!part.empty()) text += " " + part;
    }
    return text;
}

std::string time_words(const weather::Stretch& work) {
    if (work.to <= work.from) return weather::words(work.from);
    return weather::words(work.from) + " to " +
           weather::words(work.to).substr(weather::words(work.to).size() - 5);
}

std::string card_words(const SprayDayReport& report) {
    if (report.card.empty()) return "no label card is at hand";
    return "label card " + report.card + (report.example_card ? " (EXAMPLE)" : "");
}

std::string no_limit_words(const SprayDayReport& report) {
    std::vector<std::string> topics;
    for (const plan::DayTopic topic : report.day.no_limit) topics.emplace_back(words(topic));
    if (topics.empty()) return {};
    return fmt::format(
        "Neither the card nor a rule has a limit here for: {}. If your label has one, put it on "
        "the card.",
        fmt::join(topics, ", "));
}

// Each source once, in the order in which it is named.
std::vector<std::string> sources_named(const SprayDayReport& report) {
    std::vector<std::string> keys;
    const auto name = [&](const std::vector<std::string>& more) {
        for (const std::string& key : more) {
            if (std::ranges::find(keys, key) == keys.end()) keys.push_back(key);
        }
    };
    for (const DayCheck& check : report.day.checks) {
        if (check.from == plan::LimitFrom::rule) name(check.sources);
    }
    for (const plan::Said& said : report.day.advice) name(said.sources);
    return keys;
}

std::string sources_text(const SprayDayReport& report, const packs::RuleSet& rules) {
    std::string text;
    for (const std::string& key : sources_named(report)) {
        const packs::Source* source = rules.find_source(key);
        if (source == nullptr) continue;
        text += paragraph(
            fmt::format("{} ({})", source->citation, packs::evidence_text(source->evidence)),
            "  " + key + ": ");
    }
    return text.empty() ? text : "Sources of the rules:\n" + text;
}

}  // namespace

std::string spray_day_text(const SprayDayReport& report, const packs::RuleSet& rules) {
    std::string text = paragraph(
        fmt::format("{}, {}; {}", report.title, time_words(report.work), card_words(report)));
    text += "\n" + paragraph(answer_words(report.day.answer())) + "\n";
    TextTable table({"What", "Answer", "Why"});
    for (const DayCheck& check : report.day.checks) {
        std::string answer(words(check.answer));
        std::ranges::transform(answer, answer.begin(), [&](char letter) {
            return check.answer == DayAnswer::no_go && letter >= 'a' && letter <= 'z'
                       ? static_cast<char>(letter - 'a' + 'A')
                       : letter;
        });
        table.add({std::string(words(check.topic)), std::move(answer), why(report, check)});
    }
    text += table.text() + "\n";
    if (const std::string none = no_limit_words(report); !none.empty()) text += paragraph(none);
    for (const std::string& note : report.notes) text += paragraph(note);
    for (const plan::Said& said : report.day.advice) {
        text += paragraph(fmt::format("{} [{}]", said.says, sources_words(said.sources)), "- ");
    }
    return text + sources_text(report, rules) + paragraph(general_caution());
}

std::string spray_day_csv(const SprayDayReport& report) {
    std::string text = csv_row({"what", "answer", "known", "limit", "from", "sources"});
    text += csv_row({"day", std::string(words(report.day.answer())), "", "", "", ""});
    for (const DayCheck& check : report.day.checks) {
        text +=
            csv_row({std::string(words(check.topic)), std::string(words(check.answer)),
                     csv_text_field(check.known), csv_text_field(check.limit),
                     std::string(from_name(check)), csv_plain_field(sources_words(check.sources))});
    }
    return text;
}

std::string spray_day_json(const SprayDayReport& report) {
    Json checks = Json::array();
    for (const DayCheck& check : report.day.checks) {
        checks.push_back({{"what", words(check.topic)},
                          {"answer", words(check.answer)},
                          {"known", check.known},
                          {"limit", check.limit},
                          {"from", from_name(check)},
                          {"sources", check.sources}});
    }
    Json no_limit = Json::array();
    for (const plan::DayTopic topic : report.day.no_limit) no_limit.push_back(words(topic));
    Json advice = Json::array();
    for (const plan::Said& said : report.day.advice) {
        advice.push_back({{"says", said.says}, {"sources", said.sources}});
    }
    const Json json{{"method", report.method},
                    {"card", report.card.empty() ? Json() : Json(report.card)},
                    {"example_card", report.example_card},
                    {"from", weather::words(report.work.from)},
                    {"until", weather::words(report.work.to)},
                    {"answer", words(report.day.answer())},
                    {"checks", checks},
                    {"no_limit", no_limit},
                    {"advice", advice},
                    {"notes", report.notes}};
    return json.dump(2) + "\n";
}

}  // namespace ashtriage::present
