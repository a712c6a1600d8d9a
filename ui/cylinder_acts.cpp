#include "ui/cylinder_acts.h"

#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QAction>
#include <QMenu>

#include <functional>

namespace tarebook {
namespace {

using Act = std::function<Recorded(Shop&, const std::string& serial, const std::string& text)>;

/// What an act asks, and what it does with the answer.
struct Wording {
    const char* name;
    QString title;
    QString question;
    QString button;
    Act act;
};

Recorded refused(const Error& error) {
    Recorded recorded;
    recorded.error = error;
    return recorded;
}

Recorded weighAct(Shop& shop, const std::string& serial, const std::string& text) {
    const auto gross = shop.display().readMass(text);
    return gross ? weigh(shop, serial, gross.value()) : refused(gross.error());
}

Recorded testAct(Shop& shop, const std::string& serial, const std::string& text) {
    const auto month = MonthYear::parse(text);
    return month ? recordTest(shop, {serial, month.value(), {}, {}, {}, {}, true, {}})
                 : refused(month.error());
}

Recorded tareAct(Shop& shop, const std::string& serial, const std::string& text) {
    const auto tare = shop.display().readMass(text);
    return tare ? restateTare(shop, serial, tare.value(), "read on the collar again") : refused(tare.error());
}

std::vector<Wording> wordings() {
    const auto tr = [](const char* text) { return QObject::tr(text); };
    return {{"weigh", tr("Weigh…"), tr("Gross weight on the scale"), tr("Enter the weight"), weighAct},
            {"test", tr("Enter a test…"), tr("Month and year of the new mark, as 2026-11"),
             tr("Enter the test"), testAct},
            {"damaged", tr("Found damaged…"), tr("What was seen; it is held back until it is tested"),
             tr("Hold it back"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "damaged", text);
             }},
            {"sound", tr("Found sound…"), tr("What was looked at"), tr("Enter"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "sound", text);
             }},
            {"lost", tr("Lost…"), tr("Where it was last seen"), tr("Enter it as lost"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "lost", text);
             }},
            {"found", tr("Found again…"), tr("Where it was"), tr("Enter it as found"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "found", text);
             }},
            {"evacuate", tr("Evacuated…"),
             tr("To what vacuum, by which pump; what the books still hold goes to variance"),
             tr("A clean empty"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return evacuate(shop, serial, text);
             }},
            {"tare", tr("Restate the tare…"), tr("Tare as the collar says"), tr("Restate"), tareAct},
            {"condemn", tr("Condemn…"), tr("Why; it is never filled again"), tr("Condemn"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return condemn(shop, serial, text);
             }},
            {"retire", tr("Retire…"), tr("Why an empty cylinder leaves the fleet"), tr("Retire"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return retire(shop, serial, text);
             }}};
}

void tellOutcome(Desk& desk, QWidget* parent, const Recorded& recorded) {
    desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(parent, QObject::tr("Not entered"), kit::told(recorded, QObject::tr("Not entered")));
        return;
    }
    const auto entry = desk.shop().store().entry(recorded.entries.front());
    desk.say(entry ? qt(sentenceOf(desk.shop(), entry.value())) : QString());
}

} // namespace

void addCylinderActs(QMenu& menu, Desk& desk, QWidget* parent, const QString& serial) {
    for (const Wording& wording : wordings()) {
        QAction* action = menu.addAction(wording.title);
        action->setObjectName(QStringLiteral("act:") + QLatin1String(wording.name));
        QObject::connect(action, &QAction::triggered, parent, [&desk, parent, serial, wording] {
            const auto text = questions::askText(parent, QStringLiteral("%1 – %2").arg(serial, wording.title),
                                                 wording.question, wording.button);
            if (text) {
                tellOutcome(desk, parent, wording.act(desk.shop(), utf8(serial), utf8(*text)));
            }
        });
    }
}

void overruleFinding(Desk& desk, QWidget* parent, const QString& serial, const QString& rule) {
    const auto reason = questions::askText(
        parent, QObject::tr("Go on in spite of it"),
        QObject::tr("Why this finding of %1 is settled; the reason stays in the books").arg(serial),
        QObject::tr("Close the finding"));
    if (reason) {
        tellOutcome(desk, parent,
                    overrule(desk.shop(), utf8(rule), "cylinder:" + utf8(serial), utf8(*reason)));
    }
}

void reverseEntry(Desk& desk, QWidget* parent, qint64 entry, const QString& sentence) {
    const auto reason = questions::askText(
        parent, QObject::tr("Reverse entry %1").arg(entry),
        QObject::tr("%1\n\nA new entry takes it back; both stay in the books. Why?").arg(sentence),
        QObject::tr("Reverse it"));
    if (reason) {
        tellOutcome(desk, parent, desk.shop().reverse(entry, utf8(*reason)));
    }
}

} // namespace tarebook
