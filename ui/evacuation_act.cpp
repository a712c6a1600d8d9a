#include "ui/evacuation_act.h"

#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/outcome.h"

namespace tarebook {

void enterEvacuation(Desk& desk, QWidget* parent, const QString& serial) {
    FactsAsked asked;
    asked.title = QObject::tr("Evacuation of %1").arg(serial);
    asked.explanation =
        QObject::tr("What the books still hold goes to variance. An empty that held a flammable gas travels "
                    "like a full one until it was purged as well.\n\n%1")
            .arg(QObject::tr(kPurgeCautions));
    // What the books still have, and the question where it went.
    const Review reviewed = reviewEvacuation(desk.shop(), utf8(serial));
    if (!reviewed.findings.empty()) {
        asked.explanation = QStringLiteral("%1 %2\n\n%3")
                                .arg(qt(reviewed.findings.front().headline),
                                     qt(reviewed.findings.front().remedy), asked.explanation);
    }
    asked.facts = {{QStringLiteral("note"), QObject::tr("To what &vacuum, by which pump"),
                    QObject::tr("500 microns, pump 2 …")},
                   {QStringLiteral("purgedWith"),
                    QObject::tr("&Purged with"),
                    {},
                    Fact::Kind::choice,
                    {{QObject::tr("nothing: evacuated only"), QString()},
                     {QObject::tr("nitrogen"), QStringLiteral("nitrogen")},
                     {QObject::tr("argon"), QStringLiteral("argon")},
                     {QObject::tr("helium"), QStringLiteral("helium")}},
                    QString()}};
    asked.yes = QObject::tr("A clean empty");
    if (const auto facts = questions::askFacts(parent, asked)) {
        tellOutcome(desk, parent,
                    evacuate(desk.shop(), utf8(serial), utf8(facts->at(QStringLiteral("note"))),
                             utf8(facts->at(QStringLiteral("purgedWith")))));
    }
}

} // namespace tarebook
