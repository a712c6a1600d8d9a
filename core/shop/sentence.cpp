#include <fmt/format.h>

#include "core/ledger/loan.h"
#include "core/shop/card.h"
#include "core/shop/gauge_reading.h"
#include "core/shop/own_blends.h"

namespace tarebook {

namespace {

/// Tells one entry in the words of the trade. What a body lacks is left out of the sentence.
class Teller {
public:
    Teller(const Shop& shop, const Entry& entry) : m_display(shop.display()), m_entry(entry) {}

    [[nodiscard]] std::string tell() const {
        switch (m_entry.kind) {
        case EntryKind::handedOut:
        case EntryKind::handedOver:
        case EntryKind::returned:
        case EntryKind::locationChanged:
            return custody();
        case EntryKind::opened:
        case EntryKind::bought:
        case EntryKind::recovered:
        case EntryKind::charged:
        case EntryKind::decanted:
        case EntryKind::released:
            return movement();
        case EntryKind::batchPrepared:
        case EntryKind::batchShipped:
        case EntryKind::batchReceived:
        case EntryKind::batchSettled:
            return batch();
        case EntryKind::personSet:
        case EntryKind::siteSet:
        case EntryKind::systemSet:
        case EntryKind::partySet:
        case EntryKind::machineSet:
        case EntryKind::jobSet:
        case EntryKind::settingSet:
        case EntryKind::operatorSet:
            return record();
        default:
            return cylinder();
        }
    }

private:
    [[nodiscard]] std::string text(const char* key) const {
        const auto place = m_entry.body.find(key);
        return place != m_entry.body.end() && place->is_string() ? place->get<std::string>() : std::string();
    }
    [[nodiscard]] bool isTrue(const char* key) const {
        return m_entry.body.contains(key) && m_entry.body[key] == true;
    }
    [[nodiscard]] std::string mass(const char* key) const {
        return m_display.mass(Mass::fromMilligrams(m_entry.body.value(key, std::int64_t{0})));
    }
    /// `prefix TEXT`, or nothing.
    [[nodiscard]] std::string with(const char* prefix, const char* key) const {
        const std::string value = text(key);
        return value.empty() ? value : prefix + value;
    }
    /// `cylinder:A101` as `A101`, `system:HARBOR/DOCK-1` as `HARBOR/DOCK-1`.
    [[nodiscard]] std::string account(const char* key) const {
        const auto account = Account::parse(text(key));
        return !account ? text(key) : account.value().name.empty() ? text(key) : account.value().name;
    }

    /// What a restatement says about the use, `, rated for flammable gas`.
    [[nodiscard]] std::string tare() const {
        if (!m_entry.body.contains("tare_mg")) {
            return {};
        }
        const auto weighed = m_entry.body.find("weighed");
        return fmt::format(", tare {}{}", mass("tare_mg"),
                           weighed != m_entry.body.end() && *weighed == true ? " as weighed empty" : "");
    }

    [[nodiscard]] std::string uses() const {
        std::string said;
        for (const auto& [key, yes, no] :
             {std::tuple{"flammable_rated", ", rated for flammable gas", ", not rated for flammable gas"},
              std::tuple{"burn_out", ", kept for burn-out", ", no longer kept for burn-out"},
              std::tuple{"clean_service", ", kept for clean gas", ", no longer kept for clean gas"}}) {
            const auto found = m_entry.body.find(key);
            if (found != m_entry.body.end() && found->is_boolean()) {
                said += found->get<bool>() ? yes : no;
            }
        }
        if (!text("service_until").empty()) {
            said += ", service life to " + text("service_until");
        }
        return said;
    }

    [[nodiscard]] std::string custody() const {
        switch (m_entry.kind) {
        case EntryKind::handedOut:
            return fmt::format("Handed {} to {}{}", text("serial"), text("person"), with(" for job ", "job"));
        case EntryKind::handedOver:
            return fmt::format("Handed {} over to {}{}", text("serial"), text("person"),
                               with(" for job ", "job"));
        case EntryKind::returned:
            return fmt::format("{} came back{}{}", text("serial"), with(" from ", "person"),
                               with(" to ", "place"));
        default:
            return fmt::format("{} stands at {} now", text("serial"), text("place"));
        }
    }

    [[nodiscard]] std::string movement() const {
        const std::string what = mass("mass_mg") + with(" of ", "refrigerant");
        const std::string behind = with(", job ", "job") + with(": ", "note");
        switch (m_entry.kind) {
        case EntryKind::opened:
            return fmt::format("Found {} in {} when the books began{}", what, account("to"), behind);
        case EntryKind::bought:
            return fmt::format("Got {} from {} in {}{}", what, account("from"), account("to"), behind);
        case EntryKind::recovered:
            return fmt::format("Recovered {} from {} into {}{}{}{}", what, account("from"), account("to"),
                               with(" with machine ", "machine"), with(", level reached ", "reached"),
                               behind);
        case EntryKind::charged:
            return fmt::format("Charged {} from {} into {}{}{}", what, account("from"), account("to"),
                               with(", no loss: ", "purpose"), behind);
        case EntryKind::decanted:
            return fmt::format("Decanted {} from {} into {}{}", what, account("from"), account("to"), behind);
        default:
            return text("to") == "atmosphere"
                       ? fmt::format("Released {} from {}{}", what, account("from"), behind)
                       : fmt::format("Sent {} from {} to {}{}", what, account("from"), account("to"), behind);
        }
    }

    /// What the shop said to lines of a receipt; empty: it is the receipt itself.
    [[nodiscard]] std::string verdicts() const {
        std::string said;
        const auto lines = m_entry.body.find("lines");
        for (const auto& line : lines != m_entry.body.end() ? *lines : nlohmann::json::array()) {
            const auto word = [&](const char* key) {
                return line.is_object() && line.contains(key) && line[key].is_string()
                           ? line[key].get<std::string>()
                           : std::string();
            };
            if (!word("verdict").empty()) {
                said += fmt::format("{}{} {}{}", said.empty() ? "" : "; ", word("serial"), word("verdict"),
                                    word("why").empty() ? "" : ", " + word("why"));
            }
        }
        return said;
    }

    [[nodiscard]] std::string batch() const {
        const auto lines = m_entry.body.find("lines");
        if (!text("certificate").empty() && lines != m_entry.body.end() && lines->empty()) {
            return fmt::format("Filed certificate {} of batch {} with {}", text("certificate"), text("batch"),
                               text("reclaimer"));
        }
        if (const std::string said = verdicts(); m_entry.kind == EntryKind::batchReceived && !said.empty()) {
            return fmt::format("Receipt of batch {}: {}", text("batch"), said);
        }
        switch (m_entry.kind) {
        case EntryKind::batchPrepared:
            return fmt::format("Prepared batch {} for {}", text("batch"), text("reclaimer"));
        case EntryKind::batchShipped:
            return fmt::format("Shipped batch {} to {}{}", text("batch"), text("reclaimer"),
                               with(" by ", "carrier"));
        case EntryKind::batchReceived:
            return fmt::format("{} received batch {}{}", text("reclaimer"), text("batch"),
                               with(", receipt ", "reference"));
        default:
            return fmt::format("Settled batch {} with {}{}", text("batch"), text("reclaimer"),
                               with(": ", "note"));
        }
    }

    /// Cylinders on deposit.
    [[nodiscard]] std::string loans() const {
        std::string sentence;
        for (const auto& [serial, written] : m_entry.body["loans"].items()) {
            const auto loan = CylinderLoan::from(serial, written);
            if (!loan) {
                continue;
            }
            const CylinderLoan& its = loan.value();
            sentence += sentence.empty() ? "" : "; ";
            sentence += its.away ? fmt::format("{} is with {} {}", serial, text("kind"), text("name"))
                                 : fmt::format("{} of {} {} is here", serial, text("kind"), text("name"));
            sentence += fmt::format(" since {}", its.since.text());
            sentence += its.until ? fmt::format(", went back on {}", its.until->text()) : ", " + its.text();
        }
        return sentence;
    }

    [[nodiscard]] std::string record() const {
        switch (m_entry.kind) {
        case EntryKind::personSet:
            return fmt::format("Entered {}{}{}", text("name"), with(", ", "role"),
                               with(", certificate until ", "certificate_expires"));
        case EntryKind::siteSet:
            return fmt::format("Entered site {}{}{}", text("site"), with(" of ", "customer"),
                               with(", ", "address"));
        case EntryKind::systemSet:
            return fmt::format("Entered system {}/{}{}", text("site"), text("tag"),
                               with(", ", "refrigerant"));
        case EntryKind::partySet:
            if (m_entry.body.contains("loans")) {
                return loans();
            }
            return fmt::format("Entered {} {}{}", text("kind"), text("name"),
                               m_entry.body.contains("terms") ? " with its terms" : "");
        case EntryKind::machineSet:
            return fmt::format(
                "{} recovery machine {}{}{}", isTrue("cleared") ? "Cleared" : "Entered", text("machine"),
                with(", made ", "made"),
                m_entry.body.contains("active") && m_entry.body["active"] == false ? ", out of use" : "");
        case EntryKind::jobSet:
            return fmt::format("Opened job {}{}{}", text("job"), with(" at ", "system"),
                               with(" for ", "person"));
        case EntryKind::operatorSet:
            return text("role") == kNoRole
                       ? fmt::format("{} no longer signs in", text("name"))
                       : fmt::format("{} signs in as {}{}", text("name"), text("role"),
                                     text("passphrase").empty() ? "" : ", with a new passphrase");
        default:
            if (const std::string blend = ownBlendNamed(text("key")); !blend.empty()) {
                return fmt::format("Named a blend of the shop's own: {}, {} by mass", blend, text("value"));
            }
            return fmt::format("Set {} to {}", text("key"),
                               text("value").empty() ? "nothing" : text("value"));
        }
    }

    [[nodiscard]] std::string cylinder() const {
        switch (m_entry.kind) {
        case EntryKind::cylinderRegistered:
            return fmt::format("Registered {}, {}, tare {}", text("serial"), text("specification"),
                               mass("tare_mg"));
        case EntryKind::marksRestated:
            return fmt::format("Restated marks of {}{}{}{}", text("serial"), tare(), uses(),
                               with(": ", "reason"));
        case EntryKind::inspected:
            return fmt::format("Inspected {}: {}{}{}", text("serial"), text("result"),
                               with(", its leak was at a ", "leak_at"), with(", ", "note"));
        case EntryKind::retested:
            return fmt::format("{} passed its test of {}{}{}", text("serial"), text("month"),
                               with(", ", "method"), with(", by ", "requalifier"));
        case EntryKind::condemned:
            return fmt::format("Condemned {}: {}", text("serial"), text("reason"));
        case EntryKind::retired:
            return fmt::format("{} left the fleet{}: {}", text("serial"),
                               text("for").empty() ? std::string()
                                                   : fmt::format(", {} came for it", text("for")),
                               text("reason"));
        case EntryKind::weighed:
            return fmt::format("Weighed {}: {} gross{}", text("serial"), mass("gross_mg"),
                               with(", ", "note"));
        case EntryKind::evacuated:
            return fmt::format("Evacuated {}{}{}", text("serial"), with(", purged with ", "purged_with"),
                               with(": ", "note"));
        case EntryKind::sampleAnalysed:
            return fmt::format("Analysed {}{}", text("serial"), with(", by ", "laboratory"));
        case EntryKind::entryReversed:
            return fmt::format("Reversed entry {}: {}", m_entry.body.value("entry", Sequence{0}),
                               text("reason"));
        case EntryKind::findingOverruled:
            return fmt::format("Overruled {} of {}: {}", text("rule"), account("subject"), text("reason"));
        case EntryKind::paperIssued:
            return fmt::format("Issued {} for {}", text("paper"), text("subject"));
        case EntryKind::attached:
            return fmt::format("Attached {} to entry {}{}", text("name"),
                               m_entry.body.value("entry", Sequence{0}), with(": ", "note"));
        default:
            return std::string(entryKindWord(m_entry.kind));
        }
    }

    Display m_display;
    const Entry& m_entry;
};

} // namespace

std::string sentenceOf(const Shop& shop, const Entry& entry) {
    const std::string reading = readingWords(shop.display(), entry);
    return Teller(shop, entry).tell() + (reading.empty() ? "" : "; " + reading);
}

} // namespace tarebook
