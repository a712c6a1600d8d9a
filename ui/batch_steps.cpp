#include "ui/batch_steps.h"

#include "core/shop/moments.h"
#include "core/shop/receipts.h"
#include "core/shop/returns.h"
#include "ui/desk.h"
#include "ui/differences_dialog.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/paper_print.h"
#include "ui/questions.h"
#include "ui/receipt_dialog.h"
#include "ui/settle_dialog.h"

#include <QPrintPreviewDialog>
#include <QPrinter>

namespace tarebook {
namespace {

void tell(Desk& desk, QWidget* parent, const Recorded& recorded, const QString& done) {
    desk.notifyRecorded(recorded);
    if (recorded.ok()) {
        desk.say(done);
    } else {
        questions::tell(parent, QObject::tr("Not entered"), kit::told(recorded, QObject::tr("Not entered")));
    }
}

/// What the receipt leaves to be decided, for the line that says it was entered.
QString leftToDecide(const Recorded& recorded) {
    for (const Finding& one : recorded.findings) {
        if (one.rule == "batch.difference") {
            return QStringLiteral(". ") + qt(one.headline);
        }
    }
    return {};
}

} // namespace

void shipStep(Desk& desk, QWidget* parent, const QString& batch) {
    FactsAsked asked;
    asked.title = QObject::tr("Batch %1 left").arg(batch);
    asked.explanation =
        QObject::tr("From then on its cylinders are away. Print the manifest before it goes.");
    asked.facts = {{QStringLiteral("carrier"), QObject::tr("Who &carries it"), QObject::tr("own van")},
                   {QStringLiteral("when"), QObject::tr("&When"), QObject::tr("now; or 2026-09-14 15:30")}};
    asked.yes = QObject::tr("It left");
    asked.problem = [&desk](const Facts& facts) {
        const auto when = readMoment(desk.shop(), utf8(facts.at(QStringLiteral("when"))));
        return !when ? qt(when.error().text())
               : facts.at(QStringLiteral("carrier")).isEmpty()
                   ? QObject::tr("Name who carries it, your own people too.")
                   : QString();
    };
    const auto facts = questions::askFacts(parent, asked);
    if (!facts) {
        return;
    }
    const auto when = readMoment(desk.shop(), utf8(facts->at(QStringLiteral("when"))));
    if (when) {
        tell(desk, parent,
             shipBatch(desk.shop(), utf8(batch), utf8(facts->at(QStringLiteral("carrier"))), when.value()),
             QObject::tr("Batch %1 left").arg(batch));
    }
}

void receiveStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto its = tarebook::batch(desk.shop(), utf8(batch));
    if (!its) {
        questions::tell(parent, QObject::tr("No batch"), qt(its.error().text()));
        return;
    }
    Batch open = its.value(); // what a first part of the receipt has is not asked for again
    std::erase_if(open.lines, [](const BatchLine& line) { return line.receipt.has_value() || line.empty(); });
    ReceiptDialog dialog(desk, open, parent);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    const auto lines = dialog.lines();
    const auto when = dialog.when();
    if (lines && when) {
        const std::size_t left = open.lines.size() - lines.value().size();
        const Recorded recorded =
            receiveBatch(desk.shop(), its.value().name, dialog.papers(), lines.value(), when.value());
        tell(desk, parent, recorded,
             (left == 0 ? QObject::tr("Receipt entered")
                        : QObject::tr("Receipt entered; %1 of its cylinders stay open").arg(left)) +
                 leftToDecide(recorded));
    }
}

void settleStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto its = tarebook::batch(desk.shop(), utf8(batch));
    if (its) {
        SettleDialog(desk, its.value(), parent).exec();
    }
}

void certificateStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto number = questions::askText(
        parent, QObject::tr("Certificate of batch %1").arg(batch),
        QObject::tr("The number of the reclaimer's certificate, as it stands on the paper:"),
        QObject::tr("File it"));
    if (number) {
        tell(desk, parent, fileCertificate(desk.shop(), utf8(batch), utf8(*number)),
             QObject::tr("Certificate of batch %1 filed").arg(batch));
    }
}

void differencesStep(Desk& desk, QWidget* parent, const QString& batch) {
    DifferencesDialog(desk, batch, parent).exec();
}

void previewStep(Desk& desk, QWidget* parent, const QString& batch) {
    const auto manifest = manifestOf(desk.shop(), utf8(batch));
    if (!manifest) {
        questions::tell(parent, QObject::tr("No paper"), qt(manifest.error().text()));
        return;
    }
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(
        QPageSize(desk.shop().settings().mass == MassUnit::pound ? QPageSize::Letter : QPageSize::A4));
    QPrintPreviewDialog dialog(&printer, parent);
    dialog.setObjectName(QStringLiteral("manifestPreview"));
    dialog.setWindowTitle(QObject::tr("Manifest of %1").arg(batch));
    QObject::connect(&dialog, &QPrintPreviewDialog::paintRequested, &dialog,
                     [&](QPrinter* on) { drawManifest(manifest.value(), *on); });
    const int line = dialog.fontMetrics().height();
    dialog.resize(line * 52, line * 44);
    dialog.exec();
}

} // namespace tarebook
