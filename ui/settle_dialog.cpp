#include "ui/settle_dialog.h"

#include "core/shop/came_for.h"
#include "core/shop/card.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"
#include "core/shop/usual_tare.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/tare_question.h"

#include <algorithm>

#include <QBoxLayout>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

namespace tarebook {
namespace {

enum Column { serial, sent, received, fate, inSerial, inSpecification, inCapacity, inTare, inMade, inTested };
constexpr Column kFirstMark = inSerial;

} // namespace

SettleDialog::SettleDialog(Desk& desk, const Batch& batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_batch(batch),
      m_table(kit::table(QStringLiteral("settleTable"),
                         {tr("Cylinder"), tr("Sent"), tr("Received"), tr("The cylinder"),
                          tr("Came for it: serial"), tr("Specification"), tr("Water capacity"), tr("Tare"),
                          tr("Made"), tr("Last test")},
                         this)) {
    setObjectName(QStringLiteral("settleDialog"));
    setWindowTitle(tr("Settle batch %1").arg(qt(batch.name)));
    for (const BatchLine& line : batch.lines) {
        addLine(line);
    }
    kit::fitColumns(m_table, -1);
    const int line = fontMetrics().height();
    for (int column = kFirstMark; column <= inTested; ++column) {
        m_table->horizontalHeader()->setSectionResizeMode(column, QHeaderView::Interactive);
        // No title is cut, and the marks have their room.
        m_table->setColumnWidth(column, std::max(m_table->horizontalHeader()->sectionSizeHint(column),
                                                 line * (column == inSpecification ? 9 : 7)));
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* enter = buttons->addButton(tr("Settle"), QDialogButtonBox::ActionRole);
    enter->setObjectName(QStringLiteral("settleEnter"));
    kit::makePrimary(enter);
    connect(enter, &QPushButton::clicked, this, &SettleDialog::settle);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(
        tr("The reclaimer's weights are accepted; differences go to variance. A cylinder that is back is an "
           "evacuated empty only when its card says so. One that stays there leaves the fleet; type the "
           "stamped marks of the empty that came for it, or leave them blank when none did."),
        this));
    column->addWidget(m_table, 1);
    if (const auto open = undecided(desk.shop(), batch)) {
        column->addWidget(undecidedLabel(*open));
    }
    column->addWidget(creditLabel());
    column->addWidget(exchangeLabel());
    column->addWidget(buttons);
    resize(line * 76, line * 24);
}

QLabel* SettleDialog::undecidedLabel(const Finding& open) {
    QStringList steps;
    for (const std::string& step : open.working) {
        steps << qt(step);
    }
    auto* label = new QLabel(qt(open.headline + " " + open.remedy), this);
    label->setObjectName(QStringLiteral("settleUndecided"));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setToolTip(steps.join(QLatin1Char('\n')));
    return label;
}

QLabel* SettleDialog::creditLabel() {
    const auto money = settlementOf(m_desk.shop(), m_batch);
    QStringList steps;
    for (const std::string& step : money ? money.value().working : std::vector<std::string>()) {
        steps << qt(step);
    }
    constexpr qsizetype kMostShown = 6; // of a larger batch the sum; Differences has the rest
    auto* label = new QLabel(!money                       ? qt(money.error().text())
                             : steps.size() <= kMostShown ? steps.join(QLatin1Char('\n'))
                                                          : steps.last(),
                             this);
    label->setObjectName(QStringLiteral("settleCredit"));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setToolTip(steps.join(QLatin1Char('\n')));
    return label;
}

QLabel* SettleDialog::exchangeLabel() {
    QStringList said;
    for (const std::string& sentence : exchangeSaid(m_desk.shop(), m_batch)) {
        said << qt(sentence);
    }
    auto* label = new QLabel(said.join(QLatin1Char('\n')), this);
    label->setObjectName(QStringLiteral("settleExchange"));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setVisible(!said.isEmpty());
    return label;
}

void SettleDialog::addLine(const BatchLine& line) {
    const Display display = m_desk.shop().display();
    const int row = m_table->rowCount();
    m_table->insertRow(row);
    kit::cell(m_table, row, serial, qt(line.serial));
    kit::cell(m_table, row, sent, qt(display.mass(line.net)), true);
    kit::cell(m_table, row, received, line.receivedNet ? qt(display.mass(*line.receivedNet)) : QString(),
              true);
    auto* box = new QComboBox(m_table);
    box->addItems({tr("is back"), tr("stays there")});
    box->setObjectName(QStringLiteral("settleFate:") + qt(line.serial));
    box->setAccessibleName(tr("Where %1 is").arg(qt(line.serial)));
    m_table->setCellWidget(row, fate, box);
    const std::map<int, std::pair<const char*, QString>> marks = {
        {inSerial, {"settleSerial:", tr("as stamped")}},
        {inSpecification, {"settleSpec:", QStringLiteral("DOT-4BA400")}},
        {inCapacity, {"settleCapacity:", QStringLiteral("47.7 lb")}},
        {inTare, {"settleTare:", QStringLiteral("27.0 lb")}},
        {inMade, {"settleMade:", QStringLiteral("2021-03")}},
        {inTested, {"settleTested:", tr("or blank")}}};
    for (const auto& [column, named] : marks) {
        auto* field = new QLineEdit(m_table);
        field->setObjectName(QLatin1String(named.first) + qt(line.serial));
        field->setPlaceholderText(named.second);
        field->setAccessibleName(
            tr("%1 of what came for %2").arg(m_table->horizontalHeaderItem(column)->text(), qt(line.serial)));
        m_table->setCellWidget(row, column, field);
    }
    connect(box, &QComboBox::currentIndexChanged, this, [this, row] { followFate(row); });
    if (const auto left = leftAtCounter(m_desk.shop(), line.serial); left && left.value()) {
        box->clear(); // what came for it is on the register already
        box->addItem(tr("exchanged, %1 came").arg(qt(left.value()->in)));
        box->setEnabled(false);
    } else if (line.receipt &&
               !line.receipt->exchange.empty()) { // their receipt says which empty came for it
        box->setCurrentIndex(1);
        qobject_cast<QLineEdit*>(m_table->cellWidget(row, inSerial))->setText(qt(line.receipt->exchange));
    }
    followFate(row);
}

bool SettleDialog::gone(int row) const {
    return qobject_cast<QComboBox*>(m_table->cellWidget(row, fate))->currentIndex() == 1;
}

void SettleDialog::followFate(int row) {
    for (int column = kFirstMark; column <= inTested; ++column) {
        m_table->cellWidget(row, column)->setEnabled(gone(row));
    }
}

std::optional<Exchanged> SettleDialog::exchanged(int row) const {
    const auto text = [&](Column column) {
        return utf8(qobject_cast<QLineEdit*>(m_table->cellWidget(row, column))->text().trimmed());
    };
    if (!gone(row) || text(inSerial).empty()) {
        return std::nullopt;
    }
    return Exchanged{m_batch.lines[static_cast<std::size_t>(row)].serial,
                     text(inSerial),
                     text(inSpecification),
                     text(inCapacity),
                     text(inTare),
                     text(inMade),
                     text(inTested)};
}

void SettleDialog::settle() {
    Shop& shop = m_desk.shop();
    BatchSettling how;
    how.looked = m_batch.newest();
    how.undecided = true; // what is undecided stands above the button
    for (int row = 0; row < m_table->rowCount(); ++row) {
        if (gone(row)) {
            how.gone.push_back(m_batch.lines[static_cast<std::size_t>(row)].serial);
        }
        if (auto one = exchanged(row)) {
            how.came.push_back(std::move(*one));
        }
    }
    if (const auto arrived = draftsOf(shop, how.came); !arrived) {
        questions::tell(this, tr("Not yet"), qt(arrived.error().text()));
        return;
    }
    if (!tareConfirmed(this, tareQuestion(shop, how.came))) {
        return;
    }
    const Recorded recorded = settleBatch(shop, m_batch.name, how);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
        return;
    }
    m_desk.say(tr("Batch %1 is settled").arg(qt(m_batch.name)));
    accept();
}

} // namespace tarebook
