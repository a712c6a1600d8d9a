#include "ui/refrigerant_window.h"

#include "core/refrigerant/designation.h"
#include "core/shop/own_blends.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/questions.h"

#include <QComboBox>
#include <QLabel>
#include <QSignalBlocker>

namespace tarebook {
namespace {

const QString kName = QStringLiteral("name");
const QString kParts = QStringLiteral("parts");

/// In per cent by mass, as the composition is typed.
QString partsOf(const Contents& contents) {
    QStringList parts;
    for (const Component& part : contents) {
        parts.append(QStringLiteral("%1:%2")
                         .arg(qt(displayedDesignation(part.designation)))
                         .arg(part.massShare * 100, 0, 'g', 6));
    }
    return parts.join(QLatin1Char('+'));
}

/// What is still wrong with a blend while it is typed; blank when it can be entered.
QString problemOf(const Catalogue& catalogue, const Facts& facts) {
    if (facts.at(kName).isEmpty() || facts.at(kParts).isEmpty()) {
        return QObject::tr("A name, and the composition as R-290:60+R-600a:40");
    }
    const auto contents = ownBlendContents(catalogue, utf8(facts.at(kParts)));
    if (!contents) {
        return qt(contents.error().text());
    }
    const auto named = catalogue.withBlend(utf8(facts.at(kName)), contents.value());
    return named ? QString() : qt(named.error().text());
}

} // namespace

void RefrigerantWindow::fillChoices() {
    QStringList names;
    for (const std::string& name : m_desk.shop().catalogue().designations()) {
        names.append(qt(name));
    }
    if (names == m_choices) {
        return;
    }
    m_choices = names;
    for (QComboBox* box : {m_first, m_second}) {
        const QString before = chosenIn(*box);
        const QSignalBlocker quiet(box);
        box->clear();
        if (box == m_second) {
            box->addItem(tr("nothing else"), QString());
        }
        for (const QString& name : names) {
            box->addItem(name, name);
        }
        if (!chooseIn(*box, before)) {
            box->setEditText(before);
        }
    }
}

void RefrigerantWindow::nameBlend() {
    const bool mixed = m_card && m_card->facts.designation.starts_with("MIXED");
    FactsAsked asked;
    asked.title = tr("A blend of the shop's own");
    asked.explanation = tr(
        "Composition by mass in per cent. It is kept in the books, and every place of this shop that reads "
        "a refrigerant then understands the name. The standard assigns it no safety group: treat it as the "
        "most hazardous of its components. To change a blend give it another name.");
    asked.facts = {{kName, tr("&Name"), tr("Shop blend 7")},
                   {kParts,
                    tr("&Composition"),
                    tr("R-290:60+R-600a:40"),
                    Fact::Kind::line,
                    {},
                    mixed ? partsOf(m_card->contents) : QString()}};
    asked.yes = tr("Keep the blend");
    asked.problem = [this](const Facts& facts) { return problemOf(m_desk.shop().catalogue(), facts); };
    const auto facts = questions::askFacts(this, asked);
    if (!facts) {
        return;
    }
    const Recorded recorded = addOwnBlend(m_desk.shop(), utf8(facts->at(kName)), utf8(facts->at(kParts)));
    const QString failed = kit::told(recorded, tr("The blend was not kept"));
    if (!failed.isEmpty()) {
        questions::tell(this, tr("Not kept"), failed);
        return;
    }
    m_desk.notifyRecorded(recorded);
    fillChoices();
    showContents(facts->at(kName));
    m_desk.say(tr("%1 is understood in this shop now").arg(facts->at(kName)));
}

} // namespace tarebook
