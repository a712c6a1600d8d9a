#include "core/shop/finding_json.h"

#include <array>

namespace tarebook {

namespace {

constexpr std::array kSeverities = {Severity::note, Severity::caution, Severity::refusal, Severity::danger};
constexpr std::array<std::pair<Firmness, const char*>, 5> kFirmness = {{{Firmness::verified, "VERIFIED"},
                                                                        {Firmness::reading, "READING"},
                                                                        {Firmness::practice, "PRACTICE"},
                                                                        {Firmness::memory, "MEMORY"},
                                                                        {Firmness::doubt, "DOUBT"}}};

std::string textIn(const nlohmann::json& object, const char* key) {
    const auto place = object.find(key);
    return place != object.end() && place->is_string() ? place->get<std::string>() : std::string();
}

} // namespace

nlohmann::json jsonOf(const Finding& finding) {
    std::string status = "DOUBT";
    for (const auto& [firmness, word] : kFirmness) {
        if (firmness == finding.firmness) {
            status = word;
        }
    }
    nlohmann::json object{{"rule", finding.rule},       {"severity", severityWord(finding.severity)},
                          {"subject", finding.subject}, {"headline", finding.headline},
                          {"working", finding.working}, {"citation", finding.citation},
                          {"edition", finding.edition}, {"status", status},
                          {"remedy", finding.remedy},   {"overrulable", finding.overrulable}};
    if (!finding.row.empty()) {
        object["row"] = finding.row;
    }
    return object;
}

Finding findingFrom(const nlohmann::json& object) {
    Finding finding;
    if (!object.is_object()) {
        return finding;
    }
    finding.rule = textIn(object, "rule");
    for (const Severity severity : kSeverities) {
        if (severityWord(severity) == textIn(object, "severity")) {
            finding.severity = severity;
        }
    }
    finding.subject = textIn(object, "subject");
    finding.headline = textIn(object, "headline");
    if (object.contains("working") && object["working"].is_array()) {
        for (const auto& line : object["working"]) {
            finding.working.push_back(line.is_string() ? line.get<std::string>() : line.dump());
        }
    }
    finding.citation = textIn(object, "citation");
    finding.edition = textIn(object, "edition");
    finding.firmness = firmnessFromData(textIn(object, "status"));
    finding.remedy = textIn(object, "remedy");
    finding.overrulable = object.value("overrulable", false);
    finding.row = textIn(object, "row");
    return finding;
}

} // namespace tarebook
