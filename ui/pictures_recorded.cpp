// Pictures of what is asked of a cylinder, an entry or a batch. Much of it can only be seen once something
// was recorded: that is done in a copy of the shop.
#include "ui/pictures_parts.h"

#include "core/shop/attachments.h"
#include "core/shop/books.h"
#include "core/shop/compose.h"
#include "core/shop/deposits.h"
#include "core/shop/receipts.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"
#include "core/shop/terms.h"
#include "core/shop/today.h"
#include "ui/attachments_dialog.h"
#include "ui/batch_steps.h"
#include "ui/cylinder_acts.h"
#include "ui/deposits_dialog.h"
#include "ui/differences_dialog.h"
#include "ui/kit.h"
#include "ui/label_dialog.h"
#include "ui/main_window.h"
#include "ui/page.h"
#include "ui/parents_dialog.h"
#include "ui/photographer.h"
#include "ui/questions.h"
#include "ui/rule_says_dialog.h"
#include "ui/shipping_dialog.h"
#include "ui/terms_dialog.h"
#include "ui/working_dialog.h"

#include <QAction>
#include <QBuffer>
#include <QComboBox>
#include <QLineEdit>
#include <QMenu>
#include <QTemporaryDir>

namespace tarebook {
namespace {

constexpr std::size_t kInTheBatch = 4;

/// Everything that the menu of a cylinder's card asks.
void photographActs(MainWindow& window, const QString& serial, Photographer& camera) {
    QMenu menu;
    addCylinderActs(menu, window.desk(), &window, serial);
    for (QAction* action : menu.actions()) {
        if (action->isVisible() && !action->isSeparator()) {
            camera.takeAsked([action] { action->trigger(); },
                             action->objectName().replace(QLatin1Char(':'), QLatin1Char('-')));
        }
    }
}

void photographDeposits(MainWindow& window, const QString& serial, Photographer& camera) {
    constexpr Hundredths kDeposit = 12'000;
    constexpr Hundredths kRental = 45;
    constexpr int kFreeDays = 30;
    constexpr int kDaysAgo = 50;
    Shop& shop = window.desk().shop();
    const auto suppliers = parties(shop, "supplier");
    if (suppliers.empty()) {
        return;
    }
    CylinderLoan loan{utf8(serial), false, shop.today().plusDays(-kDaysAgo)};
    loan.currency = "USD";
    loan.deposit = kDeposit;
    loan.rental = kRental;
    loan.freeDays = kFreeDays;
    (void)enterDeposit(shop, suppliers.front().name, loan);
    DepositsDialog dialog(window.desk(), &window);
    camera.takeDialog(dialog, QStringLiteral("deposits"));
}

/// A picture that belongs to the newest entry, reversing that entry, and a question with two answers.
void photographEntries(MainWindow& window, Photographer& camera) {
    Shop& shop = window.desk().shop();
    const Sequence entry = shop.store().headSeq();
    QByteArray bytes;
    QBuffer buffer(&bytes);
    if (buffer.open(QIODevice::WriteOnly) && window.grab().save(&buffer, "PNG")) {
        (void)attach(shop, entry, "ticket.png", bytes.toStdString(), "the ticket of the scale");
    }
    AttachmentsDialog attached(window.desk(), entry, &window);
    camera.takeDialog(attached, QStringLiteral("attachments"));
    camera.takeAsked(
        [&] { reverseEntry(window.desk(), &window, entry, QObject::tr("Weighed %1").arg(entry)); },
        QStringLiteral("reverse"));
    camera.takeAsked(
        [&] {
            (void)questions::ask(&window, QObject::tr("Wrong unit?"),
                                 QObject::tr("That is ten times what the cylinder holds. Enter it so?"),
                                 QObject::tr("Enter it"));
        },
        QStringLiteral("question-asked"));
    const auto list = today(shop, shop.today());
    std::vector<Finding> findings;
    for (const Alert& alert : list ? list.value().alerts : std::vector<Alert>()) {
        findings.push_back(alert.finding);
    }
    RuleSaysDialog says(window.desk(), QObject::tr("What needs doing today"), findings, &window);
    camera.takeDialog(says, QStringLiteral("rule-says"));
}

/// A cylinder that is out goes on to another technician; the slip of what they have.
void photographHandOver(MainWindow& window, Photographer& camera) {
    Shop& shop = window.desk().shop();
    const auto rows = shop.store().fleet({});
    for (const FleetRow& row : rows ? rows.value() : std::vector<FleetRow>()) {
        if (row.holder.empty()) {
            continue;
        }
        emit window.desk().errand(Errand::checkOut, qt(row.serial));
        Page* jobs = window.page(QStringLiteral("jobs"));
        auto* purpose = jobs->findChild<QComboBox*>(QStringLiteral("outPurpose"));
        purpose->setCurrentIndex(purpose->count() - 1);
        camera.take(window, QStringLiteral("hand-over"));
        camera.takeAsked([&] { showSlip(window.desk(), &window, row.holder); }, QStringLiteral("slip"));
        return;
    }
}

/// The reclaimer's terms, all of them known.
void photographTerms(MainWindow& window, const std::string& reclaimer, Photographer& camera) {
    Shop& shop = window.desk().shop();
    AcceptanceTerms terms;
    for (const auto& [term, text] :
         {std::pair("currency", "USD"), std::pair("minimum", "10 lb"), std::pair("fee", "25.00"),
          std::pair("fee-each", "1.50"), std::pair("accept", "clean=taken"),
          std::pair("accept", "mixed=apart"), std::pair("price", "clean=4.50/kg"),
          std::pair("price", "mixed=-2.00/kg"), std::pair("exchange", "given"),
          std::pair("exchange-fee", "12.00"), std::pair("exchange-owners", "own, reclaimer"),
          std::pair("exchange-sizes", "any"), std::pair("exchange-retest", "in date")}) {
        (void)readTerm(shop, term, text, terms);
    }
    (void)setTerms(shop, reclaimer, terms);
    TermsDialog dialog(window.desk(), qt(reclaimer), &window);
    camera.takeDialog(dialog, QStringLiteral("terms"));
}

/// What came back is a little less than what went, of the first of them.
void photographReceipt(MainWindow& window, const std::string& name, Photographer& camera) {
    constexpr std::int64_t kLess = 700'000; // milligrams
    Shop& shop = window.desk().shop();
    camera.takeAsked([&] { receiveStep(window.desk(), &window, qt(name)); }, QStringLiteral("receipt"));
    auto shipped = batch(shop, name);
    if (!shipped) {
        return;
    }
    std::vector<ReceiptLine> lines;
    for (const BatchLine& its : shipped.value().lines) {
        if (!its.empty()) {
            const std::int64_t less = lines.empty() ? kLess : 0;
            lines.push_back(
                {its.serial, Mass::fromMilligrams(its.gross.milligrams() - less), its.tare, "99.6 % pure"});
        }
    }
    (void)receiveBatch(shop, name, {"R-4471"}, lines);
    auto received = batch(shop, name);
    if (!received || received.value().lines.empty()) {
        return;
    }
    DifferencesDialog differences(window.desk(), qt(name), &window);
    camera.takeDialog(differences, QStringLiteral("differences"));
    ParentsDialog parents(window.desk(), received.value(), qt(received.value().lines.front().serial),
                          &window);
    camera.takeDialog(parents, QStringLiteral("parents"));
    camera.takeAsked([&] { certificateStep(window.desk(), &window, qt(name)); },
                     QStringLiteral("certificate"));
    camera.takeAsked([&] { settleStep(window.desk(), &window, qt(name)); }, QStringLiteral("settle"));
}

void photographBatch(MainWindow& window, Photographer& camera) {
    Shop& shop = window.desk().shop();
    const auto reclaimers = parties(shop, "reclaimer");
    if (reclaimers.empty()) {
        return;
    }
    const std::string reclaimer = reclaimers.front().name;
    photographTerms(window, reclaimer, camera);
    const auto proposed = composeBatch(shop, {reclaimer});
    if (!proposed || proposed.value().asTheyStand.serials.empty()) {
        return;
    }
    WorkingDialog working(proposed.value(), shop.display(), &window);
    camera.takeDialog(working, QStringLiteral("working"));
    std::vector<std::string> serials = proposed.value().asTheyStand.serials;
    serials.resize(std::min(serials.size(), kInTheBatch));
    const PreparedBatch made = prepareNextBatch(shop, reclaimer, serials);
    if (!made.recorded.ok()) {
        return;
    }
    window.desk().notifyRecorded(made.recorded);
    window.openPlace(QStringLiteral("returns"));
    camera.take(window, QStringLiteral("batch-prepared"));
    Settings settings = shop.settings(); // a shipping paper names whom to call
    settings.emergencyTelephone = "555-0142";
    (void)shop.change(settings);
    camera.takeAsked([&] { shipStep(window.desk(), &window, qt(made.name)); }, QStringLiteral("it-left"));
    ShippingDialog shipping(window.desk(), qt(made.name), &window);
    camera.takeDialog(shipping, QStringLiteral("shipping"));
    (void)shipBatch(shop, made.name, "own van");
    photographReceipt(window, made.name, camera);
}

} // namespace

void photographWhatIsRecorded(Shop& shop, Photographer& camera) {
    const QTemporaryDir folder;
    const std::string path = utf8(folder.filePath(QStringLiteral("recorded.tarebook")));
    if (!shop.store().backup(path)) {
        return;
    }
    const auto copy = Shop::open(path, shop.environment()).shop;
    if (!copy) {
        return;
    }
    MainWindow window(*copy);
    window.show();
    const QString serial = worstSerial(*copy);
    photographActs(window, serial, camera);
    camera.takeAsked(
        [&] { overruleFinding(window.desk(), &window, serial, QStringLiteral("retest.overdue")); },
        QStringLiteral("overrule"));
    photographDeposits(window, serial, camera);
    photographEntries(window, camera);
    photographHandOver(window, camera);
    photographBatch(window, camera);
}

} // namespace tarebook
