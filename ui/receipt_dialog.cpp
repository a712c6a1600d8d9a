#include "ui/receipt_dialog.h"

#include "core/shop/moments.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>

namespace tarebook {
namespace {

enum Column { serial, contents, sent, gross, tare, difference, analysis };

} // namespace

ReceiptDialog::ReceiptDialog(Desk& desk, const Batch& batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_batch(batch), m_reference(new QLineEdit(this)),
      m_when(new QLineEdit(this)) {
    setObjectName(QStringLiteral("receiptDialog"));
    setWindowTitle(tr("Receipt for batch %1").arg(qt(batch.name)));
    m_reference->setObjectName(QStringLiteral("receiptReference"));
    m_when->setObjectName(QStringLiteral("receiptWhen"));
    m_when->setPlaceholderText(tr("now; or the day on it, as 2026-09-21"));
    m_table = kit::table(QStringLiteral("receiptTable"),
                         {tr("Cylinder"), tr("Contents"), tr("Sent net"), tr("Gross there"), tr("Tare there"),
                          tr("Difference"), tr("Analysis")},
                         this);
    const Display display = desk.shop().display();
    for (const BatchLine& line : batch.lines) {
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, serial, qt(line.serial));
        kit::cell(m_table, row, contents, qt(line.content));
        kit::cell(m_table, row, sent, qt(display.mass(line.net)), true);
        kit::cell(m_table, row, difference, {}, true);
        const auto edit = [&](int column, const char* name, const QString& value) {
            auto* field = new QLineEdit(value, m_table);
            field->setObjectName(QLatin1String(name) + qt(line.serial));
            field->setAccessibleName(
                tr("%1 of %2").arg(m_table->horizontalHeaderItem(column)->text(), qt(line.serial)));
            m_table->setCellWidget(row, column, field);
            connect(field, &QLineEdit::textChanged, this, [this, row] { showDifference(row); });
        };
        edit(gross, "receiptGross:", {});
        edit(tare, "receiptTare:", qt(display.mass(line.tare)));
        edit(analysis, "receiptAnalysis:", {});
    }
    kit::fitColumns(m_table, analysis);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* enter = buttons->addButton(tr("Enter the receipt"), QDialogButtonBox::AcceptRole);
    enter->setObjectName(QStringLiteral("receiptEnter"));
    connect(buttons, &QDialogButtonBox::accepted, this, &ReceiptDialog::tryAccept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* form = new QFormLayout;
    form->addRow(tr("&Number of the receipt"), m_reference);
    form->addRow(tr("&Received on"), m_when);
    auto* column = new QVBoxLayout(this);
    column->addLayout(form);
    column->addWidget(
        kit::hint(tr("Their weights, as they stand on their paper. What differs from what was sent is "
                     "settled afterwards."),
                  this));
    column->addWidget(m_table, 1);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(line * 56, line * 26);
}

QString ReceiptDialog::reference() const {
    return m_reference->text().trimmed();
}

Result<std::optional<Instant>> ReceiptDialog::when() const {
    return readMoment(m_desk.shop(), utf8(m_when->text()));
}

void ReceiptDialog::showDifference(int row) {
    const auto text = [&](int column) {
        return utf8(qobject_cast<QLineEdit*>(m_table->cellWidget(row, column))->text());
    };
    const Display display = m_desk.shop().display();
    const auto its = display.readMass(text(gross));
    const auto empty = display.readMass(text(tare));
    if (!its || !empty) {
        m_table->item(row, difference)->setText({});
        return;
    }
    const std::int64_t was = m_batch.lines[static_cast<std::size_t>(row)].net.milligrams();
    const std::int64_t off = its.value().milligrams() - empty.value().milligrams() - was;
    m_table->item(row, difference)
        ->setText(tr("%1 (%2 %)")
                      .arg(qt(display.mass(Mass::fromMilligrams(off))))
                      .arg(was == 0 ? 0.0 : 100.0 * static_cast<double>(off) / static_cast<double>(was), 0,
                           'f', 1));
}

Result<std::vector<ReceiptLine>> ReceiptDialog::lines() const {
    std::vector<ReceiptLine> lines;
    const Display display = m_desk.shop().display();
    for (int row = 0; row < m_table->rowCount(); ++row) {
        const auto text = [&](int column) {
            return utf8(qobject_cast<QLineEdit*>(m_table->cellWidget(row, column))->text().trimmed());
        };
        const std::string name = m_batch.lines[static_cast<std::size_t>(row)].serial;
        const auto its = display.readMass(text(gross));
        const auto empty = display.readMass(text(tare));
        if (!its || !empty) {
            const Error& error = its ? empty.error() : its.error();
            return Error{name + ": " + error.wrong, error.right};
        }
        lines.push_back({name, its.value(), empty.value(), text(analysis)});
    }
    return lines;
}

void ReceiptDialog::tryAccept() {
    const auto read = lines();
    const auto day = when();
    if (read && day) {
        accept();
    } else {
        questions::tell(this, tr("Not yet"), qt(read ? day.error().text() : read.error().text()));
    }
}

} // namespace tarebook
