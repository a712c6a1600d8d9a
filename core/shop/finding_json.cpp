#include "core/shop/finding_json.h"

#include <array>

#include "core/ledger/body_text.h"

namespace tarebook {

namespace {

constexpr std::array kSeverities = {Severity::note, Severity::caution, Severity::refusal, Severity::danger};
constexpr std::array<std::pair<Firmness, const char*>, 5> kFirmness = {{{Firmness::verified, "VERIFIED"},
                                                                        {Firmness::reading, "READING"},
                                                                        {Firmness::practice, "PRACTICE"},
                                                                        {Firmness::memory, "MEMORY"},
                                                                        {Firmness::doubt, "DOUBT"}}};

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
    finding.rule = bodyText(object, "rule");
    for (const Severity severity : kSeverities) {
        if (severityWord(severity) == bodyText(object, "severity")) {
            finding.severity = severity;
        }
    }
    finding.subject = bodyText(object, "subject");
    finding.headline = bodyText(object, "headline");
    if (object.contains("working") && object["working"].is_array()) {
        for (const auto& line : object["working"]) {
            finding.working.push_back(line.is_string() ? line.get<std::string>() : line.dump());
        }
    }
    finding.citation = bodyText(object, "citation");
    finding.edition = bodyText(object, "edition");
    finding.firmness = firmnessFromData(bodyText(object, "status"));
    finding.remedy = bodyText(object, "remedy");
    finding.overrulable = object.value("overrulable", false);
    finding.row = bodyText(object, "row");
    return finding;
}

} // namespace tarebook
