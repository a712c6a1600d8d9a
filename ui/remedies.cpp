#include "ui/remedies.h"

#include "core/shop/moments.h"
#include "core/shop/register.h"
#include "ui/batch_steps.h"
#include "ui/cylinder_acts.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QPushButton>

namespace tarebook {
namespace {

QString buttonWord(Remedy remedy) {
    switch (remedy) {
    case Remedy::decant:
        return QObject::tr("Decant…");
    case Remedy::test:
        return QObject::tr("Enter a test…");
    case Remedy::callBack:
        return QObject::tr("Check in…");
    case Remedy::weigh:
        return QObject::tr("Weigh again…");
    case Remedy::renewCertificate:
        return QObject::tr("New date…");
    case Remedy::enterReceipt:
        return QObject::tr("Enter receipt…");
    case Remedy::fileCertificate:
        return QObject::tr("File certificate…");
    case Remedy::decideReceipt:
        return QObject::tr("Differences…");
    case Remedy::recover:
        return QObject::tr("Plan the recovery…");
    case Remedy::seeAdditions:
        return QObject::tr("What was added");
    default:
        return QObject::tr("Open card");
    }
}

void start(Desk& desk, QWidget* parent, Remedy remedy, const QString& title) {
    switch (remedy) {
    case Remedy::recover:
        emit desk.errand(Errand::recover, title);
        break;
    case Remedy::decant:
        emit desk.errand(Errand::decant, title);
        break;
    case Remedy::test:
        enterTest(desk, parent, title);
        break;
    case Remedy::callBack:
    case Remedy::weigh:
        emit desk.errand(Errand::checkIn, title);
        break;
    case Remedy::renewCertificate:
        renewCertificate(desk, parent, title);
        break;
    case Remedy::fileCertificate:
        certificateStep(desk, parent, title);
        break;
    case Remedy::decideReceipt:
        differencesStep(desk, parent, title);
        break;
    case Remedy::enterReceipt:
        emit desk.errand(Errand::batch, title);
        break;
    case Remedy::seeAdditions:
        emit desk.errand(Errand::additions, title);
        break;
    default:
        emit desk.showCylinder(title);
        break;
    }
}

} // namespace

QPushButton* remedyButton(Desk& desk, QWidget* parent, const Finding& finding, Remedy remedy,
                          const QString& title) {
    auto* button = new QPushButton(buttonWord(remedy), parent);
    button->setObjectName(QStringLiteral("act:") + qt(finding.subject));
    button->setAccessibleName(QObject::tr("%1 for %2").arg(button->text(), title));
    // The button goes when its place is read again, which an errand brings about: the window asks.
    QWidget* window = parent->window();
    QObject::connect(
        button, &QPushButton::clicked, &desk,
        [&desk, window, remedy, title] { start(desk, window, remedy, title); }, Qt::AutoConnection);
    return button;
}

void renewCertificate(Desk& desk, QWidget* parent, const QString& person) {
    FactsAsked asked;
    asked.title = QObject::tr("Certificate of %1").arg(person);
    asked.facts = {
        {QStringLiteral("until"), QObject::tr("&Last day of the new certificate"), QObject::tr("2029-03-31")},
        {QStringLiteral("certificate"), QObject::tr("&Certificate"),
         QObject::tr("blank when it is the old one")}};
    asked.yes = QObject::tr("Enter it");
    asked.problem = [&desk](const Facts& facts) {
        const auto day =
            readDate(utf8(facts.at(QStringLiteral("until"))), dateOrderOf(desk.shop().settings()));
        return day ? QString() : qt(day.error().text());
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const auto day = readDate(utf8(facts->at(QStringLiteral("until"))), dateOrderOf(desk.shop().settings()));
    if (!day) {
        questions::tell(parent, QObject::tr("Not entered"), qt(day.error().text()));
        return;
    }
    for (Person one : people(desk.shop())) {
        if (one.name != utf8(person)) {
            continue;
        }
        one.certificateExpires = day.value();
        const QString certificate = facts->at(QStringLiteral("certificate"));
        one.certificate = certificate.isEmpty() ? one.certificate : utf8(certificate);
        const Recorded recorded = desk.shop().record({draftOf(desk.shop(), one)});
        desk.notifyRecorded(recorded);
        desk.say(recorded.ok()
                     ? QObject::tr("Certificate of %1 runs until %2").arg(person, qt(day.value().text()))
                     : kit::told(recorded, QObject::tr("Not entered")));
    }
}

} // namespace tarebook
