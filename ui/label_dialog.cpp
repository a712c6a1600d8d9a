#include "ui/label_dialog.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/memory.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QPrintDialog>
#include <QPrinter>
#include <QPrinterInfo>
#include <QPushButton>
#include <QRegularExpression>

#include <algorithm>
#include <memory>
#include <utility>

namespace tarebook {
namespace {

const auto kForm = QStringLiteral("labels/form");
constexpr int kPreviewLines = 24;
constexpr qreal kPreviewDotsPerInch = 203; // of a common label printer

/// A serial may have a slash in it, which a file name may not.
QString fileNameOf(const QString& beginning, const std::string& name) {
    static const QRegularExpression kUnfit(QStringLiteral("[^\\w.-]+"),
                                           QRegularExpression::UseUnicodePropertiesOption);
    return beginning + qt(name).replace(kUnfit, QStringLiteral("-"));
}

/// Tells the desk, and the person where it was not entered.
bool entered(Desk& desk, QWidget* window, const Recorded& recorded) {
    desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(window, QObject::tr("Not entered"), kit::told(recorded, QObject::tr("Not entered")));
    }
    return recorded.ok();
}

} // namespace

LabelDialog::LabelDialog(LabelJob job, bool letter, QWidget* parent)
    : QDialog(parent), m_job(std::move(job)), m_form(new QComboBox(this)), m_preview(new QLabel(this)),
      m_note(kit::hint({}, this)), m_print(new QPushButton(tr("&Print…"), this)) {
    setObjectName(QStringLiteral("labelDialog"));
    setWindowTitle(m_job.title);
    m_form->setObjectName(QStringLiteral("labelForm"));
    m_form->addItem(tr("label, 4 × 6 in"), static_cast<int>(LabelForm::inches4x6));
    m_form->addItem(tr("label from a roll, 62 mm wide"), static_cast<int>(LabelForm::mm62));
    m_form->addItem(letter ? tr("sheet, letter") : tr("sheet, A4"),
                    static_cast<int>(letter ? LabelForm::letter : LabelForm::a4));
    m_form->setCurrentIndex(std::clamp(programMemory().value(kForm).toInt(), 0, m_form->count() - 1));
    m_preview->setObjectName(QStringLiteral("labelPreview"));
    m_preview->setAccessibleName(tr("The first page"));
    m_preview->setAlignment(Qt::AlignCenter);
    m_preview->setMinimumSize(fontMetrics().height() * kPreviewLines, fontMetrics().height() * kPreviewLines);
    m_note->setObjectName(QStringLiteral("labelNote"));
    // Room for two lines, so that the picture keeps clear of them.
    m_note->setMinimumHeight(fontMetrics().lineSpacing() * 2);
    m_note->setAlignment(Qt::AlignTop);
    m_print->setObjectName(QStringLiteral("labelPrint"));
    auto* pdf = new QPushButton(tr("As P&DF…"), this);
    pdf->setObjectName(QStringLiteral("labelPdf"));
    auto* close = new QPushButton(tr("&Close"), this);
    close->setObjectName(QStringLiteral("labelClose"));
    const bool printers = !QPrinterInfo::availablePrinters().isEmpty();
    m_print->setEnabled(printers);
    kit::makePrimary(printers ? m_print : pdf);
    auto* top = new QFormLayout;
    top->addRow(tr("Printed &on"), m_form);
    auto* buttons = new QHBoxLayout;
    for (QPushButton* button : {m_print, pdf, close}) {
        buttons->addWidget(button);
    }
    buttons->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->addLayout(top);
    column->addWidget(m_preview, 1);
    column->addWidget(m_note);
    column->addLayout(buttons);
    connect(m_form, &QComboBox::currentIndexChanged, this, [this](int chosen) {
        programMemory().setValue(kForm, chosen);
        preview();
    });
    connect(m_print, &QPushButton::clicked, this, &LabelDialog::print);
    connect(pdf, &QPushButton::clicked, this, [this] { (void)savePdf({}); });
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    kit::roomyLabels(this);
    preview();
}

LabelForm LabelDialog::form() const {
    return static_cast<LabelForm>(m_form->currentData().toInt());
}

LabelMaker LabelDialog::maker() const {
    return [pages = m_job.pages, form = form()](qreal dots) { return pages(form, dots); };
}

void LabelDialog::preview() {
    constexpr qreal kMillimetresAnInch = 25.4;
    const auto pages = maker()(kPreviewDotsPerInch / kMillimetresAnInch);
    const QImage image = labelImage(pages.front(), kPreviewDotsPerInch);
    const qreal ratio = devicePixelRatioF();
    QPixmap shown = QPixmap::fromImage(
        image.scaled(m_preview->minimumSize() * ratio, Qt::KeepAspectRatio, Qt::SmoothTransformation));
    shown.setDevicePixelRatio(ratio);
    m_preview->setPixmap(shown);
    const QSizeF size = pages.front().millimetres;
    m_note->setText(
        tr("%1, the first is %2 × %3 mm.%4")
            .arg(pages.size() == 1 ? tr("One page") : tr("%1 pages").arg(pages.size()))
            .arg(size.width(), 0, 'f', 0)
            .arg(size.height(), 0, 'f', 0)
            .arg(m_print->isEnabled() ? QString() : tr(" This machine has no printer: write a PDF.")));
}

bool LabelDialog::savePdf(const QString& path) {
    const QString where =
        path.isEmpty() ? QFileDialog::getSaveFileName(
                             this, m_job.title, m_job.fileName + QStringLiteral(".pdf"), tr("PDF (*.pdf)"))
                       : path;
    if (where.isEmpty()) {
        return false;
    }
    if (!labelPdf(maker(), where, m_job.title)) {
        questions::tell(this, tr("Not written"), tr("%1 cannot be written.").arg(where));
        return false;
    }
    told(tr("Written: %1").arg(where));
    return true;
}

void LabelDialog::print() {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() == QDialog::Accepted) {
        printLabels(maker(), printer);
        told(tr("Printed"));
    }
}

/// It has left the program: the books keep it, and the picture shows the next one.
void LabelDialog::told(const QString& done) {
    const bool kept = !m_job.issue || m_job.issue(this);
    preview();
    m_note->setText(kept ? done : tr("%1, but not entered as issued").arg(done));
}

void showTags(Desk& desk, QWidget* parent, const std::vector<std::string>& serials) {
    std::vector<CylinderTag> tags;
    for (const std::string& serial : serials) {
        auto tag = tagOf(desk.shop(), serial);
        if (!tag) {
            questions::tell(parent, QObject::tr("No tag"), qt(tag.error().text()));
            return;
        }
        tags.push_back(std::move(tag).value());
    }
    if (tags.empty()) {
        questions::tell(parent, QObject::tr("No tag"), QObject::tr("Choose a cylinder first."));
        return;
    }
    LabelJob job;
    job.title = QObject::tr("Tag of %1").arg(qt(tags.front().serial));
    job.fileName = fileNameOf(QStringLiteral("tag-"), tags.front().serial);
    const auto shown = std::make_shared<std::vector<CylinderTag>>(std::move(tags));
    job.pages = [shown](LabelForm form, qreal dots) { return tagPages(*shown, form, dots); };
    job.issue = [shown, &desk](QWidget* window) {
        const Recorded recorded = issueTags(desk.shop(), *shown);
        for (CylinderTag& tag : *shown) {
            tag.issue.number += recorded.ok() ? 1 : 0;
        }
        return entered(desk, window, recorded);
    };
    LabelDialog(job, desk.shop().settings().mass == MassUnit::pound, parent).exec();
}

void showSlip(Desk& desk, QWidget* parent, const std::string& person) {
    const auto slip = slipOf(desk.shop(), person);
    if (!slip) {
        questions::tell(parent, QObject::tr("No slip"), qt(slip.error().text()));
        return;
    }
    LabelJob job;
    job.title = QObject::tr("Slip for %1").arg(qt(slip.value().person));
    job.fileName = fileNameOf(QStringLiteral("slip-"), slip.value().person);
    const auto shown = std::make_shared<CheckOutSlip>(slip.value());
    job.pages = [shown](LabelForm form, qreal dots) { return slipPages(*shown, form, dots); };
    job.issue = [shown, &desk](QWidget* window) {
        const Recorded recorded = issueSlip(desk.shop(), *shown);
        shown->issue.number += recorded.ok() ? 1 : 0;
        return entered(desk, window, recorded);
    };
    LabelDialog(job, desk.shop().settings().mass == MassUnit::pound, parent).exec();
}

} // namespace tarebook
