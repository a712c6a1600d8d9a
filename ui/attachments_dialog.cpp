#include "ui/attachments_dialog.h"

#include "core/shop/card.h"
#include "core/shop/operators.h"
#include "ui/cylinder_acts.h"
#include "ui/desk.h"
#include "ui/kit.h"

#include <QBoxLayout>
#include <QBuffer>
#include <QDialogButtonBox>
#include <QDragEnterEvent>
#include <QFile>
#include <QFileDialog>
#include <QImageReader>
#include <QLabel>
#include <QLocale>
#include <QMimeData>
#include <QPushButton>
#include <QSaveFile>
#include <QTableWidget>
#include <QUrl>

namespace tarebook {
namespace {

constexpr int kMostPictureMegabytes = 256; // unpacked: a small file can hold a picture without end

/// The picture as it was meant to be seen, turned as the camera says; null when it cannot be read.
QImage pictureIn(const std::string& bytes) {
    QByteArray data = QByteArray::fromRawData(bytes.data(), static_cast<qsizetype>(bytes.size()));
    QBuffer buffer(&data);
    QImageReader reader(&buffer);
    reader.setAutoTransform(true);
    QImageReader::setAllocationLimit(kMostPictureMegabytes);
    return reader.read();
}

} // namespace

AttachmentsDialog::AttachmentsDialog(Desk& desk, Sequence entry, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_entry(entry),
      m_table(
          kit::table(QStringLiteral("attachedTable"), {tr("Entry"), tr("Name"), tr("Size"), tr("By")}, this)),
      m_picture(new QLabel(this)), m_words(kit::hint({}, this)) {
    setObjectName(QStringLiteral("attachmentsDialog"));
    setWindowTitle(tr("Photos and papers of entry %1").arg(entry));
    setAcceptDrops(true);
    build();
    connect(&m_desk, &Desk::changed, this, &AttachmentsDialog::refresh);
    refresh();
}

void AttachmentsDialog::build() {
    m_table->setAccessibleName(tr("Files of this entry"));
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_picture->setObjectName(QStringLiteral("attachedPicture"));
    m_picture->setAlignment(Qt::AlignCenter);
    m_picture->setMinimumSize(fontMetrics().height() * 14, fontMetrics().height() * 10);
    m_picture->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Ignored);
    m_words->setObjectName(QStringLiteral("attachedWords"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    for (const auto& [button, name, words] :
         {std::tuple{&m_add, "attachedAdd", tr("&Add a file…")},
          std::tuple{&m_save, "attachedSave", tr("&Save as…")},
          std::tuple{&m_withdraw, "attachedWithdraw", tr("&Withdraw…")}}) {
        *button = buttons->addButton(words, QDialogButtonBox::ActionRole);
        (*button)->setObjectName(QLatin1String(name));
        (*button)->setAutoDefault(false);
    }
    m_add->setEnabled(may(m_desk.shop(), EntryKind::attached));
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &AttachmentsDialog::showChosen);
    connect(m_add, &QPushButton::clicked, this, &AttachmentsDialog::askForFile);
    connect(m_save, &QPushButton::clicked, this, &AttachmentsDialog::askWhere);
    connect(m_withdraw, &QPushButton::clicked, this, &AttachmentsDialog::withdraw);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    const auto entry = m_desk.shop().store().entry(m_entry);
    auto* about = new QLabel(entry ? qt(sentenceOf(m_desk.shop(), entry.value())) : QString(), this);
    about->setWordWrap(true);
    about->setTextFormat(Qt::PlainText);
    auto* row = new QHBoxLayout;
    row->addWidget(m_table, 3);
    row->addWidget(m_picture, 4);
    auto* column = new QVBoxLayout(this);
    column->addWidget(about);
    column->addWidget(kit::hint(
        tr("A photo of the stamped collar, a scanned weight ticket, a certificate: PNG, JPEG or PDF, at most "
           "10 MB each. The file is kept in the shop file, its hash in the journal."),
        this));
    column->addLayout(row, 1);
    column->addWidget(m_words);
    column->addWidget(buttons);
    resize(fontMetrics().height() * 50, fontMetrics().height() * 30);
}

void AttachmentsDialog::refresh() {
    auto found = attachmentsOf(m_desk.shop(), m_entry);
    m_attachments = found ? std::move(found).value() : std::vector<Attachment>();
    m_table->setRowCount(0);
    for (const Attachment& one : m_attachments) {
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, 0, QString::number(one.seq), true);
        auto* name =
            kit::cell(m_table, row, 1,
                      one.withdrawnBy ? tr("%1 (withdrawn)").arg(qt(one.file.name)) : qt(one.file.name));
        QFont font = name->font();
        font.setStrikeOut(one.withdrawnBy.has_value());
        name->setFont(font);
        kit::cell(m_table, row, 2, QLocale().formattedDataSize(static_cast<qint64>(one.file.size)), true);
        kit::cell(m_table, row, 3, qt(one.operatorName));
    }
    kit::fitColumns(m_table, 1);
    if (!m_attachments.empty()) {
        m_table->selectRow(m_table->rowCount() - 1);
    }
    showChosen();
    if (!found) {
        m_words->setText(qt(found.error().text()));
    } else if (m_attachments.empty()) {
        m_words->setText(tr("Nothing yet. Add a file, or drop it here."));
    }
}

const Attachment* AttachmentsDialog::chosen() const {
    const int row = m_table->currentRow();
    return row >= 0 && row < std::ssize(m_attachments) ? &m_attachments[static_cast<std::size_t>(row)]
                                                       : nullptr;
}

void AttachmentsDialog::showChosen() {
    const Attachment* one = chosen();
    m_save->setEnabled(one != nullptr);
    m_withdraw->setEnabled(one != nullptr && !one->withdrawnBy &&
                           may(m_desk.shop(), EntryKind::entryReversed));
    m_image = QImage();
    m_picture->clear();
    if (one == nullptr) {
        return;
    }
    m_words->setText(one->file.note.empty()
                         ? tr("SHA-256 %1").arg(qt(one->file.sha256))
                         : tr("%1 · SHA-256 %2").arg(qt(one->file.note), qt(one->file.sha256)));
    const auto bytes = m_desk.shop().store().attachedFile(one->file.sha256);
    if (!bytes) {
        m_picture->setText(qt(bytes.error().text()));
    } else if (one->file.type == "application/pdf") {
        m_picture->setText(tr("A PDF: save it to read it."));
    } else {
        m_image = pictureIn(bytes.value());
        m_picture->setText(tr("The picture cannot be shown; it can be saved."));
        fitPicture();
    }
    m_picture->setAccessibleName(qt(one->file.name));
}

void AttachmentsDialog::fitPicture() {
    if (!m_image.isNull()) {
        const qreal dots = devicePixelRatioF();
        QPixmap pixmap = QPixmap::fromImage(
            m_image.scaled(m_picture->size() * dots, Qt::KeepAspectRatio, Qt::SmoothTransformation));
        pixmap.setDevicePixelRatio(dots);
        m_picture->setPixmap(pixmap);
    }
}

void AttachmentsDialog::resizeEvent(QResizeEvent* event) {
    QDialog::resizeEvent(event);
    fitPicture();
}

void AttachmentsDialog::dragEnterEvent(QDragEnterEvent* event) {
    if (m_add->isEnabled() && event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void AttachmentsDialog::dropEvent(QDropEvent* event) {
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            add(url.toLocalFile());
        }
    }
}

void AttachmentsDialog::askForFile() {
    const QString path =
        QFileDialog::getOpenFileName(this, tr("A file that belongs to this entry"), {},
                                     tr("Photos and papers (*.png *.jpg *.jpeg *.pdf);;All files (*)"));
    if (!path.isEmpty()) {
        add(path);
    }
}

void AttachmentsDialog::add(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        m_words->setText(tr("Not attached: %1 cannot be read (%2)").arg(path, file.errorString()));
        return;
    }
    // One byte more than is kept tells that it is too large, however large it is.
    const QByteArray bytes = file.read(static_cast<qint64>(kLargestAttachedFile) + 1);
    const Recorded recorded = attach(m_desk.shop(), m_entry, utf8(path), bytes.toStdString(), {});
    if (recorded.ok()) {
        m_desk.notifyRecorded(recorded);
        m_desk.say(tr("Attached to entry %1").arg(m_entry));
    } else {
        m_words->setText(kit::told(recorded, tr("Not attached")));
    }
}

void AttachmentsDialog::askWhere() {
    if (const Attachment* one = chosen()) {
        const QString path = QFileDialog::getSaveFileName(this, tr("Save the file"), qt(one->file.name));
        if (!path.isEmpty()) {
            saveTo(path);
        }
    }
}

void AttachmentsDialog::saveTo(const QString& path) {
    const Attachment* one = chosen();
    if (one == nullptr) {
        return;
    }
    const auto bytes = m_desk.shop().store().attachedFile(one->file.sha256);
    if (!bytes) {
        m_words->setText(qt(bytes.error().text()));
        return;
    }
    QSaveFile file(path);
    const auto size = static_cast<qint64>(bytes.value().size());
    const bool saved =
        file.open(QIODevice::WriteOnly) && file.write(bytes.value().data(), size) == size && file.commit();
    m_words->setText(saved ? tr("Saved: %1").arg(path) : tr("Not saved: %1").arg(file.errorString()));
}

void AttachmentsDialog::withdraw() {
    if (const Attachment* one = chosen()) {
        reverseEntry(m_desk, this, one->seq, qt(one->file.name));
    }
}

} // namespace tarebook
