#include "ui/refrigerant_window.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/pressure_table_print.h"
#include "ui/questions.h"
#include "ui/saturation_curve.h"
#include "ui/theme.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QSlider>
#include <QTableWidget>

namespace tarebook {
namespace {

QString numberText(const SourcedNumber* number) {
    if (number == nullptr) {
        return QObject::tr("not known");
    }
    const QString word = qt(certaintyWord(number->certainty));
    return QString::number(number->value, 'g', 4) +
           (word.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(word));
}

} // namespace

RefrigerantWindow::RefrigerantWindow(Desk& desk, QWidget* parent) : QDialog(parent), m_desk(desk) {
    setObjectName(QStringLiteral("refrigerantWindow"));
    setWindowTitle(tr("Refrigerants and mixtures"));
    auto* column = new QVBoxLayout(this);
    column->addWidget(buildChoice());
    auto* row = new QHBoxLayout;
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    auto* left = new QWidget(area);
    auto* leftColumn = new QVBoxLayout(left);
    leftColumn->setContentsMargins(0, 0, fontMetrics().height() / 2, 0);
    leftColumn->addWidget(buildFacts());
    leftColumn->addWidget(buildMarks());
    leftColumn->addStretch(1);
    area->setWidget(left);
    row->addWidget(area, 2);
    row->addWidget(buildPressures(), 3);
    column->addLayout(row, 1);
    kit::roomyLabels(this);
    const int line = fontMetrics().height();
    resize(line * 76, line * 46);
    follow();
}

QWidget* RefrigerantWindow::buildChoice() {
    auto* part = new QWidget(this);
    auto* row = new QHBoxLayout(part);
    row->setContentsMargins(0, 0, 0, 0);
    m_first = searchBox(QStringLiteral("refrigerantFirst"), tr("Refrigerant"), part);
    m_second = searchBox(QStringLiteral("refrigerantSecond"), tr("Mixed with"), part);
    fillChoices();
    m_second->setCurrentIndex(0);
    (void)chooseIn(*m_first, QStringLiteral("R-410A"));
    m_share = new QSlider(Qt::Horizontal, part);
    m_share->setObjectName(QStringLiteral("refrigerantShare"));
    m_share->setAccessibleName(tr("Share of the second by mass, in per cent"));
    m_share->setRange(0, 100);
    m_share->setValue(10);
    m_shareText = new QLabel(part);
    m_shareText->setObjectName(QStringLiteral("refrigerantShareText"));
    m_shareText->setMinimumWidth(fontMetrics().horizontalAdvance(QStringLiteral("100 % by mass ")));
    auto* label = new QLabel(tr("&Refrigerant"), part);
    label->setBuddy(m_first);
    auto* with = new QLabel(tr("mixed &with"), part);
    with->setBuddy(m_second);
    row->addWidget(label);
    row->addWidget(m_first, 1);
    row->addWidget(with);
    row->addWidget(m_second, 1);
    row->addWidget(m_share, 1);
    row->addWidget(m_shareText);
    auto* own = new QPushButton(tr("&Own blend…"), part);
    own->setObjectName(QStringLiteral("refrigerantOwnBlend"));
    own->setToolTip(tr("Gives a mixture a name that this shop understands"));
    own->setAutoDefault(false);
    row->addWidget(own);
    connect(own, &QPushButton::clicked, this, &RefrigerantWindow::nameBlend);
    connect(&m_desk, &Desk::changed, this, &RefrigerantWindow::fillChoices);
    connect(m_first, &QComboBox::currentTextChanged, this, &RefrigerantWindow::follow);
    connect(m_second, &QComboBox::currentTextChanged, this, &RefrigerantWindow::follow);
    connect(m_share, &QSlider::valueChanged, this, &RefrigerantWindow::follow);
    return part;
}

QWidget* RefrigerantWindow::buildFacts() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    m_title = kit::heading({}, part);
    m_title->setObjectName(QStringLiteral("refrigerantTitle"));
    m_title->setWordWrap(true);
    m_facts = new QLabel(part);
    m_facts->setObjectName(QStringLiteral("refrigerantFacts"));
    m_facts->setWordWrap(true);
    m_facts->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_cautions = new QLabel(part);
    m_cautions->setObjectName(QStringLiteral("refrigerantCautions"));
    m_cautions->setWordWrap(true);
    m_unknown = kit::hint({}, part);
    m_unknown->setObjectName(QStringLiteral("refrigerantUnknown"));
    column->addWidget(m_title);
    column->addWidget(m_facts);
    column->addWidget(m_cautions);
    column->addWidget(m_unknown);
    return part;
}

QWidget* RefrigerantWindow::buildMarks() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(kit::heading(tr("Which cylinder"), part));
    column->addWidget(kit::hint(
        tr("The marks are those usual in the trade; any other is judged where it is registered."), part));
    auto* figures = new QHBoxLayout;
    figures->addWidget(kit::figure(QStringLiteral("refrigerantAt55"), tr("at 55 °C, 131 °F"), &m_at55, part));
    figures->addWidget(
        kit::figure(QStringLiteral("refrigerantMark"), tr("the weakest usual mark"), &m_mark, part));
    figures->addStretch(1);
    column->addLayout(figures);
    m_marks = kit::table(QStringLiteral("refrigerantMarks"), {tr("Mark"), tr("Verdict")}, part);
    kit::showRows(m_marks, 6);
    column->addWidget(m_marks);
    m_markWorking = kit::hint({}, part);
    m_markWorking->setObjectName(QStringLiteral("refrigerantMarkWorking"));
    m_markWorking->setMinimumHeight(fontMetrics().height() * 3);
    m_markWorking->setAlignment(Qt::AlignTop);
    column->addWidget(m_markWorking);
    connect(m_marks, &QTableWidget::currentCellChanged, this, [this](int row) {
        const QTableWidgetItem* chosen = row < 0 ? nullptr : m_marks->item(row, 1);
        m_markWorking->setText(chosen == nullptr ? QString() : chosen->toolTip());
    });
    auto* row = new QHBoxLayout;
    auto* label = new QLabel(tr("Into &cylinder"), part);
    m_cylinder = new QLineEdit(part);
    m_cylinder->setObjectName(QStringLiteral("refrigerantCylinder"));
    m_cylinder->setPlaceholderText(tr("serial"));
    label->setBuddy(m_cylinder);
    row->addWidget(label);
    row->addWidget(m_cylinder, 1);
    column->addLayout(row);
    m_cylinderText = new QLabel(part);
    m_cylinderText->setObjectName(QStringLiteral("refrigerantCylinderText"));
    m_cylinderText->setWordWrap(true);
    column->addWidget(m_cylinderText);
    connect(m_cylinder, &QLineEdit::textChanged, this, &RefrigerantWindow::showCylinder);
    return part;
}

QWidget* RefrigerantWindow::buildPressures() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    m_curve = new SaturationCurve(part);
    column->addWidget(m_curve, 3);
    auto* row = new QHBoxLayout;
    auto* label = new QLabel(tr("&Measured at rest"), part);
    m_temperature = new QLineEdit(part);
    m_temperature->setObjectName(QStringLiteral("measuredTemperature"));
    m_temperature->setPlaceholderText(tr("70 F, 21 C"));
    m_temperature->setAccessibleName(tr("Measured temperature"));
    m_pressure = new QLineEdit(part);
    m_pressure->setObjectName(QStringLiteral("measuredPressure"));
    m_pressure->setPlaceholderText(tr("201 psig, 13.9 bar"));
    m_pressure->setAccessibleName(tr("Measured pressure"));
    label->setBuddy(m_temperature);
    auto* print = new QPushButton(tr("Table for the van…"), part);
    print->setObjectName(QStringLiteral("refrigerantPrint"));
    row->addWidget(label);
    row->addWidget(m_temperature);
    row->addWidget(m_pressure);
    row->addStretch(1);
    row->addWidget(print);
    column->addLayout(row);
    m_measured = new QLabel(part);
    m_measured->setObjectName(QStringLiteral("measuredText"));
    m_measured->setWordWrap(true);
    m_measured->setMinimumHeight(fontMetrics().height() * 4);
    m_measured->setAlignment(Qt::AlignTop);
    column->addWidget(m_measured);
    m_table = kit::table(QStringLiteral("refrigerantTable"),
                         {tr("°F"), tr("°C"), tr("bubble psig"), tr("bubble bar g"), tr("dew psig"),
                          tr("dew bar g"), tr("liquid kg/m³")},
                         part);
    column->addWidget(m_table, 3);
    connect(m_temperature, &QLineEdit::textChanged, this, &RefrigerantWindow::showMeasured);
    connect(m_pressure, &QLineEdit::textChanged, this, &RefrigerantWindow::showMeasured);
    connect(print, &QPushButton::clicked, this, [this] { (void)saveTable({}); });
    return part;
}

QString RefrigerantWindow::asked() const {
    const QString first = chosenIn(*m_first);
    const QString second = chosenIn(*m_second);
    const int share = m_share->value();
    const bool alone = second.isEmpty() || second == tr("nothing else");
    if (alone || share == 0) {
        return first;
    }
    return share == 100 ? second
                        : QStringLiteral("%1:%2+%3:%4").arg(first).arg(100 - share).arg(second).arg(share);
}

void RefrigerantWindow::showContents(const QString& contents) {
    if (!chooseIn(*m_first, contents)) {
        m_first->setEditText(contents);
    }
    m_second->setCurrentIndex(0);
    follow();
}

void RefrigerantWindow::follow() {
    const QString second = chosenIn(*m_second);
    const bool mixed = !second.isEmpty() && second != tr("nothing else");
    m_share->setEnabled(mixed);
    m_share->setVisible(mixed);
    m_shareText->setText(mixed ? tr("%1 % by mass").arg(m_share->value()) : QString());
    auto made = refrigerantCard(m_desk.shop().catalogue(), utf8(asked()), cardTemperatures());
    if (!made) {
        m_card.reset();
        m_title->setText(qt(made.error().text()));
        for (QLabel* label : {m_facts, m_cautions, m_unknown, m_cylinderText, m_measured}) {
            label->clear();
        }
        m_at55->setText(QStringLiteral("–"));
        m_mark->setText(QStringLiteral("–"));
        m_marks->setRowCount(0);
        m_table->setRowCount(0);
        m_curve->setCard({}, m_desk.shop().settings());
        return;
    }
    m_card = std::move(made).value();
    showFacts(*m_card);
    m_curve->setCard(m_card->rows, m_desk.shop().settings());
    showTable(*m_card);
    showMarks();
    showCylinder();
    showMeasured();
}

void RefrigerantWindow::showFacts(const RefrigerantCard& card) {
    const RefrigerantFacts& facts = card.facts;
    m_title->setText(qt(m_desk.shop().catalogue().displayName(card.contents)));
    const QString group = qt(certaintyWord(facts.safetyGroupCertainty));
    QStringList lines{
        tr("Composition: %1").arg(qt(facts.composition)),
        tr("Safety group: %1%2")
            .arg(qt(facts.safetyGroup), group.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(group)),
        tr("Class: %1, ODP %2")
            .arg(qt(facts.refrigerantClass), numberText(facts.odp ? &*facts.odp : nullptr)),
        tr("GWP: AR4 %1, AR5 %2, AR6 %3")
            .arg(numberText(facts.gwp(GwpSet::ar4)), numberText(facts.gwp(GwpSet::ar5)),
                 numberText(facts.gwp(GwpSet::ar6))),
        tr("Molar mass: %1 kg/kmol, critical at %2 and %3 bar absolute%4")
            .arg(facts.molarMass, 0, 'f', 2)
            .arg(qt(m_desk.shop().display().temperature(facts.critical)))
            .arg(facts.criticalPressure.kilopascal() / 100, 0, 'f', 1)
            .arg(facts.blend ? tr(" (estimated)") : QString()),
        tr("Equations of state: %1").arg(qt(facts.equationOfState))};
    if (!card.passesFor.empty()) {
        lines.insert(1, tr("Passes for %1 within its tolerance").arg(qt(card.passesFor)));
    }
    if (!facts.status.empty()) {
        lines.append((facts.ownBlend ? tr("Own blend: %1") : tr("To be checked: %1")).arg(qt(facts.status)));
    }
    m_facts->setText(lines.join(QLatin1Char('\n')));
    QStringList cautions;
    for (const std::string& caution : card.cautions) {
        cautions.append(tr("Caution: %1.").arg(qt(caution)));
    }
    m_cautions->setText(cautions.join(QLatin1Char('\n')));
    QPalette look = palette();
    look.setColor(QPalette::WindowText,
                  card.cautions.size() > 1 ? theme::ink(Severity::refusal, look) : theme::quiet(look));
    m_cautions->setPalette(look);
    QStringList unknown{tr("Uncertain by up to %1 % (pressure) and %2 % (liquid density).")
                            .arg(card.pressureUncertaintyPercent, 0, 'f', 1)
                            .arg(card.densityUncertaintyPercent, 0, 'f', 1)};
    for (const std::string& remark : card.remarks) {
        unknown.append(qt(remark));
    }
    m_unknown->setText(unknown.join(QLatin1Char('\n')));
}

bool RefrigerantWindow::saveTable(const QString& path) {
    if (!m_card) {
        return false;
    }
    const QString name = qt(m_desk.shop().catalogue().displayName(m_card->contents));
    const QString where =
        path.isEmpty()
            ? QFileDialog::getSaveFileName(this, tr("Pressure table"),
                                           QString(name).remove(QLatin1Char(':')) + QStringLiteral(".pdf"),
                                           tr("PDF (*.pdf)"))
            : path;
    if (where.isEmpty()) {
        return false;
    }
    const bool letter = m_desk.shop().settings().mass == MassUnit::pound;
    const auto fine = refrigerantCard(m_desk.shop().catalogue(), utf8(asked()), cardTemperatures(1));
    if (!fine || !pressureTablePdf(fine.value(), name, where, letter)) {
        questions::tell(this, tr("Not written"), tr("%1 cannot be written.").arg(where));
        return false;
    }
    m_desk.say(tr("Written: %1").arg(where));
    return true;
}

} // namespace tarebook
