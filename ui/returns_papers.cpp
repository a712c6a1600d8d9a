#include "ui/returns_page.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/paper_print.h"
#include "ui/questions.h"

#include <QFileDialog>
#include <QPrintDialog>
#include <QPrinter>

namespace tarebook {

std::optional<Manifest> ReturnsPage::paper() {
    auto manifest = manifestOf(m_desk.shop(), utf8(chosenBatch()));
    if (!manifest) {
        questions::tell(this, tr("No paper"), qt(manifest.error().text()));
        return std::nullopt;
    }
    return std::move(manifest).value();
}

bool ReturnsPage::savePdf(const QString& path) {
    Shop& shop = m_desk.shop();
    if (!paper()) {
        return false;
    }
    const QString where =
        path.isEmpty() ? QFileDialog::getSaveFileName(
                             this, tr("Manifest"), chosenBatch() + QStringLiteral(".pdf"), tr("PDF (*.pdf)"))
                       : path;
    if (where.isEmpty()) {
        return false;
    }
    // Anew: the books may have moved while the person chose.
    const auto manifest = paper();
    if (!manifest) {
        return false;
    }
    if (!manifestPdf(*manifest, where, shop.settings().mass == MassUnit::pound)) {
        questions::tell(this, tr("Not written"), tr("%1 cannot be written.").arg(where));
        return false;
    }
    tell(issueManifest(shop, *manifest), tr("Written: %1").arg(where));
    return true;
}

void ReturnsPage::print() {
    if (!paper()) {
        return;
    }
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    // Anew: the books may have moved while the person chose.
    if (const auto manifest = paper()) {
        drawManifest(*manifest, printer);
        tell(issueManifest(m_desk.shop(), *manifest), tr("Printed"));
    }
}

} // namespace tarebook
