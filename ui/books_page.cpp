#include "ui/books_page.h"

#include "core/base/csv_write.h"
#include "core/shop/card.h"
#include "core/shop/moments.h"
#include "ui/desk.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/pages.h"
#include "ui/pickers.h"
#include "ui/questions.h"
#include "ui/scroll_side.h"

#include <QApplication>
#include <QBoxLayout>
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTableWidget>

namespace tarebook {
namespace {

enum DrawnQuestion { whereTo, whereFrom, whoHeld, balances };

QDate qtDate(Date date) {
    return QDate::fromString(qt(date.text()), Qt::ISODate);
}

} // namespace

BooksPage::BooksPage(Desk& desk, QWidget* parent) : Page(parent), m_desk(desk) {
    setObjectName(QStringLiteral("booksPage"));
    auto* column = new QVBoxLayout(this);
    const int line = fontMetrics().height();
    column->setContentsMargins(line, line / 2, line, line / 2);
    column->addWidget(buildQuestions());
    column->addWidget(buildAnswer(), 1);
}

QWidget* BooksPage::buildQuestions() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    auto* row = new QHBoxLayout;
    m_question = new QComboBox(part);
    m_question->setObjectName(QStringLiteral("bookQuestion"));
    m_question->setAccessibleName(tr("Question"));
    m_question->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_question->setMinimumContentsLength(19);
    m_question->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_question->addItems({tr("Where did this charge go?"),
                          tr("Where did this cylinder's contents come from?"),
                          tr("Who held this cylinder, and when?"), tr("Do the books of a period balance?")});
    addQuestions();
    m_lot = searchBox(QStringLiteral("bookLot"), tr("Charge"), part);
    m_lot->setMinimumContentsLength(21);
    m_lot->setToolTip(tr("Choose one, type a word of it to find it, or type the number of the entry"));
    m_cylinder = new QLineEdit(part);
    m_cylinder->setObjectName(QStringLiteral("bookCylinder"));
    m_cylinder->setAccessibleName(tr("Cylinder"));
    m_cylinder->setPlaceholderText(tr("serial of the cylinder"));
    m_system = searchBox(QStringLiteral("bookSystem"), tr("System"), part);
    m_customer = searchBox(QStringLiteral("bookCustomer"), tr("Customer"), part);
    m_input = new QStackedWidget(part);
    m_input->addWidget(m_lot);
    m_input->addWidget(m_cylinder);
    m_input->addWidget(m_system);
    m_input->addWidget(m_customer);
    m_input->addWidget(buildGas(part));
    m_input->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_asOf = new QLineEdit(part);
    m_asOf->setObjectName(QStringLiteral("bookAsOf"));
    m_asOf->setPlaceholderText(tr("as they stand now"));
    m_asOf->setToolTip(tr("A day, as 2026-09-14: the books as they stood at its end"));
    m_asOf->setFixedWidth(fontMetrics().averageCharWidth() * 22);
    auto* asked = new QPushButton(tr("Answer"), part);
    asked->setObjectName(QStringLiteral("bookAsk"));
    kit::makePrimary(asked);
    auto* pack = new QPushButton(tr("Evidence…"), part);
    pack->setObjectName(QStringLiteral("bookEvidence"));
    pack->setToolTip(tr("A folder to hand over: report, tables, the entries behind them and their proof"));
    auto* label = new QLabel(tr("&Books of"), part);
    label->setBuddy(m_asOf);
    row->addWidget(m_question, 1);
    row->addWidget(asked);
    row->addWidget(pack);
    auto* given = new QHBoxLayout;
    given->addWidget(m_input, 1);
    given->addWidget(buildDays(part));
    given->addStretch(0);
    given->addWidget(label);
    given->addWidget(m_asOf);
    m_older = new QWidget(part);
    auto* olderRow = new QHBoxLayout(m_older);
    olderRow->setContentsMargins(0, 0, 0, 0);
    m_listed = kit::hint({}, m_older);
    m_listed->setObjectName(QStringLiteral("bookListed"));
    auto* older = new QPushButton(tr("&List older ones"), m_older);
    older->setObjectName(QStringLiteral("bookOlder"));
    olderRow->addWidget(m_listed, 1);
    olderRow->addWidget(older);
    column->addLayout(row);
    column->addLayout(given);
    column->addWidget(m_older);
    connect(m_question, &QComboBox::currentIndexChanged, this, &BooksPage::followQuestion);
    connect(older, &QPushButton::clicked, this, [this] {
        constexpr int kFaster = 4; // whoever looks for an old one soon has them all
        m_lotsListed *= kFaster;
        fillLots();
        m_lot->setFocus();
    });
    connect(pack, &QPushButton::clicked, this, &BooksPage::handOver);
    connect(asked, &QPushButton::clicked, this, &BooksPage::ask);
    for (QLineEdit* field :
         {m_lot->lineEdit(), m_system->lineEdit(), m_customer->lineEdit(), m_cylinder, m_asOf}) {
        connect(field, &QLineEdit::returnPressed, this, &BooksPage::ask);
    }
    followQuestion();
    return part;
}

QWidget* BooksPage::buildDays(QWidget* part) {
    m_days = new QWidget(part);
    auto* row = new QHBoxLayout(m_days);
    row->setContentsMargins(0, 0, 0, 0);
    m_from = new QDateEdit(m_days);
    m_to = new QDateEdit(m_days);
    for (QDateEdit* edit : {m_from, m_to}) {
        edit->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
        edit->setCalendarPopup(true);
        row->addWidget(edit);
    }
    m_from->setObjectName(QStringLiteral("bookFrom"));
    m_from->setAccessibleName(tr("First day"));
    m_to->setObjectName(QStringLiteral("bookTo"));
    m_to->setAccessibleName(tr("Last day"));
    m_today = qtDate(m_desk.shop().today());
    m_from->setDate(QDate(m_today.year(), 1, 1));
    m_to->setDate(m_today);
    return m_days;
}

QWidget* BooksPage::buildAnswer() {
    auto* area = new ScrollSide(this);
    QWidget* part = area->inside();
    auto* column = &area->column();
    m_sentence = kit::heading(tr("Choose a question."), part);
    m_sentence->setObjectName(QStringLiteral("bookSentence"));
    m_sentence->setWordWrap(true);
    m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column->addWidget(m_sentence);
    m_rules = new QPushButton(tr("What the rules say…"), part);
    m_rules->setObjectName(QStringLiteral("bookRules"));
    m_rules->setToolTip(tr("Of the row that is chosen, or of all: working, source and how firm it is"));
    m_rules->hide();
    connect(m_rules, &QPushButton::clicked, this, &BooksPage::showRules);
    column->addWidget(m_rules, 0, Qt::AlignLeft);
    m_flow = new FlowDrawing(part);
    connect(m_flow, &FlowDrawing::cylinderClicked, &m_desk, &Desk::showCylinder);
    auto* flowArea = new QScrollArea(part);
    flowArea->setWidgetResizable(true);
    flowArea->setFrameShape(QFrame::NoFrame);
    flowArea->setWidget(m_flow);
    flowArea->setMinimumHeight(fontMetrics().height() * 11);
    m_flowArea = flowArea;
    column->addWidget(flowArea, 1);
    column->addWidget(buildChart(part), 1);
    column->addWidget(buildTables(part), 2);
    auto* row = new QHBoxLayout;
    m_head = kit::hint({}, part);
    m_head->setObjectName(QStringLiteral("bookHead"));
    m_head->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* save = new QPushButton(tr("Save the table…"), part);
    save->setObjectName(QStringLiteral("bookSave"));
    auto* check = new QPushButton(tr("Verify the journal"), part);
    check->setObjectName(QStringLiteral("bookVerify"));
    m_drawn = new QPushButton(tr("Drawing as PDF…"), part);
    m_drawn->setObjectName(QStringLiteral("bookDrawing"));
    m_drawn->setEnabled(false);
    connect(m_drawn, &QPushButton::clicked, this, [this] {
        const QString path =
            QFileDialog::getSaveFileName(this, tr("Save the drawing"), {}, tr("PDF (*.pdf)"));
        if (!path.isEmpty()) {
            m_desk.say(saveDrawing(path) ? tr("Written: %1").arg(path)
                                         : tr("%1 cannot be written").arg(path));
        }
    });
    row->addWidget(m_head, 1);
    row->addWidget(m_drawn);
    row->addWidget(save);
    row->addWidget(check);
    column->addLayout(row);
    connect(save, &QPushButton::clicked, this, [this] {
        const QString path = QFileDialog::getSaveFileName(this, tr("Save the table"), {}, tr("CSV (*.csv)"));
        if (!path.isEmpty()) {
            m_desk.say(saveCsv(path) ? tr("Written: %1").arg(path) : tr("%1 cannot be written").arg(path));
        }
    });
    connect(check, &QPushButton::clicked, this, &BooksPage::verify);
    return area;
}

void BooksPage::refresh() {
    followToday();
    fillLots();
    fillSystems(*m_system, m_desk);
    fillCustomers(*m_customer, m_desk);
    fillGas();
}

void BooksPage::fillLots() {
    const QString before = chosenIn(*m_lot);
    const auto read = lots(m_desk.shop(), m_lotsListed + 1);
    std::vector<HistoryLine> lines = read ? read.value() : std::vector<HistoryLine>();
    m_moreLots = std::ssize(lines) > m_lotsListed;
    if (m_moreLots) {
        lines.pop_back();
    }
    const QSignalBlocker quiet(m_lot);
    m_lot->clear();
    for (const HistoryLine& line : lines) {
        m_lot->addItem(tr("%1: %2, %3%4")
                           .arg(line.entry)
                           .arg(qt(line.sentence), qt(m_desk.shop().zone().localText(line.occurred)),
                                line.reversedBy ? tr(" (reversed)") : QString()),
                       QString::number(line.entry));
    }
    if (!chooseIn(*m_lot, before) && !before.isEmpty()) {
        m_lot->setEditText(before);
    }
    m_older->setVisible(m_moreLots && m_question->currentIndex() == whereTo);
    if (m_moreLots) {
        m_listed->setText(
            tr("The list has the newest %1 charges, back to entry %2. An older one is answered by the number "
               "of its entry.")
                .arg(lines.size())
                .arg(lines.back().entry));
    }
}

void BooksPage::setColumns(const QStringList& columns, int wide) {
    for (QWidget* part : {static_cast<QWidget*>(m_table), static_cast<QWidget*>(m_entriesTitle),
                          static_cast<QWidget*>(m_entries)}) {
        part->show();
    }
    m_table->clear();
    m_table->setRowCount(0);
    m_table->setColumnCount(static_cast<int>(columns.size()));
    m_table->setHorizontalHeaderLabels(columns);
    kit::fitColumns(m_table, wide);
}

void BooksPage::addRow(const QStringList& cells, int numbers) {
    const int row = m_table->rowCount();
    m_table->insertRow(row);
    for (int column = 0; column < cells.size(); ++column) {
        kit::cell(m_table, row, column, cells[column], column < numbers);
    }
}

void BooksPage::fail(const Error& error) {
    m_sentence->setText(qt(error.text()));
    m_told = {};
    m_head->clear(); // of an earlier answer
    m_flow->setLegs({}, m_desk.shop().settings());
    m_chartPart->hide();
    m_drawn->setEnabled(false);
    m_rules->hide();
    m_table->setRowCount(0);
    m_entries->setRowCount(0);
}

void BooksPage::ask() {
    Sequence head = 0;
    if (!m_asOf->text().trimmed().isEmpty()) {
        const auto day = readDate(utf8(m_asOf->text().trimmed()), dateOrderOf(m_desk.shop().settings()));
        if (!day) {
            fail(day.error());
            return;
        }
        head = headOn(m_desk.shop(), day.value());
        if (head == 0) {
            fail({"Nothing had been written down by then", "name a later day"});
            return;
        }
    }
    if (const Question* question = chosenQuestion()) {
        askQuestion(*question, head);
        return;
    }
    switch (m_question->currentIndex()) {
    case whereTo:
        askCharge(head);
        break;
    case whereFrom:
        askContents(head);
        break;
    case whoHeld:
        askCustody(head);
        break;
    default:
        askBalance(head);
        break;
    }
}

void BooksPage::answer(const TraceAnswer& answer) {
    m_sentence->setText(qt(answer.sentence));
    m_told = {}; // of an earlier one
    m_digest = qt(answer.head);
    m_head->setText(tr("Books at %1").arg(m_digest));
    m_flowArea->show();
    m_flow->setLegs(answer.legs, m_desk.shop().settings());
    m_drawn->setEnabled(!m_flow->empty());
    m_rules->hide();
    m_chartPart->hide();
    m_entriesTitle->setText(tr("The entries behind it"));
    listEntries(answer.entries);
}

bool BooksPage::saveCsv(const QString& path) const {
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly)) {
        return false;
    }
    if (!m_chartPart->isHidden()) { // of a point only its rows are shown; the file has the answer whole
        file.write(QByteArray::fromStdString(csvLine(m_told.table.columns) + "\r\n"));
        for (const auto& row : m_told.table.rows) {
            file.write(QByteArray::fromStdString(csvLine(row) + "\r\n"));
        }
        return file.error() == QFileDevice::NoError;
    }
    const auto lineOf = [this](int row) {
        std::vector<std::string> cells;
        for (int column = 0; column < m_table->columnCount(); ++column) {
            const QTableWidgetItem* item =
                row < 0 ? m_table->horizontalHeaderItem(column) : m_table->item(row, column);
            cells.push_back(item == nullptr ? std::string() : utf8(item->text()));
        }
        return QByteArray::fromStdString(csvLine(cells) + "\r\n");
    };
    for (int row = -1; row < m_table->rowCount(); ++row) {
        file.write(lineOf(row));
    }
    return file.error() == QFileDevice::NoError;
}

bool BooksPage::scan(const QString& text) {
    const auto known = m_desk.shop().store().cylinder(utf8(text.trimmed()));
    if (!known || !known.value() || m_input->isHidden() || m_input->currentWidget() != m_cylinder) {
        return false;
    }
    m_cylinder->setText(text.trimmed());
    ask();
    return true;
}

bool BooksPage::begin(Errand errand, const QString& subject) {
    if (errand == Errand::traceContents) {
        m_question->setCurrentIndex(whereFrom);
        m_cylinder->setText(subject);
        ask();
        return true;
    }
    if (errand == Errand::traceCharge) {
        fillLots();
        m_question->setCurrentIndex(whereTo);
        if (!chooseIn(*m_lot, subject)) {
            m_lot->setEditText(subject); // older than the list goes back: by its number
        }
        ask();
        return true;
    }
    if (errand == Errand::additions) {
        refresh();
        m_question->setCurrentIndex(m_question->findData(QStringLiteral("additions")));
        (void)chooseIn(*m_system, subject);
        ask();
        return true;
    }
    return false;
}

Page* makeBooksPage(Desk& desk) {
    return new BooksPage(desk);
}

} // namespace tarebook
