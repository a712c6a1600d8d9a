#include <algorithm>
#include <cstdint>
#include <limits>

#include <fmt/format.h>

#include "core/base/date.h"
#include "core/base/plain_text.h"
#include "core/base/text.h"
#include "core/ledger/acceptance.h"
#include "core/ledger/account.h"
#include "core/ledger/attached_file.h"
#include "core/ledger/body_reader.h"
#include "core/ledger/entry.h"
#include "core/ledger/facts.h"
#include "core/ledger/loan.h"
#include "core/ledger/nameplate_body.h"
#include "core/ledger/receipt.h"
#include "core/ledger/role.h"

namespace tarebook {

namespace {

constexpr std::size_t kLongestText = 4'000; // bytes of one field of a body
constexpr std::size_t kLongestId = 64;
constexpr std::size_t kLongestSerial = 40;
constexpr int kDeepest = 6;
constexpr auto kLargestNumber = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());

bool isUtf8WithoutNul(const std::string& text) {
    if (text.find('\0') != std::string::npos) {
        return false;
    }
    if (std::all_of(text.begin(), text.end(), [](char byte) { return byte >= '\0'; })) {
        return true; // ASCII
    }
    try {
        (void)nlohmann::json(text).dump();
    } catch (const nlohmann::json::exception&) {
        return false;
    }
    return true;
}

/// Words for a character that a text may not have; empty: it has none, or is a name that the books hold.
std::string controlInNew(const std::string& text, const KnownName& isKnown) {
    std::string control = controlIn(text);
    return control.empty() || !isKnown || !isKnown(text) ? control : std::string();
}

std::string wrongIn(const nlohmann::json& value, const std::string& where, int depth,
                    const KnownName& isKnown) {
    if (depth > kDeepest) {
        return where + " is nested too deeply";
    }
    if (value.is_string()) {
        const auto& text = value.get_ref<const std::string&>();
        if (text.size() > kLongestText) {
            return fmt::format("{} is longer than {} bytes", where, kLongestText);
        }
        if (!isUtf8WithoutNul(text)) {
            return where + " is no clean UTF-8 text";
        }
        const std::string control = controlInNew(text, isKnown);
        return control.empty() ? "" : fmt::format("{} has {} in it", where, control);
    }
    if (value.is_number_float()) {
        return where + " is no whole number";
    }
    if (value.is_binary() || value.is_discarded() ||
        (value.is_number_unsigned() && value.get<std::uint64_t>() > kLargestNumber)) {
        return where + " cannot stand in the journal";
    }
    if (value.is_object() || value.is_array()) {
        for (const auto& [key, item] : value.items()) {
            const std::string inside = where.empty() ? key : fmt::format("{}.{}", where, key);
            if (!isUtf8WithoutNul(key) || !controlInNew(key, isKnown).empty()) {
                return withControlPictures(inside) + " has a damaged name";
            }
            std::string wrong = wrongIn(item, inside, depth + 1, isKnown);
            if (!wrong.empty()) {
                return wrong;
            }
        }
    }
    return "";
}

/// Fields that the kind cannot do without; masses are checked by massFactsOf.
std::vector<const char*> neededTexts(EntryKind kind) {
    switch (kind) {
    case EntryKind::cylinderRegistered:
        return {"serial", "specification", "manufactured", "owner"};
    case EntryKind::marksRestated:
    case EntryKind::condemned:
    case EntryKind::retired:
        return {"serial", "reason"};
    case EntryKind::inspected:
        return {"serial", "result"};
    case EntryKind::retested:
        return {"serial", "month"};
    case EntryKind::handedOut:
    case EntryKind::handedOver:
        return {"serial", "person"};
    case EntryKind::locationChanged:
        return {"serial", "place"};
    case EntryKind::returned:
    case EntryKind::weighed:
    case EntryKind::evacuated:
    case EntryKind::sampleAnalysed:
        return {"serial"};
    case EntryKind::batchPrepared:
    case EntryKind::batchShipped:
    case EntryKind::batchReceived:
    case EntryKind::batchSettled:
        return {"batch", "reclaimer"};
    case EntryKind::entryReversed:
        return {"reason"};
    case EntryKind::personSet:
        return {"name"};
    case EntryKind::siteSet:
        return {"site"};
    case EntryKind::systemSet:
        return {"site", "tag"};
    case EntryKind::partySet:
        return {"kind", "name"};
    case EntryKind::machineSet:
        return {"machine"};
    case EntryKind::jobSet:
        return {"job"};
    case EntryKind::settingSet:
        return {"key"}; // an empty value clears it
    case EntryKind::findingOverruled:
        return {"rule", "subject", "reason"};
    case EntryKind::paperIssued:
        return {"paper", "subject", "head"};
    case EntryKind::operatorSet:
        return {"name", "role"};
    default:
        return {};
    }
}

/// A name that stands in an account must read back as itself: no white space at the ends, no control
/// characters.
void checkName(BodyReader& reader, const char* key, const char* kind) {
    const std::string name = reader.optionalText(key);
    if (name.empty()) {
        return;
    }
    const auto account = Account::parse(std::string(kind) + ":" + name);
    if (!account || account.value().name != name) {
        reader.refuse(key, "is too long, or has white space at its ends or control characters");
    }
}

void checkSerial(BodyReader& reader, const char* key) {
    if (reader.optionalText(key).size() > kLongestSerial) {
        reader.refuse(key, "is longer than 40 bytes");
    }
    checkName(reader, key, "cylinder");
}

void checkLines(BodyReader& reader, const nlohmann::json& body) {
    for (const char* list : {"lines", "exchanged"}) {
        if (!reader.has(list) || !body[list].is_array()) {
            continue;
        }
        for (const auto& line : body[list]) {
            BodyReader lineReader(line);
            for (const char* key : {"serial", "out", "in"}) {
                checkSerial(lineReader, key);
            }
            if (!lineReader.ok()) {
                reader.refuse(list, lineReader.error().wrong);
            }
        }
    }
}

/// Cylinders on deposit with a party.
void checkLoans(BodyReader& reader, const nlohmann::json& loans) {
    if (!loans.is_object()) {
        reader.refuse("loans", "is no object of serials");
        return;
    }
    for (const auto& [serial, written] : loans.items()) {
        const nlohmann::json named{{"serial", serial}};
        BodyReader nameReader(named);
        (void)nameReader.text("serial");
        checkSerial(nameReader, "serial");
        const auto loan = CylinderLoan::from(serial, written);
        if (!nameReader.ok() || !loan) {
            reader.refuse("loans:", nameReader.ok() ? loan.error().text() : nameReader.error().text());
        }
    }
}

void checkMarks(BodyReader& reader, const Draft& draft) {
    if (draft.kind == EntryKind::cylinderRegistered) {
        (void)reader.massFromZero("tare_mg");
        const auto plate = nameplateFrom(draft.body);
        if (!plate) {
            reader.refuse("the nameplate:", plate.error().text());
        }
    }
    if (draft.kind == EntryKind::marksRestated || draft.kind == EntryKind::retested) {
        if (reader.has("tare_mg")) {
            (void)reader.massFromZero("tare_mg");
        }
        if (reader.has("water_capacity_mg")) {
            (void)reader.massAboveZero("water_capacity_mg");
        }
    }
}

/// In exchange for another number: which one, and at whose counter.
void checkExchange(BodyReader& reader) {
    const std::string came = reader.optionalText("for");
    checkSerial(reader, "for");
    if (!came.empty() && came == reader.optionalText("serial")) {
        reader.refuse("for", "is the cylinder that left");
    }
    const std::string party = reader.optionalText("party");
    const auto account = Account::parse(party);
    const bool fits =
        account && account.value().text() == party &&
        (account.value().kind == AccountKind::reclaimer || account.value().kind == AccountKind::supplier);
    if (!party.empty() && !fits) {
        reader.refuse("party", "is no reclaimer:NAME or supplier:NAME");
    }
}

/// Name, role, and whether the passphrase is a new one: nothing else, so that no secret can slip in.
void checkOperator(BodyReader& reader, const nlohmann::json& body) {
    checkName(reader, "name", "supplier");
    const std::string role = reader.optionalText("role");
    if (role != kNoRole &&
        std::none_of(kRoles.begin(), kRoles.end(), [&](Role known) { return roleWord(known) == role; })) {
        reader.refuse("role", "is none of manager, storekeeper, technician, auditor, none");
    }
    if (reader.has("passphrase") && reader.optionalText("passphrase") != kPassphraseSet) {
        reader.refuse("passphrase", "says more than that it was set");
    }
    if (body.size() > (reader.has("passphrase") ? 3U : 2U)) {
        reader.refuse("the body", "has other fields than name, role and passphrase");
    }
}

Result<bool> bodyFits(const Draft& draft) {
    BodyReader reader(draft.body);
    for (const char* key : neededTexts(draft.kind)) {
        (void)reader.text(key);
    }
    checkMarks(reader, draft);
    checkSerial(reader, "serial");
    checkSerial(reader, "cylinder");
    checkName(reader, "reclaimer", "reclaimer");
    checkName(reader, "machine", "reclaimer");
    checkLines(reader, draft.body);
    if (draft.kind == EntryKind::systemSet) {
        checkName(reader, "tag", "reclaimer");
        if (reader.optionalText("site").find('/') != std::string::npos) {
            reader.refuse("site", "must not have a /, which divides site and tag");
        }
    }
    if (draft.kind == EntryKind::machineSet && !reader.optionalText("made").empty() &&
        !Date::parse(reader.optionalText("made"))) {
        reader.refuse("made", "is no day, as 2019-05-20");
    }
    if (draft.kind == EntryKind::retired) {
        checkExchange(reader);
    }
    if (draft.kind == EntryKind::operatorSet) {
        checkOperator(reader, draft.body);
    }
    if (draft.kind == EntryKind::partySet && reader.has("terms")) {
        const auto terms = AcceptanceTerms::from(draft.body["terms"]);
        if (!terms) {
            reader.refuse("the terms:", terms.error().text());
        }
    }
    if (draft.kind == EntryKind::partySet && reader.has("loans")) {
        checkLoans(reader, draft.body["loans"]);
    }
    if (draft.kind == EntryKind::batchReceived) {
        const auto receipt = receiptFits(draft.body);
        if (reader.ok() && !receipt) {
            return receipt.error();
        }
    }
    if (draft.kind == EntryKind::attached) {
        const auto file = AttachedFile::from(draft.body);
        if (!file) {
            reader.refuse("the attached file:", file.error().text());
        }
    }
    if (draft.kind == EntryKind::entryReversed && reader.mass("entry") <= Mass()) {
        reader.refuse("entry", "is no number of an entry");
    }
    if (!reader.ok()) {
        return reader.error();
    }
    const auto facts = massFactsOf(draft);
    if (!facts) {
        return facts.error();
    }
    return true;
}

} // namespace

Result<bool> validated(const Draft& draft, const KnownName& isKnown) {
    if (draft.id.empty() || draft.id.size() > kLongestId ||
        draft.id.find_first_not_of("0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-_.:") !=
            std::string::npos) {
        return Error{"the entry's id is empty, too long or has other than letters, digits and -_.:",
                     "make a fresh id"};
    }
    if (!draft.body.is_object()) {
        return Error{"the entry's body is no JSON object", "docs/journal.md lists the fields"};
    }
    static const Instant kFirst = Instant::parse("1900-01-02T00:00:00Z").value();
    static const Instant kLast = Instant::parse("2199-12-30T00:00:00Z").value();
    if (draft.occurred < kFirst || draft.occurred > kLast) {
        return Error{"the entry's day lies outside 1900 to 2199", "check the year"};
    }
    for (const std::string* text : {&draft.operatorName, &draft.zone}) {
        const bool named = text == &draft.operatorName;
        if (text->size() > kLongestText || !isUtf8WithoutNul(*text) ||
            !controlInNew(*text, named ? isKnown : KnownName()).empty()) {
            return Error{"the operator or the time zone is no clean UTF-8 text of one line", "type it again"};
        }
    }
    const std::string wrong = wrongIn(draft.body, "", 0, isKnown);
    if (!wrong.empty()) {
        return Error{wrong, "type it again on one line, shorter where it is too long"};
    }
    return bodyFits(draft);
}

} // namespace tarebook
