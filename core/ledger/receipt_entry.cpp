#include <string>

#include <fmt/format.h>

#include "core/ledger/body_reader.h"
#include "core/ledger/receipt.h"

namespace tarebook {

namespace {

/// Masses that are there, whole and sound, texts that are texts; what ReceiptLine::from() passes over since
/// old books are read with it.
Result<bool> receiptLineFits(const nlohmann::json& written) {
    BodyReader reader(written);
    (void)reader.text("serial");
    const Mass gross = reader.massFromZero("gross_mg");
    const Mass tare = reader.massFromZero("tare_mg");
    const Mass net = reader.mass("net_mg");
    for (const char* key : {"analysis", "result", "certificate", "verdict", "why", "exchange"}) {
        (void)reader.optionalText(key);
    }
    if (reader.ok() && net.milligrams() != gross.milligrams() - tare.milligrams()) {
        reader.refuse("net_mg", "is not gross_mg less tare_mg");
    }
    if (!reader.ok()) {
        return reader.error();
    }
    const auto line = ReceiptLine::from(written);
    if (!line) {
        return line.error();
    }
    for (std::size_t place = 0; place < line.value().deductions.size(); ++place) {
        BodyReader deduction(written["deductions"][place]);
        (void)deduction.massAboveZero("mass_mg");
        if (!deduction.ok()) {
            return Error{"a deduction's " + deduction.error().wrong, deduction.error().right};
        }
    }
    if (line.value().verdict == ReceiptVerdict::disputed && line.value().why.empty()) {
        return Error{"it is disputed without a reason", "say in why what the reclaimer is asked"};
    }
    return line.value().sound();
}

} // namespace

Result<bool> receiptFits(const nlohmann::json& body) {
    BodyReader reader(body);
    (void)reader.optionalText("reference");
    (void)reader.optionalText("certificate");
    if (!reader.has("lines") || !body["lines"].is_array()) {
        reader.refuse("lines", "is missing or no list");
    }
    if (!reader.ok()) {
        return reader.error();
    }
    for (const auto& line : body["lines"]) {
        const auto fits = receiptLineFits(line);
        if (!fits) {
            const std::string serial = BodyReader(line).optionalText("serial");
            return Error{fmt::format("the receipt's line{}{}: {}", serial.empty() ? "" : " of ", serial,
                                     fits.error().wrong),
                         fits.error().right};
        }
    }
    return true;
}

bool bringsOnlyCertificate(const nlohmann::json& body) {
    const auto lines = body.find("lines");
    const auto number = body.find("certificate");
    return lines != body.end() && lines->is_array() && lines->empty() && number != body.end() &&
           number->is_string() && !number->get_ref<const std::string&>().empty();
}

} // namespace tarebook
