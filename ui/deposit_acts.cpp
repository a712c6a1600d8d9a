#include "ui/deposit_acts.h"

#include "core/shop/card.h"
#include "core/shop/deposits.h"
#include "core/shop/moments.h"
#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/outcome.h"
#include "ui/questions.h"

namespace tarebook {
namespace {

Result<Date> dayTyped(Desk& desk, const QString& text) {
    return text.isEmpty() ? Result<Date>(desk.shop().today())
                          : readDate(utf8(text), dateOrderOf(desk.shop().settings()));
}

Result<Hundredths> amountTyped(const QString& text) {
    return text.isEmpty() ? Result<Hundredths>(0) : parseMoney(utf8(text));
}

/// The facts as they stand in the fields. Error: one of them cannot be read, or they do not go together.
Result<CylinderLoan> loanTyped(Desk& desk, const QString& serial, const Facts& facts) {
    const auto text = [&](const char* name) { return facts.at(QLatin1String(name)); };
    const auto since = dayTyped(desk, text("since"));
    const auto deposit = amountTyped(text("amount"));
    const auto rental = amountTyped(text("rental"));
    if (!since || !deposit || !rental) {
        return !since ? since.error() : !deposit ? deposit.error() : rental.error();
    }
    CylinderLoan loan{utf8(serial), text("whose") == QStringLiteral("ours"), since.value()};
    loan.deposit = deposit.value();
    loan.rental = rental.value();
    loan.currency = utf8(text("currency").toUpper());
    bool whole = true;
    loan.freeDays = text("free").isEmpty() ? 0 : text("free").toInt(&whole);
    if (!whole) {
        return Error{"the free days are no whole number", "as 30"};
    }
    if (!text("until").isEmpty()) {
        const auto until = dayTyped(desk, text("until"));
        if (!until) {
            return until.error();
        }
        loan.until = until.value();
    }
    if (const auto sound = loan.sound(); !sound) {
        return sound.error();
    }
    return loan;
}

/// Suppliers and reclaimers on file, to choose from.
std::vector<std::pair<QString, QString>> partiesToChoose(Shop& shop) {
    std::vector<std::pair<QString, QString>> choices;
    for (const char* kind : {"supplier", "reclaimer", "destroyer"}) {
        for (const Party& party : parties(shop, kind)) {
            choices.emplace_back(QStringLiteral("%1 (%2)").arg(qt(party.name), QLatin1String(kind)),
                                 qt(party.name));
        }
    }
    return choices;
}

/// What is on file of one that is out, to begin with.
void beginWith(const Deposit& deposit, std::vector<Fact>& facts) {
    const CylinderLoan& loan = deposit.loan;
    const std::map<QString, QString> values = {
        {QStringLiteral("party"), qt(deposit.party)},
        {QStringLiteral("whose"), loan.away ? QStringLiteral("ours") : QStringLiteral("theirs")},
        {QStringLiteral("since"), qt(loan.since.text())},
        {QStringLiteral("amount"), qt(moneyText(loan.deposit))},
        {QStringLiteral("rental"), qt(moneyText(loan.rental))},
        {QStringLiteral("free"), QString::number(loan.freeDays)},
        {QStringLiteral("currency"), qt(loan.currency)}};
    for (Fact& fact : facts) {
        if (const auto value = values.find(fact.name); value != values.end()) {
            fact.value = value->second;
        }
    }
}

} // namespace

void askDeposit(Desk& desk, QWidget* parent, const QString& serial) {
    const auto choices = partiesToChoose(desk.shop());
    if (choices.empty()) {
        questions::tell(parent, QObject::tr("Nobody on file"),
                        QObject::tr("Enter the supplier or the reclaimer first, among the names."));
        return;
    }
    const auto text = [](const char* name) { return QString(QLatin1String(name)); };
    FactsAsked asked;
    asked.title = QObject::tr("Deposit and rental of %1").arg(serial);
    asked.explanation =
        QObject::tr("Rental is reckoned for the days since it came, less the free ones. Where "
                    "the books show that it went back, it ends by itself.");
    asked.facts = {
        {text("party"), QObject::tr("&With whom"), {}, Fact::Kind::choice, choices, choices.front().second},
        {text("whose"),
         QObject::tr("Wh&ose it is"),
         {},
         Fact::Kind::choice,
         {{QObject::tr("theirs, here"), text("theirs")}, {QObject::tr("ours, with them"), text("ours")}},
         text("theirs")},
        {text("since"), QObject::tr("&Since"), QObject::tr("today; or 2026-09-14")},
        {text("amount"), QObject::tr("&Deposit"), QObject::tr("150.00; blank: none")},
        {text("rental"), QObject::tr("&Rental a day"), QObject::tr("0.50; blank: none")},
        {text("free"), QObject::tr("&Free days"), QObject::tr("30; blank: none")},
        {text("currency"), QObject::tr("&Currency"), QObject::tr("USD")},
        {text("until"), QObject::tr("Went &back on"), QObject::tr("blank while it is out")}};
    const auto known = tarebook::depositOf(desk.shop(), utf8(serial), desk.shop().today());
    if (known && known.value() && known.value()->out(desk.shop().today())) {
        beginWith(*known.value(), asked.facts);
    }
    asked.yes = QObject::tr("Enter it");
    asked.problem = [&desk, serial](const Facts& facts) {
        const auto loan = loanTyped(desk, serial, facts);
        return loan ? QString() : qt(loan.error().text());
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const auto loan = loanTyped(desk, serial, *facts);
    if (!loan) {
        questions::tell(parent, QObject::tr("Not entered"), qt(loan.error().text()));
        return;
    }
    tellOutcome(desk, parent, enterDeposit(desk.shop(), utf8(facts->at(text("party"))), loan.value()));
}

} // namespace tarebook
