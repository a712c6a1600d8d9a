#include "ui/rulebook_window.h"

#include "core/base/text.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/theme.h"

#include <QApplication>
#include <QBoxLayout>
#include <QComboBox>
#include <QDateEdit>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QScrollArea>
#include <QSplitter>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kRowNumber = Qt::UserRole;
const QString kCoverage = QStringLiteral("coverage");

/// Section, source and status stand below the row, not in its columns.
bool aboutTheRow(const std::string& column) {
    return column == "section" || column == "source" || column == "status";
}

/// `max_filling_density` as a person reads it.
QString columnText(const std::string& column) {
    return qt(column).replace(QLatin1Char('_'), QLatin1Char(' '));
}

/// `un-numbers` as a person reads it.
QString tableText(const std::string& name) {
    QStringList words = qt(name).split(QLatin1Char('-'));
    for (QString& word : words) {
        const bool letters = word == QStringLiteral("un") || word == QStringLiteral("gwp");
        word = letters ? word.toUpper() : word;
    }
    return words.join(QLatin1Char(' '));
}

QString firmnessText(Firmness firmness) {
    const QString word = qt(firmnessWord(firmness));
    return word.isEmpty() ? QObject::tr("read in the text") : word;
}

} // namespace

RulebookWindow::RulebookWindow(Desk& desk, QWidget* parent) : QDialog(parent), m_desk(desk) {
    setObjectName(QStringLiteral("rulebookWindow"));
    setWindowTitle(tr("Rulebooks"));
    auto* column = new QVBoxLayout(this);
    column->addWidget(buildChoice());
    auto* middle = new QSplitter(Qt::Horizontal, this);
    middle->setChildrenCollapsible(false);
    middle->addWidget(buildTables());
    middle->addWidget(buildRows());
    middle->addWidget(buildRow());
    middle->setHandleWidth(fontMetrics().height() / 2);
    middle->setStretchFactor(0, 0);
    middle->setStretchFactor(1, 1);
    middle->setStretchFactor(2, 0);
    column->addWidget(middle, 1);
    kit::roomyLabels(this);
    const int line = fontMetrics().height();
    resize(line * 80, line * 46);
    middle->setSizes({line * 17, line * 39, line * 24});
    connect(&m_desk, &Desk::changed, this, [this] {
        m_uses.reset();
        showRow();
    });
    load();
}

QWidget* RulebookWindow::buildChoice() {
    auto* part = new QWidget(this);
    auto* row = new QHBoxLayout(part);
    row->setContentsMargins(0, 0, 0, 0);
    m_which = new QComboBox(part);
    m_which->setObjectName(QStringLiteral("rulebookWhich"));
    for (const std::string& name : Rulebook::names()) {
        m_which->addItem(qt(name).toUpper(), qt(name));
    }
    m_which->setCurrentIndex(m_which->findData(qt(m_desk.shop().settings().rulebook)));
    const Date today = m_desk.shop().today();
    m_day = new QDateEdit(QDate(today.month().year(), today.month().month(), today.day()), part);
    m_day->setObjectName(QStringLiteral("rulebookDay"));
    m_day->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
    m_day->setCalendarPopup(true);
    m_title = new QLabel(part);
    m_title->setObjectName(QStringLiteral("rulebookTitle"));
    m_title->setWordWrap(true);
    auto* which = new QLabel(tr("&Rulebook"), part);
    which->setBuddy(m_which);
    auto* day = new QLabel(tr("as it holds &on"), part);
    day->setBuddy(m_day);
    row->addWidget(which);
    row->addWidget(m_which);
    row->addWidget(day);
    row->addWidget(m_day);
    row->addSpacing(fontMetrics().height());
    row->addWidget(m_title, 1);
    connect(m_which, &QComboBox::currentIndexChanged, this, &RulebookWindow::load);
    connect(m_day, &QDateEdit::dateChanged, this, &RulebookWindow::load);
    return part;
}

QWidget* RulebookWindow::buildTables() {
    m_tables = new QListWidget(this);
    m_tables->setObjectName(QStringLiteral("rulebookTables"));
    m_tables->setAccessibleName(tr("Tables of the rulebook"));
    m_tables->setFrameShape(QFrame::NoFrame);
    m_tables->setWordWrap(true);
    m_tables->setSpacing(fontMetrics().height() / 5);
    connect(m_tables, &QListWidget::currentRowChanged, this, &RulebookWindow::showTable);
    return m_tables;
}

QWidget* RulebookWindow::buildRows() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    m_find = new QLineEdit(part);
    m_find->setObjectName(QStringLiteral("rulebookFind"));
    m_find->setPlaceholderText(tr("Find in this table"));
    m_find->setAccessibleName(tr("Find in this table"));
    m_find->setClearButtonEnabled(true);
    m_rows = kit::table(QStringLiteral("rulebookRows"), {}, part);
    m_rows->setAccessibleName(tr("Rows of the table"));
    column->addWidget(m_find);
    column->addWidget(m_rows, 1);
    connect(m_find, &QLineEdit::textChanged, this, &RulebookWindow::filter);
    connect(m_rows, &QTableWidget::currentCellChanged, this, &RulebookWindow::showRow);
    return part;
}

QWidget* RulebookWindow::buildRow() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    m_rowTitle = kit::heading({}, part);
    m_rowTitle->setObjectName(QStringLiteral("rulebookRowTitle"));
    m_rowTitle->setWordWrap(true);
    m_rowText = new QLabel(part);
    m_rowText->setObjectName(QStringLiteral("rulebookRow"));
    m_rowText->setWordWrap(true);
    m_rowText->setTextFormat(Qt::RichText);
    m_rowText->setAlignment(Qt::AlignTop);
    m_rowText->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* area = new QScrollArea(part);
    area->setObjectName(QStringLiteral("rulebookRowArea"));
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setWidget(m_rowText);
    m_usesTitle = kit::hint({}, part);
    m_usesTitle->setObjectName(QStringLiteral("rulebookUsesTitle"));
    m_usesList = new QListWidget(part);
    m_usesList->setObjectName(QStringLiteral("rulebookUses"));
    m_usesList->setAccessibleName(tr("Where this applies in the shop"));
    m_usesList->setFrameShape(QFrame::NoFrame);
    m_usesList->setToolTip(tr("Opens the cylinder"));
    column->addWidget(m_rowTitle);
    column->addWidget(area, 3);
    column->addWidget(m_usesTitle);
    column->addWidget(m_usesList, 1);
    connect(m_usesList, &QListWidget::itemActivated, this, [this](const QListWidgetItem* item) {
        const QString subject = item->text();
        const QString prefix = QStringLiteral("cylinder:");
        if (subject.startsWith(prefix)) {
            emit m_desk.showCylinder(subject.mid(prefix.size()));
        }
    });
    return part;
}

bool RulebookWindow::isOfShop() const {
    return m_book && m_book->edition() == m_desk.shop().rulebook().edition();
}

void RulebookWindow::load() {
    const QDate day = m_day->date();
    const auto on = Date::of(day.year(), day.month(), day.day());
    auto book = on ? Rulebook::load(m_desk.shop().environment().resourceFolder,
                                    utf8(m_which->currentData().toString()), on.value())
                   : Result<Rulebook>(on.error());
    const QString kept =
        m_tables->currentItem() != nullptr ? m_tables->currentItem()->data(kRowNumber).toString() : QString();
    m_tables->clear();
    if (!book) {
        m_book.reset();
        m_title->setText(qt(book.error().text()));
        showTable();
        return;
    }
    m_book = std::move(book).value();
    m_title->setText(tr("%1 – %2; in force from %3.%4")
                         .arg(qt(m_book->edition()), qt(m_book->title()), qt(m_book->holdsFrom().text()),
                              m_book->predatesEdition()
                                  ? tr(" The day lies before it: it is read by this edition all the same.")
                                  : QString()));
    const auto addTable = [&](const QString& name, const QString& text) {
        auto* item = new QListWidgetItem(text, m_tables);
        item->setData(kRowNumber, name);
        if (name == kept) {
            m_tables->setCurrentItem(item);
        }
    };
    addTable(kCoverage, tr("what it covers, and what not"));
    for (const std::string& name : m_book->tableNames()) {
        addTable(qt(name), tr("%1 (%2)").arg(tableText(name)).arg(m_book->table(name)->rows.size()));
    }
    if (m_tables->currentRow() < 0) {
        m_tables->setCurrentRow(0);
    }
}

void RulebookWindow::showTable() {
    const QSignalBlocker quiet(m_rows);
    m_rows->setRowCount(0);
    m_rows->setColumnCount(0);
    const QListWidgetItem* chosen = m_tables->currentItem();
    if (!m_book || chosen == nullptr) {
        showRow();
        return;
    }
    const QString name = chosen->data(kRowNumber).toString();
    if (name == kCoverage) {
        m_rows->setColumnCount(3);
        m_rows->setHorizontalHeaderLabels({tr("subject"), tr("covered"), tr("remark")});
        for (const CoverageNote& note : m_book->coverage()) {
            const int at = m_rows->rowCount();
            m_rows->insertRow(at);
            kit::cell(m_rows, at, 0, qt(note.subject));
            kit::cell(m_rows, at, 1, note.covered ? tr("yes") : tr("no"));
            kit::cell(m_rows, at, 2, qt(note.remark));
        }
        kit::fitColumns(m_rows, 2);
        m_rows->resizeRowsToContents();
    } else if (const RuleTable* table = m_book->table(utf8(name))) {
        std::vector<std::string> columns;
        for (const std::string& column : table->columns) {
            const bool filled = std::any_of(table->rows.begin(), table->rows.end(),
                                            [&](const RuleRow& row) { return !row.cell(column).empty(); });
            if (filled && !aboutTheRow(column)) {
                columns.push_back(column);
            }
        }
        m_rows->setColumnCount(static_cast<int>(columns.size()) + 1);
        for (std::size_t place = 0; place < columns.size(); ++place) {
            m_rows->setHorizontalHeaderItem(static_cast<int>(place) + 1,
                                            new QTableWidgetItem(columnText(columns[place])));
        }
        m_rows->setHorizontalHeaderItem(0, new QTableWidgetItem(tr("status")));
        m_rows->setRowCount(static_cast<int>(table->rows.size()));
        for (int at = 0; at < m_rows->rowCount(); ++at) {
            const RuleRow& row = table->rows[static_cast<std::size_t>(at)];
            kit::cell(m_rows, at, 0, firmnessText(row.firmness));
            for (std::size_t place = 0; place < columns.size(); ++place) {
                kit::cell(m_rows, at, static_cast<int>(place) + 1, qt(row.cell(columns[place])));
            }
        }
        m_rows->resizeColumnsToContents();
        const int most = fontMetrics().averageCharWidth() * 34;
        for (int column = 0; column < m_rows->columnCount(); ++column) {
            m_rows->horizontalHeader()->setSectionResizeMode(column, QHeaderView::Interactive);
            m_rows->setColumnWidth(column, std::min(m_rows->columnWidth(column), most));
        }
        m_rows->verticalHeader()->setDefaultSectionSize(m_rows->fontMetrics().height() * 2);
    }
    filter();
    m_rows->setCurrentCell(m_rows->rowCount() > 0 ? 0 : -1, 0);
    showRow();
}

void RulebookWindow::filter() {
    const QStringList words =
        m_find->text().simplified().toLower().split(QLatin1Char(' '), Qt::SkipEmptyParts);
    for (int row = 0; row < m_rows->rowCount(); ++row) {
        QString text;
        for (int column = 0; column < m_rows->columnCount(); ++column) {
            text += m_rows->item(row, column)->text().toLower() + QLatin1Char('\n');
        }
        const bool shown =
            std::all_of(words.begin(), words.end(), [&](const QString& word) { return text.contains(word); });
        m_rows->setRowHidden(row, !shown);
    }
}

void RulebookWindow::showRow() {
    m_rowTitle->clear();
    m_rowText->clear();
    m_usesTitle->clear();
    m_usesList->clear();
    m_usesList->hide();
    const int at = m_rows->currentRow();
    const QListWidgetItem* chosen = m_tables->currentItem();
    if (!m_book || chosen == nullptr || at < 0) {
        return;
    }
    const QString name = chosen->data(kRowNumber).toString();
    const RuleTable* table = m_book->table(utf8(name));
    if (table == nullptr || static_cast<std::size_t>(at) >= table->rows.size()) {
        m_rowTitle->setText(m_rows->item(at, 0)->text());
        m_rowText->setText(m_rows->item(at, 2)->text().toHtmlEscaped());
        return;
    }
    const RuleRow& row = table->rows[static_cast<std::size_t>(at)];
    m_rowTitle->setText(qt(row.cell(table->columns.front())));
    QString text = tr("<p><b>%1</b><br>%2<br>%3</p>")
                       .arg(qt(row.section).toHtmlEscaped(),
                            tr("Status: %1").arg(firmnessText(row.firmness)).toHtmlEscaped(),
                            tr("Source: %1").arg(qt(row.source)).toHtmlEscaped());
    for (const std::string& column : table->columns) {
        if (!aboutTheRow(column) && !row.cell(column).empty()) {
            text += QStringLiteral("<p style='margin:0.3em 0'>%1<br>&nbsp;&nbsp;%2</p>")
                        .arg(columnText(column).toHtmlEscaped(), qt(row.cell(column)).toHtmlEscaped());
        }
    }
    text += tr("<p>Edition %1. Local codes and the edition that holds where you work decide.</p>")
                .arg(qt(m_book->edition()));
    m_rowText->setText(text);
    if (RuleUses::covers(utf8(name))) {
        showUses(static_cast<std::size_t>(at));
    }
}

void RulebookWindow::showUses(std::size_t row) {
    if (!isOfShop()) {
        m_usesTitle->setText(
            tr("Not what this shop goes by: it goes by %1.").arg(qt(m_desk.shop().rulebook().edition())));
        return;
    }
    if (!m_uses) {
        QApplication::setOverrideCursor(Qt::WaitCursor);
        auto gathered = RuleUses::gather(m_desk.shop(), m_desk.shop().today());
        QApplication::restoreOverrideCursor();
        if (!gathered) {
            m_usesTitle->setText(qt(gathered.error().text()));
            return;
        }
        m_uses = std::move(gathered).value();
    }
    const std::string table = utf8(m_tables->currentItem()->data(kRowNumber).toString());
    const std::vector<std::string>& uses = m_uses->of(table, row);
    m_usesTitle->setText(uses.empty()
                             ? tr("It applies nowhere in this shop today.")
                             : tr("It applies in this shop to %n:", nullptr, static_cast<int>(uses.size())));
    for (const std::string& subject : uses) {
        m_usesList->addItem(qt(subject));
    }
    m_usesList->setVisible(!uses.empty());
}

} // namespace tarebook
