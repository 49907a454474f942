#include "walk_draft.hpp"

#include <nlohmann/json.hpp>

#include "measure/input_error.hpp"
#include "observe/stem_text.hpp"

namespace ashtriage::cli {

std::string to_json(const WalkDraft& draft) {
    nlohmann::json json{{"place", draft.place},
                        {"observer", draft.observer},
                        {"stems", observe::stems_text(draft.stems)},
                        {"findings", nlohmann::json::array()}};
    for (const observe::Finding& finding : draft.findings) {
        json["findings"].push_back({finding.fact, finding.value});
    }
    return json.dump();
}

WalkDraft walk_draft_from_json(const std::string& text) {
    try {
        const auto json = nlohmann::json::parse(text);
        WalkDraft draft;
        draft.place = json.at("place").get<std::string>();
        draft.observer = json.at("observer").get<std::string>();
        const auto stems = json.at("stems").get<std::string>();
        if (!stems.empty()) draft.stems = observe::parse_stems(stems);
        for (const auto& finding : json.at("findings")) {
            draft.findings.push_back(
                {finding.at(0).get<std::string>(), finding.at(1).get<std::string>()});
        }
        return draft;
    } catch (const nlohmann::json::exception&) {
        throw measure::InputError("The unfinished walk-around cannot be read", {},
                                  "Begin this tree anew with --afresh.");
    }
}

}  // namespace ashtriage::cli
