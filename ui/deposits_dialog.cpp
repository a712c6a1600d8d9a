#include "ui/deposits_dialog.h"

#include "core/base/csv_write.h"
#include "core/shop/deposits.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/page.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QDateEdit>
#include <QFileDialog>
#include <QLabel>
#include <QPushButton>
#include <QSaveFile>
#include <QTableWidget>

namespace tarebook {
namespace {

enum LoanColumn { serial, party, whose, since, days, charged, freeUntil, held, rental, soFar, stands };

QString moneyCell(const CylinderLoan& loan, Hundredths amount) {
    return loan.currency.empty() ? QString()
                                 : QStringLiteral("%1 %2").arg(qt(moneyText(amount)), qt(loan.currency));
}

QString sumSentence(const DepositSum& sum, Date on) {
    return QObject::tr("%1, out on %2: %3, deposits %4 %6, rental so far %5 %6.")
        .arg(sum.away ? QObject::tr("Ours with others") : QObject::tr("Theirs here"), qt(on.text()),
             sum.cylinders == 1 ? QObject::tr("one cylinder")
                                : QObject::tr("%1 cylinders").arg(sum.cylinders),
             qt(moneyText(sum.deposit)), qt(moneyText(sum.cost)), qt(sum.currency));
}

} // namespace

DepositsDialog::DepositsDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_day(new QDateEdit(this)),
      m_all(new QCheckBox(tr("Those that went &back too"), this)),
      m_table(kit::table(QStringLiteral("depositTable"),
                         {tr("Cylinder"), tr("With"), tr("Whose"), tr("Since"), tr("Days"), tr("Charged"),
                          tr("Free until"), tr("Deposit"), tr("A day"), tr("So far"), tr("Stands")},
                         this)),
      m_sums(new QLabel(this)), m_card(new QPushButton(tr("Open the &card"), this)),
      m_save(new QPushButton(tr("&Save the table…"), this)) {
    setObjectName(QStringLiteral("depositsDialog"));
    setWindowTitle(tr("Deposits and rental"));
    m_table->setAccessibleName(tr("Cylinders on deposit or rent"));
    m_day->setObjectName(QStringLiteral("depositDay"));
    m_day->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
    m_day->setCalendarPopup(true);
    m_day->setDate(QDate(1970, 1, 1).addDays(m_desk.shop().today().dayNumber()));
    m_all->setObjectName(QStringLiteral("depositAll"));
    m_sums->setObjectName(QStringLiteral("depositSums"));
    m_sums->setWordWrap(true);
    m_sums->setTextFormat(Qt::PlainText);
    m_card->setObjectName(QStringLiteral("depositCard"));
    m_save->setObjectName(QStringLiteral("depositSave"));
    auto* close = new QPushButton(tr("Close"), this);
    for (QPushButton* button : {m_card, m_save, close}) {
        button->setAutoDefault(false); // Enter in the table opens a card
    }
    auto* label = new QLabel(tr("&On"), this);
    label->setBuddy(m_day);
    auto* top = new QHBoxLayout;
    top->addWidget(label);
    top->addWidget(m_day);
    top->addWidget(m_all);
    top->addStretch(1);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_card);
    buttons->addWidget(m_save);
    buttons->addStretch(1);
    buttons->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(tr("Cylinders of others here, and ours with others. The day on which one "
                                   "came is the zeroth; how the contract counts days, the contract says. "
                                   "Entered and ended on the card of the cylinder."),
                                this));
    column->addLayout(top);
    column->addWidget(m_table, 1);
    column->addWidget(m_sums);
    column->addLayout(buttons);
    kit::roomyLabels(this);
    connect(m_day, &QDateEdit::dateChanged, this, &DepositsDialog::list);
    connect(m_all, &QCheckBox::toggled, this, &DepositsDialog::list);
    connect(m_table, &QTableWidget::cellActivated, this, &DepositsDialog::openCard);
    connect(m_card, &QPushButton::clicked, this, &DepositsDialog::openCard);
    connect(m_save, &QPushButton::clicked, this, &DepositsDialog::save);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(&m_desk, &Desk::changed, this, &DepositsDialog::list);
    const int line = fontMetrics().height();
    resize(line * 66, line * 28);
    list();
    m_table->setFocus();
}

void DepositsDialog::list() {
    const Date on = Date::fromDayNumber(static_cast<int>(QDate(1970, 1, 1).daysTo(m_day->date())));
    const auto known = deposits(m_desk.shop(), on);
    m_table->setRowCount(0);
    m_card->setEnabled(false);
    m_save->setEnabled(false);
    if (!known) {
        m_sums->setText(qt(known.error().text()));
        return;
    }
    for (const Deposit& one : known.value()) {
        const CylinderLoan& loan = one.loan;
        if (!m_all->isChecked() && !one.out(on)) {
            continue;
        }
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, serial, qt(loan.serial));
        kit::cell(m_table, row, party, qt(one.party));
        kit::cell(m_table, row, whose, loan.away ? tr("ours") : tr("theirs"));
        kit::cell(m_table, row, since, qt(loan.since.text()));
        kit::cell(m_table, row, stands,
                  one.out(on)
                      ? (loan.daysCharged(on) > 0 && loan.rental > 0 ? tr("▲ rental runs") : tr("out"))
                      : tr("back %1, %2").arg(qt(loan.until->text()), qt(one.ended)));
        kit::cell(m_table, row, days, QString::number(loan.days(on)), true);
        kit::cell(m_table, row, charged, QString::number(loan.daysCharged(on)), true);
        kit::cell(m_table, row, freeUntil, loan.freeUntil() ? qt(loan.freeUntil()->text()) : QString());
        kit::cell(m_table, row, held, moneyCell(loan, loan.deposit), true);
        kit::cell(m_table, row, rental, moneyCell(loan, loan.rental), true);
        kit::cell(m_table, row, soFar, moneyCell(loan, loan.cost(on)), true);
    }
    kit::fitColumns(m_table, stands);
    QStringList sums;
    for (const DepositSum& sum : depositSums(known.value(), on)) {
        sums << sumSentence(sum, on);
    }
    const bool any = m_table->rowCount() > 0;
    m_sums->setText(
        any || !sums.isEmpty()
            ? sums.join(QLatin1Char('\n'))
            : tr("Nothing is on deposit on %1. On the card of a cylinder it is entered.").arg(qt(on.text())));
    if (any) {
        m_table->selectRow(0);
    }
    m_card->setEnabled(any);
    m_save->setEnabled(any);
}

void DepositsDialog::openCard() {
    if (const auto* item = m_table->item(m_table->currentRow(), serial)) {
        emit m_desk.showCylinder(item->text());
        if (parentWidget() != nullptr) {
            parentWidget()->window()->activateWindow();
        }
    }
}

bool DepositsDialog::writeTable(const QString& path) {
    std::vector<std::string> header;
    header.reserve(static_cast<std::size_t>(m_table->columnCount()));
    for (int column = 0; column < m_table->columnCount(); ++column) {
        header.push_back(utf8(m_table->horizontalHeaderItem(column)->text()));
    }
    std::string text = csvLine(header) + "\r\n";
    for (int row = 0; row < m_table->rowCount(); ++row) {
        std::vector<std::string> cells;
        cells.reserve(header.size());
        for (int column = 0; column < m_table->columnCount(); ++column) {
            cells.push_back(utf8(m_table->item(row, column)->text()));
        }
        text += csvLine(cells) + "\r\n";
    }
    QSaveFile file(path);
    const bool written = file.open(QIODevice::WriteOnly) &&
                         file.write(QByteArray::fromStdString(text)) == static_cast<qint64>(text.size()) &&
                         file.commit();
    m_desk.say(written ? tr("Written: %1").arg(path) : tr("%1 cannot be written").arg(path));
    return written;
}

void DepositsDialog::save() {
    const QString path = QFileDialog::getSaveFileName(this, tr("Save the table"),
                                                      QStringLiteral("deposits.csv"), tr("CSV (*.csv)"));
    if (!path.isEmpty()) {
        (void)writeTable(path);
    }
}

} // namespace tarebook
