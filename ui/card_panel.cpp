#include "ui/card_panel.h"

#include "core/papers/paper_parts.h"
#include "core/refrigerant/cylinder_state.h"
#include "core/refrigerant/saturation.h"
#include "core/shop/operators.h"
#include "ui/attachments_dialog.h"
#include "ui/card_words.h"
#include "ui/cylinder_acts.h"
#include "ui/cylinder_drawing.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/label_dialog.h"
#include "ui/pressure_curve.h"
#include "ui/remedies.h"
#include "ui/wrapping_row.h"

#include <QBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSlider>
#include <QTableWidget>

namespace tarebook {
namespace {

constexpr int kColdest = 10;
constexpr int kHottest = 55;
constexpr int kRoom = 25;
constexpr int kMostHistory = 300;

QPushButton* errandButton(const QString& text, const char* name, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QLatin1String(name));
    return button;
}

} // namespace

CardPanel::CardPanel(Desk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("card"));
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    m_nothing = kit::hint(tr("Choose a cylinder in the list, or scan its serial."), this);
    m_nothing->setAlignment(Qt::AlignCenter);
    outer->addWidget(m_nothing, 1);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget(area);
    auto* column = new QVBoxLayout(inside);
    const int gap = fontMetrics().height() / 2;
    column->setContentsMargins(gap, gap, gap, gap);
    column->setSpacing(gap);
    buildHead(*column);
    m_findings = new FindingView(m_desk, inside);
    column->addWidget(m_findings);
    buildFigures(*column);
    buildPictures(*column);
    buildTables(*column);
    column->addStretch(1);
    area->setWidget(inside);
    area->setMinimumWidth(inside->minimumSizeHint().width() + area->verticalScrollBar()->sizeHint().width() +
                          gap);
    m_body = area;
    outer->addWidget(area, 1);
    m_body->hide();
}

void CardPanel::buildHead(QVBoxLayout& column) {
    m_title = kit::heading({}, this);
    m_title->setObjectName(QStringLiteral("cardTitle"));
    m_marks = kit::hint({}, this);
    m_marks->setObjectName(QStringLiteral("cardMarks"));
    m_place = new QLabel(this);
    m_place->setObjectName(QStringLiteral("cardPlace"));
    m_place->setWordWrap(true);
    column.addWidget(m_title);
    column.addWidget(m_marks);
    column.addWidget(m_place);
    auto* row = new WrappingRow;
    const auto errand = [this, row](const QString& text, const char* name, Errand errand_) {
        auto* button = errandButton(text, name, this);
        connect(button, &QPushButton::clicked, this,
                [this, errand_] { emit m_desk.errand(errand_, m_serial); });
        row->addWidget(button);
    };
    errand(tr("Check out"), "cardCheckOut", Errand::checkOut);
    errand(tr("Check in"), "cardCheckIn", Errand::checkIn);
    errand(tr("Decant"), "cardDecant", Errand::decant);
    errand(tr("Where from?"), "cardTrace", Errand::traceContents);
    auto* tag = errandButton(tr("Tag…"), "cardTag", this);
    connect(tag, &QPushButton::clicked, this, [this] { showTags(m_desk, this, {utf8(m_serial)}); });
    row->addWidget(tag);
    m_more = errandButton(tr("More"), "cardMore", this);
    row->addWidget(m_more);
    column.addLayout(row);
}

void CardPanel::buildFigures(QVBoxLayout& column) {
    auto* row = new WrappingRow;
    row->addWidget(kit::figure(QStringLiteral("cardNet"), tr("inside"), &m_net, this));
    row->addWidget(kit::figure(QStringLiteral("cardRoom"), tr("room left"), &m_room, this));
    row->addWidget(kit::figure(QStringLiteral("cardStop"), tr("stop at gross"), &m_stop, this));
    row->addWidget(kit::figure(QStringLiteral("cardDue"), tr("retest due"), &m_due, this));
    column.addLayout(row);
    m_working = kit::hint({}, this);
    m_working->setObjectName(QStringLiteral("cardWorking"));
    m_working->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column.addWidget(m_working);
}

void CardPanel::buildPictures(QVBoxLayout& column) {
    auto* row = new QHBoxLayout;
    m_drawing = new CylinderDrawing(this);
    m_curve = new PressureCurve(this);
    row->addWidget(m_drawing);
    row->addWidget(m_curve, 1);
    column.addLayout(row);
    auto* below = new QHBoxLayout;
    auto* caption = new QLabel(tr("Left in a hot &van:"), this);
    m_slider = new QSlider(Qt::Horizontal, this);
    m_slider->setObjectName(QStringLiteral("cardTemperature"));
    m_slider->setAccessibleName(tr("Temperature of the cylinder"));
    m_slider->setRange(kColdest, kHottest);
    m_slider->setValue(kRoom);
    caption->setBuddy(m_slider);
    m_temperature = new QLabel(this);
    m_temperature->setObjectName(QStringLiteral("cardTemperatureText"));
    m_temperature->setWordWrap(true);
    below->addWidget(caption);
    below->addWidget(m_slider, 1);
    column.addLayout(below);
    column.addWidget(m_temperature);
    connect(m_slider, &QSlider::valueChanged, this, &CardPanel::showTemperature);
}

void CardPanel::buildTables(QVBoxLayout& column) {
    column.addWidget(kit::heading(tr("What is inside"), this));
    m_contents = kit::table(QStringLiteral("cardContents"),
                            {tr("Mass"), tr("Refrigerant"), tr("State"), tr("Owner")}, this);
    column.addWidget(m_contents);
    column.addWidget(kit::heading(tr("Who had it"), this));
    m_custody =
        kit::table(QStringLiteral("cardCustody"), {tr("Who"), tr("Job"), tr("From"), tr("Until")}, this);
    column.addWidget(m_custody);
    column.addWidget(kit::heading(tr("What happened"), this));
    m_history =
        kit::table(QStringLiteral("cardHistory"), {tr("Entry"), tr("When"), tr("What"), tr("By")}, this);
    kit::showRows(m_history, 6);
    column.addWidget(m_history);
    auto* reverse = errandButton(tr("Reverse the chosen entry…"), "cardReverse", this);
    connect(reverse, &QPushButton::clicked, this, &CardPanel::reverseChosen);
    auto* files = errandButton(tr("P&hotos and papers…"), "cardFiles", this);
    connect(files, &QPushButton::clicked, this, [this] {
        const int row = m_history->currentRow();
        if (row < 0) {
            m_desk.say(tr("Choose the entry they belong to first"));
        } else {
            AttachmentsDialog(m_desk, m_history->item(row, 0)->text().toLongLong(), this).exec();
        }
    });
    auto* below = new QHBoxLayout;
    below->addWidget(reverse);
    below->addWidget(files);
    below->addStretch(1);
    column.addLayout(below);
}

void CardPanel::setSerial(const QString& serial) {
    m_serial = serial;
    refresh();
}

void CardPanel::refresh() {
    const auto its = m_serial.isEmpty() ? Result<Card>(Error{}) : card(m_desk.shop(), utf8(m_serial));
    m_body->setVisible(its.ok());
    m_nothing->setVisible(!its.ok());
    if (!its) {
        return;
    }
    m_card = its.value();
    showHead(m_card);
    showLimits(m_card);
    showFindings(m_card);
    showContents(m_card);
    showHistory(m_card);
    showTemperature();
}

void CardPanel::showHead(const Card& card) {
    const Nameplate& plate = card.state.plate;
    const Display display = m_desk.shop().display();
    m_title->setText(qt(plate.serial));
    QStringList marks{
        qt(plate.specification.text()), tr("WC %1").arg(qt(display.mass(plate.waterCapacity.water()))),
        tr("tare %1").arg(qt(display.mass(plate.tare))), tr("made %1").arg(qt(plate.manufactured.text()))};
    if (plate.lastTest) {
        marks.append(tr("tested %1%2").arg(qt(plate.lastTest->text()), qt(plate.markSuffix)));
    }
    if (plate.cleanService) {
        marks.append(tr("for clean gas only"));
    }
    if (plate.serviceUntil) {
        marks.append(tr("service life to %1").arg(qt(plate.serviceUntil->text())));
    }
    marks.append(qt(plate.owner.text()));
    if (plate.overfillSensor) {
        marks.append(tr("overfill sensor"));
    }
    if (!plate.refrigerant.empty()) {
        marks.append(tr("kept for %1").arg(qt(plate.refrigerant)));
    }
    m_marks->setText(marks.join(QStringLiteral("  ·  ")));
    m_place->setText(placeWords(card));
    auto* menu = new QMenu(m_more);
    addCylinderActs(*menu, m_desk, this, m_serial);
    delete m_more->menu();
    m_more->setMenu(menu);
}

void CardPanel::showLimits(const Card& card) {
    const Display display = m_desk.shop().display();
    m_net->setText(qt(display.mass(card.state.content.total())));
    m_due->setText(qt(card.due));
    if (!card.limits.known) {
        m_room->setText(QStringLiteral("–"));
        m_stop->setText(QStringLiteral("–"));
        m_working->setText(qt(card.limits.problem));
        m_curve->setCurve({}, 0, m_desk.shop().settings());
        return;
    }
    m_room->setText(qt(display.limit(card.limits.room)));
    const bool filled = stopWeightOf(m_desk.shop(), card.state).gross != kNotToFill; // as on tag and slip
    m_stop->setText(filled ? qt(display.limit(card.limits.grossToStop)) : qt(std::string(kNotToFill)));
    QStringList working{tr("For %1, least first:").arg(qt(card.limits.contents))};
    for (const std::string& line : card.limits.working) {
        working.append(qt(line));
    }
    working.append(tr("Pressure: %1").arg(qt(card.limits.pressureWorking)));
    m_working->setText(working.join(QLatin1Char('\n')));
    QVector<QPointF> points;
    const Catalogue& catalogue = m_desk.shop().catalogue();
    if (const auto contents = catalogue.contents(card.limits.contents)) {
        for (int celsius = -20; celsius <= 60; celsius += 4) {
            const auto state = saturationAt(catalogue, contents.value(), Temperature::fromCelsius(celsius));
            if (state) {
                points.append({static_cast<double>(celsius), state.value().bubble.gauge().kilopascal()});
            }
        }
    }
    m_curve->setCurve(points, card.limits.pressureLimit.kilopascal(), m_desk.shop().settings());
}

void CardPanel::showFindings(const Card& card) {
    m_findings->setFindings(card.findings);
    for (FindingCard* shown : m_findings->cards()) {
        const Remedy remedy = remedyOf(shown->finding());
        if (remedy != Remedy::look && remedy != Remedy::none) {
            Finding finding = shown->finding();
            finding.subject = "card:" + finding.rule;
            shown->addAction(remedyButton(m_desk, shown, finding, remedy, m_serial));
        }
        if (!shown->finding().overrulable || !may(m_desk.shop(), EntryKind::findingOverruled)) {
            continue;
        }
        const QString rule = qt(shown->finding().rule);
        auto* button = errandButton(tr("Settle…"), "overrule", shown);
        button->setObjectName(QStringLiteral("overrule:") + rule);
        shown->addAction(button);
        connect(button, &QPushButton::clicked, this,
                [this, rule] { overruleFinding(m_desk, this, m_serial, rule); });
    }
}

void CardPanel::showContents(const Card& card) {
    const Display display = m_desk.shop().display();
    m_contents->setRowCount(0);
    for (const auto& [gas, milligrams] : card.state.content.parts()) {
        const int row = m_contents->rowCount();
        m_contents->insertRow(row);
        kit::cell(m_contents, row, 0, qt(display.mass(Mass::fromMilligrams(milligrams))), true);
        kit::cell(m_contents, row, 1, qt(gas.refrigerant));
        kit::cell(m_contents, row, 2, qt(gasStateWord(gas.state)));
        kit::cell(m_contents, row, 3, gas.owner.empty() ? tr("the shop") : qt(gas.owner));
    }
    kit::fitColumns(m_contents, 3);
    kit::showRows(m_contents, std::max(1, m_contents->rowCount()));
}

void CardPanel::showHistory(const Card& card) {
    const Zone& zone = m_desk.shop().zone();
    m_custody->setRowCount(0);
    for (const Custody& custody : card.custody) {
        const int row = m_custody->rowCount();
        m_custody->insertRow(row);
        kit::cell(m_custody, row, 0, qt(custody.person));
        kit::cell(m_custody, row, 1, qt(custody.job));
        kit::cell(m_custody, row, 2, qt(zone.localText(custody.from)));
        kit::cell(m_custody, row, 3, custody.until ? qt(zone.localText(*custody.until)) : tr("still"));
    }
    kit::fitColumns(m_custody, 0);
    kit::showRows(m_custody, std::clamp(m_custody->rowCount(), 1, 5));
    m_history->setRowCount(0);
    for (const HistoryLine& line : card.history) {
        const int row = m_history->rowCount();
        if (row >= kMostHistory) {
            break;
        }
        m_history->insertRow(row);
        kit::cell(m_history, row, 0, QString::number(line.entry), true);
        kit::cell(m_history, row, 1, qt(zone.localText(line.occurred)));
        auto* what =
            kit::cell(m_history, row, 2,
                      line.reversedBy ? tr("%1 (reversed by %2)").arg(qt(line.sentence)).arg(*line.reversedBy)
                                      : qt(line.sentence));
        if (line.reversedBy) {
            QFont font = what->font();
            font.setStrikeOut(true);
            what->setFont(font);
        }
        kit::cell(m_history, row, 3, qt(line.operatorName));
    }
    kit::fitColumns(m_history, 2);
}

void CardPanel::showTemperature() {
    const int celsius = m_slider->value();
    const Display display = m_desk.shop().display();
    m_curve->setMarker(celsius);
    const QString at = qt(display.temperature(Temperature::fromCelsius(celsius)));
    const Catalogue& catalogue = m_desk.shop().catalogue();
    const auto contents = catalogue.contents(contentsText(m_card.state.content));
    if (m_card.state.content.empty() || !contents) {
        m_drawing->setLevel(0, -1, false, tr("empty"));
        m_temperature->setText(m_card.state.content.empty() ? tr("Empty.")
                                                            : tr("The contents are not known."));
        return;
    }
    const Volume volume = m_card.state.plate.waterCapacity.volume();
    const auto temperature = Temperature::fromCelsius(celsius);
    const auto state =
        cylinderStateAt(catalogue, contents.value(), m_card.state.content.total(), volume, temperature);
    if (!state) {
        m_drawing->setLevel(0, -1, false, {});
        m_temperature->setText(qt(state.error().text()));
        return;
    }
    double stop = -1;
    if (m_card.limits.known) {
        const auto full =
            cylinderStateAt(catalogue, contents.value(), m_card.limits.net, volume, temperature);
        stop = full ? full.value().liquidShare : -1;
    }
    const RestingContents& rest = state.value();
    const bool burst = rest.filling == Filling::liquidFull;
    const QString text =
        burst ? tr("At %1 it is full of liquid: no vapour space is left and the cylinder can burst.").arg(at)
              : tr("At %1: %2 % of the volume is liquid, %3.")
                    .arg(at)
                    .arg(qRound(rest.liquidShare * 100))
                    .arg(qt(display.pressure(rest.pressure.gauge())));
    m_temperature->setText(text);
    m_drawing->setLevel(burst ? 1.0 : rest.liquidShare, stop, burst || m_card.limits.room.milligrams() < 0,
                        text);
}

void CardPanel::reverseChosen() {
    const int row = m_history->currentRow();
    if (row < 0) {
        m_desk.say(tr("Choose the entry to reverse first"));
        return;
    }
    reverseEntry(m_desk, this, m_history->item(row, 0)->text().toLongLong(), m_history->item(row, 2)->text());
}

} // namespace tarebook
