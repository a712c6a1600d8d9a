#include "ui/receipt_dialog.h"

#include "core/shop/moments.h"
#include "core/shop/receipts.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/receipt_columns.h"
#include "ui/sheet_tabs.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {

using namespace receipt;

namespace {

constexpr std::pair<int, const char*> kTakenOff[] = {{oil, "oil"}, {moisture, "moisture"}, {other, "other"}};

} // namespace

ReceiptDialog::ReceiptDialog(Desk& desk, const Batch& batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_batch(batch), m_reference(new QLineEdit(this)),
      m_certificate(new QLineEdit(this)), m_when(new QLineEdit(this)), m_causes(new QLabel(this)),
      m_open(new QLabel(this)), m_tabs(new QTabWidget(this)),
      m_sheet(new SheetTabs(desk, SheetKind::receipt, QStringLiteral("receipt"), m_tabs)) {
    setObjectName(QStringLiteral("receiptDialog"));
    setWindowTitle(tr("Receipt for batch %1").arg(qt(batch.name)));
    m_reference->setObjectName(QStringLiteral("receiptReference"));
    m_certificate->setObjectName(QStringLiteral("receiptCertificate"));
    m_certificate->setPlaceholderText(tr("blank: to come, or one each"));
    m_when->setObjectName(QStringLiteral("receiptWhen"));
    m_when->setPlaceholderText(tr("now; or 2026-09-21"));
    m_causes->setObjectName(QStringLiteral("receiptCauses"));
    m_causes->setWordWrap(true);
    m_causes->setTextFormat(Qt::PlainText);
    m_open->setObjectName(QStringLiteral("receiptOpen"));
    m_open->setWordWrap(true);
    m_table = kit::table(QStringLiteral("receiptTable"),
                         {tr("Cylinder"), tr("Contents"), tr("Sent net"), tr("Gross there"), tr("Tare there"),
                          tr("Difference"), tr("Analysis"), tr("Result"), tr("Oil off"), tr("Moisture off"),
                          tr("Other off"), tr("Certificate"), tr("Empty given")},
                         this);
    for (const BatchLine& line : batch.lines) {
        addLine(line);
    }
    kit::fitColumns(m_table, -1);
    const int line = fontMetrics().height();
    for (int column = gross; column <= given; ++column) {
        m_table->horizontalHeader()->setSectionResizeMode(column, QHeaderView::Interactive);
        m_table->setColumnWidth(column, line * (column == analysis || column == outcome ? 9 : 7));
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* sheet = buttons->addButton(tr("From a &sheet…"), QDialogButtonBox::ActionRole);
    sheet->setObjectName(QStringLiteral("receiptSheet"));
    sheet->setAutoDefault(false);
    auto* enter = buttons->addButton(tr("Enter the receipt"), QDialogButtonBox::AcceptRole);
    enter->setObjectName(QStringLiteral("receiptEnter"));
    connect(sheet, &QPushButton::clicked, this, &ReceiptDialog::chooseSheet);
    connect(m_sheet, &SheetTabs::assigned, this, [this] { (void)takeRows(); });
    connect(buttons, &QDialogButtonBox::accepted, this, &ReceiptDialog::tryAccept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* form = new QFormLayout;
    form->addRow(tr("&Number of the receipt"), m_reference);
    form->addRow(tr("Number of the &certificate"), m_certificate);
    form->addRow(tr("&Received on"), m_when);
    auto* column = new QVBoxLayout(this);
    column->addLayout(form);
    column->addWidget(
        kit::hint(tr("Their weights, as they stand on their paper. What differs from what was sent is "
                     "settled afterwards; what they take off is paid for no more, but was received. A "
                     "cylinder whose weights are still to come is left as it is."),
                  this));
    m_tabs->addTab(m_table, tr("&Weights"));
    column->addWidget(m_tabs, 1);
    column->addWidget(m_causes);
    column->addWidget(m_open);
    column->addWidget(buttons);
    showOpen();
    resize(QSize(line * 72, line * 30).boundedTo(screen()->availableSize()));
}

void ReceiptDialog::addLine(const BatchLine& line) {
    const Display display = m_desk.shop().display();
    const int row = m_table->rowCount();
    m_table->insertRow(row);
    kit::cell(m_table, row, serial, qt(line.serial));
    kit::cell(m_table, row, contents, qt(line.content));
    kit::cell(m_table, row, sent, qt(display.mass(line.net)), true);
    kit::cell(m_table, row, difference, {}, true);
    const auto edit = [&](int column, const char* name, const QString& value) {
        auto* its = new QLineEdit(value, m_table);
        its->setObjectName(QLatin1String(name) + qt(line.serial));
        its->setAccessibleName(
            tr("%1 of %2").arg(m_table->horizontalHeaderItem(column)->text(), qt(line.serial)));
        m_table->setCellWidget(row, column, its);
        connect(its, &QLineEdit::textChanged, this, [this, row] {
            showDifference(row);
            showOpen();
        });
    };
    edit(gross, "receiptGross:", {});
    edit(tare, "receiptTare:", qt(display.mass(line.tare)));
    edit(analysis, "receiptAnalysis:", {});
    edit(oil, "receiptOil:", {});
    edit(moisture, "receiptMoisture:", {});
    edit(other, "receiptOther:", {});
    edit(certificate, "receiptCertificate:", {});
    edit(given, "receiptGiven:", {});
    addResult(row, line.serial);
}

void ReceiptDialog::addResult(int row, const std::string& serial) {
    auto* box = new QComboBox(m_table);
    box->setObjectName(QStringLiteral("receiptResult:") + qt(serial));
    box->setAccessibleName(tr("Result of the analysis of %1").arg(qt(serial)));
    box->addItem(tr("not stated"), static_cast<int>(AnalysisResult::notStated));
    for (const AnalysisResult one : {AnalysisResult::passed, AnalysisResult::impure, AnalysisResult::mixed,
                                     AnalysisResult::contaminated}) {
        box->addItem(qt(std::string(analysisResultWord(one))), static_cast<int>(one));
    }
    m_table->setCellWidget(row, outcome, box);
    connect(box, &QComboBox::currentIndexChanged, this, &ReceiptDialog::showOpen);
}

bool ReceiptDialog::tareChanged(int row) const {
    const Display display = m_desk.shop().display();
    const std::string text = utf8(field(row, tare)->text().trimmed());
    const auto its = display.readMass(text);
    const auto offered = display.readMass(display.mass(m_batch.lines[static_cast<std::size_t>(row)].tare));
    return !text.empty() && !(its && offered && its.value() == offered.value());
}

bool ReceiptDialog::leftOpen(int row) const {
    const auto blank = [&](int column) { return field(row, column)->text().trimmed().isEmpty(); };
    const auto* box = qobject_cast<const QComboBox*>(m_table->cellWidget(row, outcome));
    return blank(gross) && !tareChanged(row) && blank(analysis) && blank(oil) && blank(moisture) &&
           blank(other) && blank(certificate) && blank(given) && box->currentIndex() == 0;
}

void ReceiptDialog::showOpen() {
    int open = 0;
    for (int row = 0; row < m_table->rowCount(); ++row) {
        // While the table is being filled a row has not all of its cells.
        open += m_table->cellWidget(row, outcome) == nullptr || leftOpen(row) ? 1 : 0;
    }
    m_open->setText(open == 0 ? tr("Every cylinder has its line.")
                              : tr("%1 of %2 left open: enter them when their weights come.")
                                    .arg(open)
                                    .arg(m_table->rowCount()));
}

QLineEdit* ReceiptDialog::field(int row, int column) const {
    return qobject_cast<QLineEdit*>(m_table->cellWidget(row, column));
}

ReceiptPapers ReceiptDialog::papers() const {
    return {utf8(m_reference->text().trimmed()), utf8(m_certificate->text().trimmed())};
}

Result<std::optional<Instant>> ReceiptDialog::when() const {
    return readMoment(m_desk.shop(), utf8(m_when->text()));
}

void ReceiptDialog::showDifference(int row) {
    const Display display = m_desk.shop().display();
    const auto its = display.readMass(utf8(field(row, gross)->text()));
    const auto empty = display.readMass(utf8(field(row, tare)->text()));
    if (!its || !empty) {
        m_table->item(row, difference)->setText({});
        showCauses();
        return;
    }
    const std::int64_t was = m_batch.lines[static_cast<std::size_t>(row)].net.milligrams();
    const std::int64_t off = its.value().milligrams() - empty.value().milligrams() - was;
    m_table->item(row, difference)
        ->setText(tr("%1 (%2 %)")
                      .arg(qt(display.mass(Mass::fromMilligrams(off))))
                      .arg(was == 0 ? 0.0 : 100.0 * static_cast<double>(off) / static_cast<double>(was), 0,
                           'f', 1));
    showCauses();
}

/// Of what can be read so far: a person sees a slip of the keys while the paper is at hand.
void ReceiptDialog::showCauses() {
    std::vector<ReceiptLine> read;
    for (int row = 0; row < m_table->rowCount(); ++row) {
        if (auto line = lineAt(row)) {
            read.push_back(std::move(line).value());
        }
    }
    QStringList told;
    for (const ReceiptDifference& one : compareReceipt(m_desk.shop(), m_batch, read)) {
        if (!one.explanations.empty()) {
            told << qt(one.explanations.front().evidence + ". " + one.explanations.front().advice);
        }
    }
    constexpr qsizetype kMostTold = 3;
    const qsizetype more = told.size() - kMostTold;
    if (more > 0) {
        told.erase(told.begin() + kMostTold, told.end());
        told << tr("and %1 more").arg(more);
    }
    m_causes->setText(told.join(QLatin1Char('\n')));
}

Result<ReceiptLine> ReceiptDialog::lineAt(int row) const {
    const Display display = m_desk.shop().display();
    const auto text = [&](int column) { return utf8(field(row, column)->text().trimmed()); };
    const std::string name = m_batch.lines[static_cast<std::size_t>(row)].serial;
    const auto about = [&](const Error& error) { return Error{name + ": " + error.wrong, error.right}; };
    if (text(gross).empty()) {
        return about({tareChanged(row) ? "a tare of its own and no gross" : "no gross",
                      "write it as it stands on their paper, or blank what else was written in the row: it "
                      "then stays open"});
    }
    const auto its = display.readMass(text(gross));
    const auto empty = display.readMass(text(tare));
    if (!its || !empty) {
        return about(its ? empty.error() : its.error());
    }
    ReceiptLine line{name, its.value(), empty.value(), text(analysis), text(certificate)};
    line.exchange = text(given);
    for (const auto& [column, what] : kTakenOff) {
        const auto off = text(column).empty() ? Result<Mass>(Mass()) : display.readMass(text(column));
        if (!off) {
            return about(off.error());
        }
        if (off.value() > Mass()) {
            line.deductions.push_back({what, off.value()});
        }
    }
    line.result = static_cast<AnalysisResult>(
        qobject_cast<QComboBox*>(m_table->cellWidget(row, outcome))->currentData().toInt());
    const auto sound = line.sound();
    return sound ? Result<ReceiptLine>(std::move(line)) : sound.error();
}

Result<std::vector<ReceiptLine>> ReceiptDialog::lines() const {
    std::vector<ReceiptLine> lines;
    for (int row = 0; row < m_table->rowCount(); ++row) {
        if (leftOpen(row)) {
            continue;
        }
        auto line = lineAt(row);
        if (!line) {
            return line.error();
        }
        lines.push_back(std::move(line).value());
    }
    if (lines.empty()) {
        return Error{"no line of the receipt is entered",
                     "write the gross of a cylinder, as it stands there"};
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
