#include "core/ledger/entry.h"

#include <algorithm>
#include <array>
#include <type_traits>
#include <utility>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<EntryKind, std::string_view>, 35> kKinds = {{
    {EntryKind::cylinderRegistered, "cylinder_registered"},
    {EntryKind::marksRestated, "marks_restated"},
    {EntryKind::inspected, "inspected"},
    {EntryKind::retested, "retested"},
    {EntryKind::condemned, "condemned"},
    {EntryKind::retired, "retired"},
    {EntryKind::handedOut, "handed_out"},
    {EntryKind::handedOver, "handed_over"},
    {EntryKind::returned, "returned"},
    {EntryKind::locationChanged, "location_changed"},
    {EntryKind::weighed, "weighed"},
    {EntryKind::opened, "opened"},
    {EntryKind::bought, "bought"},
    {EntryKind::recovered, "recovered"},
    {EntryKind::charged, "charged"},
    {EntryKind::decanted, "decanted"},
    {EntryKind::released, "released"},
    {EntryKind::evacuated, "evacuated"},
    {EntryKind::sampleAnalysed, "sample_analysed"},
    {EntryKind::batchPrepared, "batch_prepared"},
    {EntryKind::batchShipped, "batch_shipped"},
    {EntryKind::batchReceived, "batch_received"},
    {EntryKind::batchSettled, "batch_settled"},
    {EntryKind::entryReversed, "entry_reversed"},
    {EntryKind::personSet, "person_set"},
    {EntryKind::siteSet, "site_set"},
    {EntryKind::systemSet, "system_set"},
    {EntryKind::partySet, "party_set"},
    {EntryKind::machineSet, "machine_set"},
    {EntryKind::jobSet, "job_set"},
    {EntryKind::settingSet, "setting_set"},
    {EntryKind::findingOverruled, "finding_overruled"},
    {EntryKind::paperIssued, "paper_issued"},
    {EntryKind::operatorSet, "operator_set"},
    {EntryKind::attached, "attached"},
}};

/// The fields by their sorted names, written in one go: building an object first takes twice as long, and
/// every entry that is kept is hashed.
std::string lineOf(const Entry& entry, std::string_view body, std::string_view digest) {
    std::string line;
    line.reserve(body.size() + 512);
    const auto add = [&line](std::string_view key, std::string_view value) {
        line += line.empty() ? "{\"" : ",\"";
        line += key;
        line += "\":";
        line += value;
    };
    const auto jsonText = [](std::string_view value) {
        std::string text;
        appendJsonText(text, value);
        return text;
    };
    add("body", body);
    if (!digest.empty()) {
        add("digest", jsonText(digest));
    }
    add("id", jsonText(entry.id));
    add("kind", jsonText(entryKindWord(entry.kind)));
    add("occurred", jsonText(entry.occurred.text()));
    add("operator", jsonText(entry.operatorName));
    add("previous", jsonText(entry.previous));
    add("recorded", jsonText(entry.recorded.text()));
    add("seq", std::to_string(entry.seq));
    add("zone", jsonText(entry.zone));
    return line + '}';
}

template <typename Type>
bool read(const nlohmann::json& object, const char* key, Type& value, std::string& wrong) {
    const auto place = object.find(key);
    bool good = place != object.end();
    if constexpr (std::is_same_v<Type, std::string>) {
        good = good && place->is_string();
    } else {
        // An unsigned beyond the signed range would come out negative.
        good = good && place->is_number_integer() &&
               (!place->is_number_unsigned() || std::in_range<Type>(place->template get<std::uint64_t>()));
    }
    if (good) {
        value = place->template get<Type>();
    } else if (wrong.empty()) {
        wrong = key;
    }
    return good;
}

bool isDigest(std::string_view text) {
    return text.size() == kGenesisDigest.size() &&
           text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

} // namespace

std::string_view entryKindWord(EntryKind kind) {
    for (const auto& [value, word] : kKinds) {
        if (value == kind) {
            return word;
        }
    }
    return "weighed";
}

Result<EntryKind> entryKindFrom(std::string_view word) {
    for (const auto& [value, itsWord] : kKinds) {
        if (itsWord == word) {
            return value;
        }
    }
    return Error{fmt::format("{} is no kind of entry", tarebook::quoted(word)), "docs/journal.md lists them"};
}

void appendJsonText(std::string& text, std::string_view value) {
    bool special = false; // looked at without stopping early, so that many are looked at in one step
    for (const char character : value) {
        const auto byte = static_cast<unsigned char>(character);
        special |= byte < 0x20U || byte > 0x7eU || byte == '"' || byte == '\\';
    }
    if (special) {
        try {
            text += nlohmann::json(value).dump();
            return;
        } catch (const nlohmann::json::exception&) {
            // Bytes of a damaged file that are no UTF-8 stand as they are: no canonical text has such, so the
            // digest fits no more.
        }
    }
    text += '"';
    text += value;
    text += '"';
}

std::string canonicalText(const Entry& entry) {
    return lineOf(entry, entry.body.dump(), {});
}

std::string digestOf(const Entry& entry) {
    return digestOf(entry, entry.body.dump());
}

std::string digestOf(const Entry& entry, std::string_view body) {
    return sha256Hex(entry.previous + "\n" + lineOf(entry, body, {}));
}

std::string exportLine(const Entry& entry) {
    return lineOf(entry, entry.body.dump(), entry.digest);
}

Result<Entry> readExportLine(std::string_view line) {
    const auto object = nlohmann::json::parse(line, nullptr, false);
    if (!object.is_object()) {
        return Error{"this line is no JSON object", "write one entry a line, as the journal export does"};
    }
    Entry entry;
    std::string kind;
    std::string occurred;
    std::string recorded;
    std::string wrong;
    read(object, "id", entry.id, wrong);
    read(object, "seq", entry.seq, wrong);
    read(object, "operator", entry.operatorName, wrong);
    read(object, "zone", entry.zone, wrong);
    read(object, "previous", entry.previous, wrong);
    read(object, "digest", entry.digest, wrong);
    read(object, "kind", kind, wrong);
    read(object, "occurred", occurred, wrong);
    read(object, "recorded", recorded, wrong);
    if (!wrong.empty() || !object.contains("body")) {
        return Error{
            fmt::format("the field {} is missing or of the wrong type", wrong.empty() ? "body" : wrong),
            "docs/journal.md lists the fields"};
    }
    for (const auto& [field, digest] : {std::pair("previous", &entry.previous), {"digest", &entry.digest}}) {
        if (!isDigest(*digest)) {
            return Error{fmt::format("the field {} is no digest", field),
                         "a digest has 64 hexadecimal digits in lower case"};
        }
    }
    entry.body = object["body"];
    const auto itsKind = entryKindFrom(kind);
    const auto itsOccurred = Instant::parse(occurred);
    const auto itsRecorded = Instant::parse(recorded);
    if (!itsKind || !itsOccurred || !itsRecorded) {
        return !itsKind ? itsKind.error() : !itsOccurred ? itsOccurred.error() : itsRecorded.error();
    }
    entry.kind = itsKind.value();
    entry.occurred = itsOccurred.value();
    entry.recorded = itsRecorded.value();
    return entry;
}

} // namespace tarebook
