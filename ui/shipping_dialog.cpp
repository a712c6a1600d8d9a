#include "ui/shipping_dialog.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/paper_print.h"
#include "ui/paper_sheet.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QFileDialog>
#include <QFontDatabase>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPrintDialog>
#include <QPrinter>
#include <QPrinterInfo>
#include <QPushButton>

#include <utility>

namespace tarebook {
namespace {

bool asksForConsignment(const Shop& shop) {
    return shop.rulebook().table("consignment") != nullptr;
}

Result<BatchPaper> paperOf(Shop& shop, const QString& batch) {
    if (asksForConsignment(shop)) {
        const auto sheet = consignmentSheetOf(shop, utf8(batch));
        return sheet ? Result<BatchPaper>(batchPaperOf(sheet.value())) : sheet.error();
    }
    const auto paper = shippingPaperOf(shop, utf8(batch));
    return paper ? Result<BatchPaper>(batchPaperOf(paper.value())) : paper.error();
}

} // namespace

QString shippingPaperName(const Shop& shop) {
    return asksForConsignment(shop) ? QObject::tr("Consignment sheet…") : QObject::tr("Shipping paper…");
}

ShippingDialog::ShippingDialog(Desk& desk, QString batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_batch(std::move(batch)), m_note(kit::hint({}, this)) {
    setObjectName(QStringLiteral("shippingDialog"));
    auto* text = new QPlainTextEdit(this);
    text->setObjectName(QStringLiteral("shippingText"));
    text->setAccessibleName(tr("The paper"));
    text->setReadOnly(true);
    text->setTabChangesFocus(true);
    text->setFont(QFontDatabase::systemFont(QFontDatabase::FixedFont));
    if (const auto paper = paperOf(m_desk.shop(), m_batch)) {
        setWindowTitle(paper.value().title);
        text->setPlainText(paper.value().text);
    }
    m_note->setObjectName(QStringLiteral("shippingNote"));
    auto* print = new QPushButton(tr("&Print…"), this);
    print->setObjectName(QStringLiteral("shippingPrint"));
    auto* pdf = new QPushButton(tr("As P&DF…"), this);
    pdf->setObjectName(QStringLiteral("shippingPdf"));
    auto* close = new QPushButton(tr("&Close"), this);
    close->setObjectName(QStringLiteral("shippingClose"));
    const bool printers = !QPrinterInfo::availablePrinters().isEmpty();
    print->setEnabled(printers);
    kit::makePrimary(printers ? print : pdf);
    m_note->setText(printers ? QString() : tr("This machine has no printer: write a PDF."));
    auto* buttons = new QHBoxLayout;
    for (QPushButton* button : {print, pdf, close}) {
        buttons->addWidget(button);
    }
    buttons->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->addWidget(text, 1);
    column->addWidget(m_note);
    column->addLayout(buttons);
    connect(print, &QPushButton::clicked, this, &ShippingDialog::print);
    connect(pdf, &QPushButton::clicked, this, [this] { (void)savePdf({}); });
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    const int line = fontMetrics().height();
    resize(line * 48, line * 32);
}

void ShippingDialog::keepIssue(const BatchPaper& paper, const QString& done) {
    const Recorded recorded = paper.issue(m_desk.shop());
    m_desk.notifyRecorded(recorded);
    m_note->setText(recorded.ok() ? done : kit::told(recorded, tr("Not entered")));
}

bool ShippingDialog::savePdf(const QString& path) {
    // Anew: the books may have moved while the dialog was open.
    const auto paper = paperOf(m_desk.shop(), m_batch);
    if (!paper) {
        questions::tell(this, tr("No paper"), qt(paper.error().text()));
        return false;
    }
    const QString where =
        path.isEmpty()
            ? QFileDialog::getSaveFileName(this, windowTitle(), paper.value().fileName, tr("PDF (*.pdf)"))
            : path;
    if (where.isEmpty()) {
        return false;
    }
    if (!paperPdf(where, paper.value().title, m_desk.shop().settings().mass == MassUnit::pound,
                  paper.value().draw)) {
        questions::tell(this, tr("Not written"), tr("%1 cannot be written.").arg(where));
        return false;
    }
    keepIssue(paper.value(), tr("Written: %1").arg(where));
    return true;
}

void ShippingDialog::print() {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    // Anew: the books may have moved while the person chose.
    const auto paper = paperOf(m_desk.shop(), m_batch);
    if (!paper) {
        questions::tell(this, tr("No paper"), qt(paper.error().text()));
        return;
    }
    drawPaper(printer, paper.value().draw);
    keepIssue(paper.value(), tr("Printed"));
}

void shippingPaperStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto paper = paperOf(desk.shop(), batch);
    if (!paper) {
        questions::tell(parent, QObject::tr("No paper"), qt(paper.error().text()));
        return;
    }
    ShippingDialog(desk, batch, parent).exec();
}

} // namespace tarebook
