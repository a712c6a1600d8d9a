#include "ui/shipping_dialog.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/paper_print.h"
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

ShippingDialog::ShippingDialog(Desk& desk, QString batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_batch(std::move(batch)), m_note(kit::hint({}, this)) {
    setObjectName(QStringLiteral("shippingDialog"));
    setWindowTitle(tr("Shipping paper of %1").arg(m_batch));
    auto* text = new QPlainTextEdit(this);
    text->setObjectName(QStringLiteral("shippingText"));
    text->setAccessibleName(tr("The shipping paper"));
    text->setReadOnly(true);
    text->setTabChangesFocus(true);
    text->setFont(QFontDatabase::systemFont(QFontDatabase::FixedFont));
    if (const auto paper = shippingPaperOf(m_desk.shop(), utf8(m_batch))) {
        text->setPlainText(qt(shippingPaperText(paper.value())));
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

void ShippingDialog::keepIssue(const ShippingPaper& paper, const QString& done) {
    const Recorded recorded = issueShippingPaper(m_desk.shop(), paper);
    m_desk.notifyRecorded(recorded);
    m_note->setText(recorded.ok() ? done : kit::told(recorded, tr("Not entered")));
}

bool ShippingDialog::savePdf(const QString& path) {
    const QString where =
        path.isEmpty()
            ? QFileDialog::getSaveFileName(this, windowTitle(),
                                           QStringLiteral("shipping-%1.pdf").arg(m_batch), tr("PDF (*.pdf)"))
            : path;
    if (where.isEmpty()) {
        return false;
    }
    // Anew: the books may have moved while the person chose.
    const auto paper = shippingPaperOf(m_desk.shop(), utf8(m_batch));
    if (!paper) {
        questions::tell(this, tr("No shipping paper"), qt(paper.error().text()));
        return false;
    }
    if (!shippingPaperPdf(paper.value(), where, m_desk.shop().settings().mass == MassUnit::pound)) {
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
    const auto paper = shippingPaperOf(m_desk.shop(), utf8(m_batch));
    if (!paper) {
        questions::tell(this, tr("No shipping paper"), qt(paper.error().text()));
        return;
    }
    drawShippingPaper(paper.value(), printer);
    keepIssue(paper.value(), tr("Printed"));
}

void shippingPaperStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto paper = shippingPaperOf(desk.shop(), utf8(batch));
    if (!paper) {
        questions::tell(parent, QObject::tr("No shipping paper"), qt(paper.error().text()));
        return;
    }
    ShippingDialog(desk, batch, parent).exec();
}

} // namespace tarebook
