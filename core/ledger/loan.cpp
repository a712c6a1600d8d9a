#include "core/ledger/loan.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_reader.h"

namespace tarebook {

namespace {

constexpr Hundredths kMostOfALoan = 1'000'000; // 10,000.00
constexpr int kMostFreeDays = 36'500;
constexpr std::size_t kCurrencyLetters = 3;

bool isCurrency(const std::string& text) {
    return text.size() == kCurrencyLetters &&
           std::all_of(text.begin(), text.end(), [](char letter) { return letter >= 'A' && letter <= 'Z'; });
}

/// Zero where it is missing.
std::int64_t wholeAt(BodyReader& reader, const nlohmann::json& object, const char* key) {
    if (!reader.has(key)) {
        return 0;
    }
    if (!object[key].is_number_integer()) {
        reader.refuse(key, "is no whole number");
        return 0;
    }
    return object[key].get<std::int64_t>();
}

} // namespace

int CylinderLoan::days(Date on) const {
    const Date last = until ? std::min(on, *until) : on;
    return std::max(0, last.dayNumber() - since.dayNumber());
}

int CylinderLoan::daysCharged(Date on) const {
    return std::max(0, days(on) - freeDays);
}

Hundredths CylinderLoan::cost(Date on) const {
    return rental * daysCharged(on);
}

std::optional<Date> CylinderLoan::freeUntil() const {
    return rental > 0 ? std::optional(since.plusDays(freeDays)) : std::nullopt;
}

std::string CylinderLoan::text() const {
    std::string text = fmt::format("deposit {}", moneyText(deposit));
    if (!currency.empty()) {
        text += " " + currency;
    }
    if (rental > 0) {
        text += fmt::format(", rental {} {} a day", moneyText(rental), currency);
        if (freeDays > 0) {
            text += fmt::format(" after {} days", freeDays);
        }
    }
    return text;
}

Result<bool> CylinderLoan::sound() const {
    if (deposit < 0 || rental < 0 || deposit > kMostOfALoan || rental > kMostOfALoan) {
        return Error{fmt::format("{}: the deposit or the rental is below zero or above {}", serial,
                                 moneyText(kMostOfALoan)),
                     "amounts from zero up, as 150.00"};
    }
    if (!currency.empty() ? !isCurrency(currency) : deposit > 0 || rental > 0) {
        return Error{fmt::format("{}: {} is no currency", serial, tarebook::quoted(currency)),
                     "three capital letters as in ISO 4217, as USD"};
    }
    if (freeDays < 0 || freeDays > kMostFreeDays) {
        return Error{fmt::format("{}: {} free days", serial, freeDays),
                     fmt::format("a number from 0 to {}", kMostFreeDays)};
    }
    if (until && *until < since) {
        return Error{fmt::format("{}: it went back on {}, before {}", serial, until->text(), since.text()),
                     "look at the days again"};
    }
    return true;
}

nlohmann::json CylinderLoan::body() const {
    return {{"whose", away ? "ours" : "theirs"},
            {"since", since.text()},
            {"until", until ? nlohmann::json(until->text()) : nlohmann::json()},
            {"currency", currency},
            {"deposit_hundredths", deposit},
            {"rental_hundredths", rental},
            {"free_days", freeDays}};
}

Result<CylinderLoan> CylinderLoan::from(const std::string& serial, const nlohmann::json& written) {
    BodyReader reader(written);
    CylinderLoan loan;
    loan.serial = serial;
    const std::string whose = reader.text("whose");
    if (whose != "ours" && whose != "theirs") {
        reader.refuse("whose", "is neither ours nor theirs");
    }
    loan.away = whose == "ours";
    const auto since = Date::parse(reader.text("since"));
    if (since) {
        loan.since = since.value();
    } else {
        reader.refuse("since", "is no day, as 2026-09-14");
    }
    if (reader.has("until") && !written["until"].is_null()) {
        const auto until = Date::parse(reader.text("until"));
        if (until) {
            loan.until = until.value();
        } else {
            reader.refuse("until", "is no day, as 2026-09-14");
        }
    }
    loan.currency = reader.optionalText("currency");
    loan.deposit = wholeAt(reader, written, "deposit_hundredths");
    loan.rental = wholeAt(reader, written, "rental_hundredths");
    const std::int64_t free = wholeAt(reader, written, "free_days");
    if (free < 0 || free > kMostFreeDays) {
        reader.refuse("free_days", fmt::format("is not from 0 to {}", kMostFreeDays));
    } else {
        loan.freeDays = static_cast<int>(free);
    }
    if (!reader.ok()) {
        return reader.error();
    }
    if (const auto sound = loan.sound(); !sound) {
        return sound.error();
    }
    return loan;
}

} // namespace tarebook
