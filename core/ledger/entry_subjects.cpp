#include <algorithm>

#include "core/ledger/account.h"
#include "core/ledger/entry.h"

namespace tarebook {

namespace {

void addText(const nlohmann::json& body, const char* key, std::string_view prefix,
             std::vector<std::string>& subjects) {
    const auto field = body.find(key);
    if (field != body.end() && field->is_string() && !field->get_ref<const std::string&>().empty()) {
        subjects.push_back(std::string(prefix) + field->get<std::string>());
    }
}

void addAccount(const nlohmann::json& body, const char* key, std::vector<std::string>& subjects) {
    const auto field = body.find(key);
    if (field == body.end() || !field->is_string()) {
        return;
    }
    const auto account = Account::parse(field->get_ref<const std::string&>());
    if (account && !account.value().name.empty()) {
        subjects.push_back(account.value().text());
    }
}

void addSerials(const nlohmann::json& body, std::vector<std::string>& subjects) {
    if (body.contains("serials") && body["serials"].is_array()) {
        for (const auto& serial : body["serials"]) {
            if (serial.is_string()) {
                subjects.push_back("cylinder:" + serial.get<std::string>());
            }
        }
    }
    if (body.contains("lines") && body["lines"].is_array()) {
        for (const auto& line : body["lines"]) {
            if (line.is_object()) {
                addText(line, "serial", "cylinder:", subjects);
            }
        }
    }
    if (body.contains("exchanged") && body["exchanged"].is_array()) {
        for (const auto& line : body["exchanged"]) {
            if (line.is_object()) {
                addText(line, "out", "cylinder:", subjects);
                addText(line, "in", "cylinder:", subjects);
            }
        }
    }
}

void addByKind(const Draft& draft, std::vector<std::string>& subjects) {
    const auto& body = draft.body;
    const auto textOf = [&](const char* key) {
        return body.contains(key) && body[key].is_string() ? body[key].get<std::string>() : std::string();
    };
    switch (draft.kind) {
    case EntryKind::personSet:
        addText(body, "name", "person:", subjects);
        break;
    case EntryKind::siteSet:
        addText(body, "site", "site:", subjects);
        break;
    case EntryKind::systemSet:
        subjects.push_back("system:" + textOf("site") + "/" + textOf("tag"));
        break;
    case EntryKind::partySet:
        subjects.push_back(textOf("kind") + ":" + textOf("name"));
        if (body.contains("loans") && body["loans"].is_object()) {
            for (const auto& [serial, loan] : body["loans"].items()) {
                subjects.push_back("cylinder:" + serial);
            }
        }
        break;
    case EntryKind::retired: // in exchange: the one that came for it, and who gave it
        addText(body, "for", "cylinder:", subjects);
        addAccount(body, "party", subjects);
        break;
    case EntryKind::settingSet:
        addText(body, "key", "setting:", subjects);
        break;
    case EntryKind::operatorSet:
        addText(body, "name", "operator:", subjects);
        break;
    case EntryKind::findingOverruled:
    case EntryKind::paperIssued:
        addAccount(body, "subject", subjects);
        break;
    case EntryKind::attached:
        if (body.contains("about") && body["about"].is_array()) {
            for (const auto& subject : body["about"]) {
                if (subject.is_string()) {
                    subjects.push_back(subject.get<std::string>());
                }
            }
        }
        break;
    default:
        break;
    }
}

} // namespace

std::vector<std::string> subjectsOf(const Draft& draft) {
    std::vector<std::string> subjects;
    if (!draft.body.is_object()) {
        return subjects;
    }
    addText(draft.body, "serial", "cylinder:", subjects);
    addText(draft.body, "cylinder", "cylinder:", subjects);
    addText(draft.body, "person", "person:", subjects);
    addText(draft.body, "machine", "machine:", subjects);
    addText(draft.body, "job", "job:", subjects);
    addText(draft.body, "batch", "batch:", subjects);
    addText(draft.body, "reclaimer", "reclaimer:", subjects);
    addAccount(draft.body, "from", subjects);
    addAccount(draft.body, "to", subjects);
    addSerials(draft.body, subjects);
    addByKind(draft, subjects);
    std::sort(subjects.begin(), subjects.end());
    subjects.erase(std::unique(subjects.begin(), subjects.end()), subjects.end());
    return subjects;
}

} // namespace tarebook
