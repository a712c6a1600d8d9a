#include "ui/copies_dialog.h"

#include "ui/kit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHeaderView>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QPushButton>
#include <QTableWidget>

namespace tarebook {
namespace {

constexpr int kMostShown = 200;

QString countOf(Sequence entries) {
    return QLocale().toString(static_cast<qlonglong>(entries));
}

} // namespace

CopiesDialog::CopiesDialog(const QString& shopPath, Shop* shop, const Clock& clock, QWidget* parent)
    : QDialog(parent), m_path(shopPath), m_shop(shop), m_clock(clock),
      m_table(kit::table(QStringLiteral("copiesTable"),
                         {tr("Taken"), tr("Entries"), tr("By going back to it"), tr("File")}, this)),
      m_words(new QLabel(this)), m_lost(new QListWidget(this)) {
    setObjectName(QStringLiteral("copiesDialog"));
    setWindowTitle(tr("Copies of this shop"));
    m_words->setObjectName(QStringLiteral("copiesWords"));
    m_words->setWordWrap(true);
    m_lost->setObjectName(QStringLiteral("copiesLost"));
    m_lost->setAccessibleName(tr("Entries that would be lost"));
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* other = buttons->addButton(tr("&Another file…"), QDialogButtonBox::ActionRole);
    other->setObjectName(QStringLiteral("copiesOther"));
    m_restore = buttons->addButton(tr("&Restore this copy…"), QDialogButtonBox::ActionRole);
    m_restore->setObjectName(QStringLiteral("copiesRestore"));
    kit::makePrimary(m_restore);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(other, &QPushButton::clicked, this, &CopiesDialog::takeOther);
    connect(m_restore, &QPushButton::clicked, this, &CopiesDialog::decide);
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &CopiesDialog::showRow);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(
        tr("A copy is made when the shop is opened and once a day, where the books have changed, and "
           "verified: the last of "
           "every hour for two days, of every day for a month, of every month for two years, then of every "
           "year. They lie "
           "beside the shop file; a disk that fails takes both, so back up to another place as well."),
        this));
    column->addWidget(m_table, 3);
    column->addWidget(m_words);
    column->addWidget(m_lost, 2);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(line * 52, line * 32);
    for (const CopyRow& row : copyRows(utf8(shopPath), shop, clock)) {
        addRow(row);
    }
    if (m_rows.empty()) {
        m_words->setText(tr("No copy has been kept yet."));
        m_restore->setEnabled(false);
        m_lost->hide();
    } else {
        m_table->selectRow(0);
    }
}

void CopiesDialog::addRow(const CopyRow& row) {
    const int place = m_table->rowCount();
    m_table->insertRow(place);
    const Zone zone = m_shop != nullptr ? m_shop->zone() : Zone::utc();
    const QStringList texts = {qt(zone.localText(row.copy.taken)),
                               row.standing.problem.empty() ? countOf(row.standing.entries) : QString(),
                               qt(row.words), QFileInfo(qt(row.copy.path)).fileName()};
    for (int column = 0; column < texts.size(); ++column) {
        auto* item = new QTableWidgetItem(texts[column]);
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        item->setToolTip(column == 3 ? qt(row.copy.path) : texts[column]);
        m_table->setItem(place, column, item);
    }
    m_table->resizeColumnsToContents();
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_rows.push_back(row);
}

void CopiesDialog::showRow() {
    const int place = m_table->currentRow();
    m_lost->clear();
    if (place < 0 || place >= std::ssize(m_rows)) {
        return;
    }
    const CopyRow& row = m_rows[static_cast<std::size_t>(place)];
    m_restore->setEnabled(row.standing.problem.empty());
    m_words->setText(row.standing.problem.empty() ? tr("Going back to it: %1.").arg(qt(row.words))
                                                  : tr("No use: %1").arg(qt(row.words)));
    if (m_shop != nullptr && row.standing.problem.empty()) {
        for (const std::string& sentence : lostSentences(*m_shop, row.standing, kMostShown)) {
            m_lost->addItem(qt(sentence));
        }
        if (row.standing.lost > kMostShown) {
            m_lost->addItem(tr("… and %1 more").arg(countOf(row.standing.lost - kMostShown)));
        }
    }
    m_lost->setVisible(m_lost->count() > 0);
}

void CopiesDialog::takeOther() {
    const QString path = QFileDialog::getOpenFileName(
        this, tr("A copy of this shop"), QFileInfo(m_path).path(), tr("Shops (*.tarebook);;All files (*)"));
    if (!path.isEmpty()) {
        const QFileInfo file(path);
        addRow(copyRow({utf8(path), Instant::fromSeconds(file.lastModified().toSecsSinceEpoch())}, m_shop,
                       m_clock));
        m_table->selectRow(m_table->rowCount() - 1);
    }
}

void CopiesDialog::decide() {
    const int place = m_table->currentRow();
    if (place < 0) {
        return;
    }
    const CopyRow& row = m_rows[static_cast<std::size_t>(place)];
    if (questions::ask(this, tr("Go back to this copy?"),
                       tr("%1. The shop file of now is kept beside it under another name.")
                           .arg(qt(row.words).replace(0, 1, qt(row.words).left(1).toUpper())),
                       tr("Restore it"))) {
        m_chosen = qt(row.copy.path);
        accept();
    }
}

} // namespace tarebook
