#include "ui/cylinder_acts.h"

#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/moments.h"
#include "core/shop/operators.h"
#include "core/shop/register.h"
#include "core/shop/usual_tare.h"
#include "ui/deposit_acts.h"
#include "ui/desk.h"
#include "ui/evacuation_act.h"
#include "ui/exchange_dialog.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/outcome.h"
#include "ui/questions.h"
#include "ui/tare_question.h"

#include <QAction>
#include <QMenu>

#include <functional>
#include <tuple>

namespace tarebook {
namespace {

const QString kMended = QStringLiteral("sound, leak at a fitting");

using Act = std::function<Recorded(Shop&, const std::string& serial, const std::string& text)>;

/// What an act asks, and what it does with the answer.
struct Wording {
    const char* name;
    QString title;
    QString question;
    QString button;
    Act act;
    EntryKind kind; // that it writes
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

std::vector<Wording> wordings() {
    const auto tr = [](const char* text) { return QObject::tr(text); };
    return {{"weigh", tr("Weigh…"), tr("Gross weight on the scale"), tr("Enter the weight"), weighAct,
             EntryKind::weighed},
            {"lost", tr("Lost…"), tr("Where it was last seen"), tr("Enter it as lost"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "lost", text);
             },
             EntryKind::inspected},
            {"found", tr("Found again…"), tr("Where it was"), tr("Enter it as found"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return inspect(shop, serial, "found", text);
             },
             EntryKind::inspected},
            {"condemn", tr("Condemn…"), tr("Why; it is never filled again"), tr("Condemn"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return condemn(shop, serial, text);
             },
             EntryKind::condemned},
            {"retire", tr("Retire…"), tr("Why an empty cylinder leaves the fleet"), tr("Retire"),
             [](Shop& shop, const std::string& serial, const std::string& text) {
                 return retire(shop, serial, text);
             },
             EntryKind::retired}};
}

/// What an inspection may find, as a practitioner says it.
std::vector<std::pair<QString, QString>> inspectionChoices(bool leaked) {
    const auto tr = [](const char* text) { return QObject::tr(text); };
    std::vector<std::pair<QString, QString>> choices;
    if (leaked) {
        choices.emplace_back(tr("sound: the leak was at a fitting and is tight now"), kMended);
    } else {
        choices.emplace_back(tr("sound"), QStringLiteral("sound"));
    }
    for (const auto& [harm, text] :
         {std::pair{Harm::damage, tr("damaged: dents, corrosion, cracks, bulges, an accident")},
          std::pair{Harm::leak, tr("leaking through the wall or a fitting")},
          std::pair{Harm::heat, tr("fire, an arc burn or overheating")},
          std::pair{Harm::overPressure, tr("over-pressurised, as after overfilling and heat")},
          std::pair{Harm::wallMetal, tr("wall metal ground or sanded away")},
          std::pair{Harm::corrosive, tr("a corrosive liquid was in it")},
          std::pair{Harm::ordered, tr("an authority asks for a test")},
          std::pair{Harm::rejected, tr("rejected at its test, may be mended")}}) {
        choices.emplace_back(text, qt(std::string(harmWord(harm))));
    }
    return choices;
}

void askAndEnter(Desk& desk, QWidget* parent, const QString& serial, const Wording& wording) {
    const auto text = questions::askText(parent, QStringLiteral("%1 – %2").arg(serial, wording.title),
                                         wording.question, wording.button);
    if (text) {
        tellOutcome(desk, parent, wording.act(desk.shop(), utf8(serial), utf8(*text)));
    }
}

} // namespace

void enterTest(Desk& desk, QWidget* parent, const QString& serial) {
    FactsAsked asked;
    asked.title = QObject::tr("Test of %1").arg(serial);
    asked.explanation =
        QObject::tr("As it stands on the collar and on the tester's report. One that failed is condemned and "
                    "never filled again.");
    asked.facts = {
        {QStringLiteral("month"), QObject::tr("&Month of the mark"), QObject::tr("2026-11, 11/26")},
        {QStringLiteral("method"), QObject::tr("&Kind of test"), QObject::tr("volumetric, proof, visual …")},
        {QStringLiteral("requalifier"), QObject::tr("&Requalifier's number"),
         QObject::tr("beside the date on the collar")},
        {QStringLiteral("suffix"), QObject::tr("Mark be&hind the date"),
         QObject::tr("E, S, star … or blank")},
        {QStringLiteral("tare"), QObject::tr("New &tare"), QObject::tr("blank when it is the old one")},
        {QStringLiteral("result"),
         QObject::tr("R&esult"),
         {},
         Fact::Kind::choice,
         {{QObject::tr("passed"), QStringLiteral("passed")},
          {QObject::tr("failed: condemn it"), QStringLiteral("failed")}},
         QStringLiteral("passed")},
        {QStringLiteral("note"), QObject::tr("&Note"), {}}};
    asked.yes = QObject::tr("Enter the test");
    const auto read = [&desk, serial](const Facts& facts) -> Result<TestResult> {
        const auto text = [&](const char* name) { return utf8(facts.at(QLatin1String(name))); };
        const auto month = readMonth(text("month"), dateOrderOf(desk.shop().settings()));
        if (!month) {
            return month.error();
        }
        TestResult result{utf8(serial),
                          month.value(),
                          text("method"),
                          text("requalifier"),
                          text("suffix"),
                          {},
                          text("result") != "failed",
                          text("note")};
        if (!text("tare").empty()) {
            const auto tare = desk.shop().display().readMass(text("tare"));
            if (!tare) {
                return tare.error();
            }
            result.tare = tare.value();
        }
        return result;
    };
    asked.problem = [read](const Facts& facts) {
        if (facts.at(QStringLiteral("month")).isEmpty()) {
            return QObject::tr("Read the month and year off the new mark.");
        }
        const auto result = read(facts);
        return result ? QString() : qt(result.error().text());
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const auto result = read(*facts);
    if (result) {
        const auto& tare = result.value().tare;
        if (tare && !tareConfirmed(parent, tareQuestion(desk.shop(), utf8(serial), *tare))) {
            return;
        }
        tellOutcome(desk, parent, recordTest(desk.shop(), result.value()));
    } else {
        questions::tell(parent, QObject::tr("Not entered"), qt(result.error().text()));
    }
}

void enterInspection(Desk& desk, QWidget* parent, const QString& serial) {
    FactsAsked asked;
    asked.title = QObject::tr("Inspection of %1").arg(serial);
    asked.explanation = QObject::tr("A cylinder that is not sound is held back until a tester has passed it; "
                                    "one that was over-pressurised "
                                    "is never filled again. Keep people away from one that leaks, bulges or "
                                    "was in a fire, and let someone "
                                    "qualified empty it.");
    const auto known = desk.shop().store().cylinder(utf8(serial));
    const bool leaked = known && known.value() && known.value()->harms.has(Harm::leak);
    if (leaked) {
        asked.explanation +=
            QObject::tr(" A leak through the wall is never taken back: the tester condemns it.");
    }
    asked.facts = {{QStringLiteral("result"),
                    QObject::tr("What was &found"),
                    {},
                    Fact::Kind::choice,
                    inspectionChoices(leaked),
                    leaked ? QStringLiteral("leaking") : QStringLiteral("sound")},
                   {QStringLiteral("note"), QObject::tr("What was &seen"),
                    QObject::tr("dent at the foot ring, 5 mm deep …")}};
    asked.yes = QObject::tr("Enter the inspection");
    const auto facts = questions::askFacts(parent, asked);
    if (facts) {
        const QString result = facts->at(QStringLiteral("result"));
        const bool mended = result == kMended;
        tellOutcome(desk, parent,
                    inspect(desk.shop(), utf8(serial), mended ? "sound" : utf8(result),
                            utf8(facts->at(QStringLiteral("note"))), mended));
    }
}

void enterTare(Desk& desk, QWidget* parent, const QString& serial) {
    FactsAsked asked;
    asked.title = QObject::tr("Tare of %1").arg(serial);
    asked.explanation = QObject::tr("What is inside by the books changes with it from now on; the old tare "
                                    "stays in the history.");
    asked.facts = {{QStringLiteral("tare"), QObject::tr("New &tare"), QObject::tr("27.0 lb")},
                   {QStringLiteral("from"),
                    QObject::tr("Where it is &from"),
                    {},
                    Fact::Kind::choice,
                    {{QObject::tr("the collar says so"), QStringLiteral("collar")},
                     {QObject::tr("weighed empty; the collar says otherwise"), QStringLiteral("weighed")}},
                    QStringLiteral("collar")},
                   {QStringLiteral("reason"), QObject::tr("&Why it changes"),
                    QObject::tr("new valve, misread before, stamped anew …")}};
    asked.yes = QObject::tr("Restate");
    asked.problem = [&desk](const Facts& facts) {
        const auto tare = desk.shop().display().readMass(utf8(facts.at(QStringLiteral("tare"))));
        return facts.at(QStringLiteral("tare")).isEmpty()     ? QObject::tr("Type the new tare.")
               : !tare                                        ? qt(tare.error().text())
               : facts.at(QStringLiteral("reason")).isEmpty() ? QObject::tr("Say why; an auditor will ask.")
                                                              : QString();
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const auto tare = desk.shop().display().readMass(utf8(facts->at(QStringLiteral("tare"))));
    if (tare) {
        if (tare.value() > Mass() &&
            !tareConfirmed(parent, tareQuestion(desk.shop(), utf8(serial), tare.value()))) {
            return;
        }
        tellOutcome(desk, parent,
                    restateTare(desk.shop(), utf8(serial), tare.value(),
                                utf8(facts->at(QStringLiteral("reason"))),
                                facts->at(QStringLiteral("from")) == QStringLiteral("weighed")));
    } else {
        questions::tell(parent, QObject::tr("Not entered"), qt(tare.error().text()));
    }
}

void enterUse(Desk& desk, QWidget* parent, const QString& serial) {
    FactsAsked asked;
    asked.title = QObject::tr("Use of %1").arg(serial);
    asked.explanation =
        QObject::tr("What it may be used for, as it is marked. What is left as it is does not change.");
    const std::vector<std::pair<QString, QString>> choices = {{QObject::tr("as it is on file"), QString()},
                                                              {QObject::tr("yes"), QStringLiteral("yes")},
                                                              {QObject::tr("no"), QStringLiteral("no")}};
    asked.facts = {
        {QStringLiteral("flammable"),
         QObject::tr("Rated for &flammable gas"),
         {},
         Fact::Kind::choice,
         choices},
        {QStringLiteral("burnOut"), QObject::tr("Kept for &burn-outs"), {}, Fact::Kind::choice, choices},
        {QStringLiteral("clean"),
         QObject::tr("Kept for &clean gas only, coated"),
         {},
         Fact::Kind::choice,
         choices},
        {QStringLiteral("life"), QObject::tr("Service life &to"), QObject::tr("month, where it is limited")},
        {QStringLiteral("reason"), QObject::tr("&How you know"),
         QObject::tr("mark on the collar, thread …")}};
    asked.yes = QObject::tr("Restate");
    const auto read = [&desk](const Facts& facts) -> Result<Use> {
        const auto answer = [&](const char* name) {
            const QString word = facts.at(QLatin1String(name));
            return word.isEmpty() ? std::nullopt : std::optional(word == QStringLiteral("yes"));
        };
        Use use{answer("flammable"), answer("burnOut"), {}, answer("clean")};
        if (const QString life = facts.at(QStringLiteral("life")); !life.isEmpty()) {
            const auto month = readMonth(utf8(life), dateOrderOf(desk.shop().settings()));
            if (!month) {
                return month.error();
            }
            use.serviceUntil = month.value();
        }
        return use;
    };
    asked.problem = [read](const Facts& facts) {
        const auto use = read(facts);
        if (!use) {
            return qt(use.error().text());
        }
        const bool nothing = !use.value().flammableRated && !use.value().burnOut &&
                             !use.value().serviceUntil && !use.value().cleanService;
        return nothing ? QObject::tr("Nothing is restated yet.")
               : facts.at(QStringLiteral("reason")).isEmpty()
                   ? QObject::tr("Say how you know; an auditor will ask.")
                   : QString();
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    if (const auto use = read(*facts)) {
        tellOutcome(
            desk, parent,
            restateUse(desk.shop(), utf8(serial), use.value(), utf8(facts->at(QStringLiteral("reason")))));
    }
}

void addCylinderActs(QMenu& menu, Desk& desk, QWidget* parent, const QString& serial) {
    for (const auto& [name, title, act, kind] :
         {std::tuple{"test", QObject::tr("Enter a test…"), &enterTest, EntryKind::retested},
          std::tuple{"inspect", QObject::tr("Inspected…"), &enterInspection, EntryKind::inspected},
          std::tuple{"evacuate", QObject::tr("Evacuated…"), &enterEvacuation, EntryKind::evacuated},
          std::tuple{"tare", QObject::tr("Restate the tare…"), &enterTare, EntryKind::marksRestated},
          std::tuple{"use", QObject::tr("Restate its use…"), &enterUse, EntryKind::marksRestated},
          std::tuple{"deposit", QObject::tr("Deposit and rental…"), &askDeposit, EntryKind::partySet},
          std::tuple{"exchange", QObject::tr("Exchanged for another number…"), &enterExchange,
                     EntryKind::retired}}) {
        QAction* action = menu.addAction(title);
        action->setVisible(may(desk.shop(), kind));
        action->setObjectName(QStringLiteral("act:") + QLatin1String(name));
        QObject::connect(action, &QAction::triggered, parent,
                         [&desk, parent, serial, act = act] { act(desk, parent, serial); });
    }
    for (const Wording& wording : wordings()) {
        QAction* action = menu.addAction(wording.title);
        action->setVisible(may(desk.shop(), wording.kind));
        action->setObjectName(QStringLiteral("act:") + QLatin1String(wording.name));
        QObject::connect(action, &QAction::triggered, parent,
                         [&desk, parent, serial, wording] { askAndEnter(desk, parent, serial, wording); });
    }
}

void settleFinding(Desk& desk, QWidget* parent, const QString& subject, const QString& rule) {
    const auto reason =
        questions::askText(parent, QObject::tr("Go on in spite of it"),
                           QObject::tr("Why this finding of %1 is settled; the reason stays in the books")
                               .arg(subject.section(QLatin1Char(':'), 1)),
                           QObject::tr("Close the finding"));
    if (reason) {
        tellOutcome(desk, parent, overrule(desk.shop(), utf8(rule), utf8(subject), utf8(*reason)));
    }
}

void overruleFinding(Desk& desk, QWidget* parent, const QString& serial, const QString& rule) {
    settleFinding(desk, parent, QStringLiteral("cylinder:") + serial, rule);
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
