#include "core/rules/technician.h"

#include <algorithm>
#include <cctype>
#include <set>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

/// The words of a text, in lower case, of letters and digits.
std::set<std::string> wordsOf(std::string_view text) {
    std::set<std::string> words;
    std::string word;
    for (const char letter : lowered(text) + " ") {
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0) {
            word += letter;
        } else if (!word.empty()) {
            words.insert(std::move(word));
            word.clear();
        }
    }
    return words;
}

/// Whether one spelling of the row stands in the words.
bool named(const RuleRow& row, const std::set<std::string>& words) {
    const std::vector<std::string> spellings = namesIn(row, "certificate", " / ");
    return std::any_of(spellings.begin(), spellings.end(), [&](const std::string& spelling) {
        const std::set<std::string> its = wordsOf(spelling);
        return std::includes(words.begin(), words.end(), its.begin(), its.end());
    });
}

} // namespace

Result<std::optional<Finding>> certificateFinding(const Rulebook& book, const std::string& person,
                                                  const std::string& certificate,
                                                  const AppliancePressure& appliance,
                                                  std::optional<Mass> fullCharge) {
    const RuleTable* table = book.table("technician-types");
    if (table == nullptr) {
        return std::optional<Finding>();
    }
    const std::set<std::string> words = wordsOf(certificate);
    bool known = false;
    std::string wanted;
    const RuleRow* asked = nullptr;
    for (const RuleRow& row : table->rows) {
        const auto upTo = massIn(row, "charge_to_lb", "lb");
        if (!upTo) {
            return upTo.error();
        }
        const bool small = upTo.value() && fullCharge && *fullCharge <= *upTo.value();
        const bool suits = row.cell("appliance") == appliance.name || small;
        if (row.cell("appliance") == appliance.name) {
            wanted +=
                fmt::format("{}{}", wanted.empty() ? "" : " or ", namesIn(row, "certificate", " / ").front());
            asked = &row;
        }
        if (named(row, words)) {
            known = true;
            if (suits) {
                return std::optional<Finding>();
            }
        }
    }
    if (asked == nullptr || (!known && !words.empty())) {
        return std::optional<Finding>();
    }
    Finding finding = findingOf(book, *asked, "release.certificate", Severity::caution,
                                words.empty() ? fmt::format("{} has no certificate on file.", person)
                                              : fmt::format("{}'s certificate, {}, is not for {}-pressure "
                                                            "appliances.",
                                                            person, certificate, appliance.name));
    finding.working = appliance.working;
    finding.working.push_back(
        fmt::format("asked for: {}; on file: {}", wanted, words.empty() ? "nothing" : certificate));
    finding.working.emplace_back("an apprentice works under a certified technician's eyes (from memory)");
    finding.remedy = "Send someone who is certified for it, or enter the certificate.";
    return std::optional(std::move(finding));
}

std::vector<const RuleRow*> certificateRows(const Rulebook& book, const std::string& certificate) {
    std::vector<const RuleRow*> rows;
    const std::set<std::string> words = wordsOf(certificate);
    if (const RuleTable* table = book.table("technician-types")) {
        for (const RuleRow& row : table->rows) {
            if (named(row, words)) {
                rows.push_back(&row);
            }
        }
    }
    return rows;
}

void citeCertificate(const Rulebook& book, Finding& finding) {
    const RuleTable* table = book.table("technician-types");
    finding.edition = book.edition();
    if (table == nullptr || table->rows.empty()) {
        finding.citation = "common practice; ask what the law asks for where you work";
        finding.firmness = Firmness::practice;
        return;
    }
    const RuleRow& row = table->rows.front();
    finding.citation = row.section + " asks for a certificate; its date is the shop's record";
    finding.firmness = row.firmness;
    finding.row = row.place;
}

} // namespace tarebook
