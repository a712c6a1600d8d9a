// Of the books: what auditors ask in their own words, and what is handed over to them.
#include "core/shop/earlier.h"
#include "ui/books_page.h"
#include "ui/desk.h"
#include "ui/evidence_dialog.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/rule_says_dialog.h"

#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QLineEdit>
#include <QStackedWidget>
#include <QTableWidget>

#include <algorithm>
#include <utility>

namespace tarebook {
namespace {

/// Before the name of an owner in the list of gas.
constexpr const char* kOwnerMark = "owner:";

/// The questions before those of the list: each has a drawing or a sum of its own.
constexpr int kDrawnQuestions = 4;

Date dayOf(const QDate& date) {
    return Date::fromDayNumber(static_cast<int>(date.toJulianDay() - QDate(1970, 1, 1).toJulianDay()));
}

QString titleOf(const std::string& column) {
    QString title = qt(column).replace(QLatin1String("_kg"), QLatin1String(", kg"));
    title.replace(u'_', u' ');
    return title.left(1).toUpper() + title.mid(1);
}

bool isMassColumn(const std::string& column) {
    return column.ends_with("_kg");
}

} // namespace

void BooksPage::addQuestions() {
    m_question->insertSeparator(m_question->count());
    for (const Question& question : auditQuestions()) {
        m_question->addItem(QString::fromUtf8(question.words.data(), static_cast<int>(question.words.size())),
                            QString::fromUtf8(question.name.data(), static_cast<int>(question.name.size())));
        m_question->setItemData(
            m_question->count() - 1,
            tr("Asked by: %1")
                .arg(QString::fromUtf8(question.asker.data(), static_cast<int>(question.asker.size()))),
            Qt::ToolTipRole);
    }
}

const Question* BooksPage::chosenQuestion() const {
    return questionNamed(utf8(m_question->currentData().toString()));
}

void BooksPage::followQuestion() {
    const int place = m_question->currentIndex();
    const Question* question = chosenQuestion();
    const bool charge = place == 0;
    const bool cylinder =
        question == nullptr ? place == 1 || place == 2 : question->need == QuestionNeed::cylinder;
    const bool system = question != nullptr && question->need == QuestionNeed::system;
    const bool customer = question != nullptr && question->need == QuestionNeed::customer;
    const bool gas = question != nullptr && question->need == QuestionNeed::holdings;
    const bool days = question == nullptr ? place == kDrawnQuestions - 1
                                          : customer || gas || question->need == QuestionNeed::period;
    m_input->setVisible(charge || cylinder || system || customer || gas);
    m_input->setCurrentWidget(cylinder   ? static_cast<QWidget*>(m_cylinder)
                              : gas      ? m_gas
                              : system   ? m_system
                              : customer ? m_customer
                                         : m_lot);
    m_days->setVisible(days);
    m_older->setVisible(charge && m_moreLots);
}

QuestionInput BooksPage::inputOf(const Question& question) const {
    QuestionInput input{dayOf(m_from->date()), dayOf(m_to->date())};
    if (question.need == QuestionNeed::cylinder) {
        input.subject = utf8(m_cylinder->text().trimmed());
    } else if (question.need == QuestionNeed::system || question.need == QuestionNeed::customer) {
        input.subject = utf8(chosenIn(question.need == QuestionNeed::system ? *m_system : *m_customer));
    } else if (question.need == QuestionNeed::holdings) {
        const QString chosen = chosenIn(*m_gas);
        const QString owner = QLatin1String(kOwnerMark);
        if (chosen.startsWith(owner)) {
            input.owner = utf8(chosen.mid(owner.size()));
        } else {
            input.refrigerant = utf8(chosen);
        }
    }
    return input;
}

void BooksPage::askQuestion(const Question& question, Sequence head) {
    std::unique_ptr<EarlierBooks> earlier;
    if (head != 0) {
        auto made = EarlierBooks::make(m_desk.shop(), head);
        if (!made) {
            fail(made.error());
            return;
        }
        earlier = std::move(made).value();
    }
    Shop& shop = earlier ? earlier->shop() : m_desk.shop();
    const QuestionInput input = inputOf(question);
    const auto its = answered(shop, question, input);
    if (!its) {
        fail(its.error());
        return;
    }
    const auto lines = linesOf(shop, its.value().entries);
    if (!lines) {
        fail(lines.error());
        return;
    }
    TraceAnswer told;
    told.sentence = its.value().sentence;
    told.head = shop.store().headDigest();
    told.entries = lines.value();
    answer(told);
    m_flowArea->hide();
    m_drawn->setEnabled(false);
    QStringList titles;
    for (const std::string& column : its.value().table.columns) {
        titles.append(titleOf(column));
    }
    setColumns(titles, -1); // what belongs together stands together; a long answer is scrolled, not cut
    m_told = its.value();
    m_toldLines = lines.value();
    m_asked = input;
    m_askedHead = head;
    addAnswerRows(nullptr);
    kit::fitColumns(m_table, -1);
    m_rules->setVisible(!m_told.findings.empty());
    showChart();
}

void BooksPage::showRules() {
    QStringList names; // of what the chosen row is about
    const int row = m_table->currentRow();
    for (int column = 0; row >= 0 && column < m_table->columnCount(); ++column) {
        if (const QTableWidgetItem* cell = m_table->item(row, column)) {
            names.append(cell->text());
        }
    }
    std::vector<Finding> its;
    std::copy_if(m_told.findings.begin(), m_told.findings.end(), std::back_inserter(its),
                 [&](const Finding& one) { return names.contains(qt(one.subject).section(u':', 1)); });
    if (its.empty()) { // of all of them: each says of what
        its = m_told.findings;
        for (Finding& one : its) {
            const std::string of = utf8(qt(one.subject).section(u':', 1));
            one.headline = of.empty() ? one.headline : of + ": " + one.headline;
        }
    }
    RuleSaysDialog(m_desk, m_question->currentText(), its, this).exec();
}

void BooksPage::fillGas() {
    const QString before = chosenIn(*m_gas);
    const QSignalBlocker quiet(m_gas);
    m_gas->clear();
    m_gas->addItem(tr("all refrigerant, whoever owns it"), QString());
    if (const auto choices = heldChoices(m_desk.shop())) {
        for (const std::string& refrigerant : choices.value().refrigerants) {
            m_gas->addItem(qt(refrigerant), qt(refrigerant));
        }
        for (const std::string& owner : choices.value().owners) {
            m_gas->addItem(tr("owned by %1").arg(qt(owner)), QLatin1String(kOwnerMark) + qt(owner));
        }
    }
    if (!chooseIn(*m_gas, before)) {
        m_gas->setCurrentIndex(0);
    }
}

void BooksPage::addAnswerRows(const std::vector<std::size_t>* only) {
    m_table->setRowCount(0);
    const AnswerTable& table = m_told.table;
    const std::size_t number = only == nullptr ? table.rows.size() : only->size();
    for (std::size_t place = 0; place < number; ++place) {
        QStringList cells;
        for (const std::string& cell : table.rows[only == nullptr ? place : (*only)[place]]) {
            cells.append(qt(cell));
        }
        addRow(cells, 0);
        for (int column = 0; column < cells.size(); ++column) {
            if (isMassColumn(table.columns[static_cast<std::size_t>(column)])) {
                m_table->item(m_table->rowCount() - 1, column)
                    ->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
            }
        }
    }
}

void BooksPage::listEntries(const std::vector<HistoryLine>& lines) {
    m_entries->setRowCount(0);
    for (const HistoryLine& line : lines) {
        addEntry(line);
    }
    kit::fitColumns(m_entries, 3);
}

void BooksPage::addEntry(const HistoryLine& line) {
    const Zone& zone = m_desk.shop().zone();
    const int row = m_entries->rowCount();
    m_entries->insertRow(row);
    kit::cell(m_entries, row, 0, QString::number(line.entry), true);
    kit::cell(m_entries, row, 1, qt(zone.localText(line.occurred)));
    kit::cell(m_entries, row, 2, qt(zone.localText(line.recorded)));
    kit::cell(m_entries, row, 3, qt(line.sentence));
    kit::cell(m_entries, row, 4, qt(line.operatorName));
}

void BooksPage::followToday() {
    // The window stays open for days: a period that ended with the day goes on with it.
    const QDate before = std::exchange(
        m_today, QDate::fromJulianDay(QDate(1970, 1, 1).toJulianDay() + m_desk.shop().today().dayNumber()));
    if (m_to->date() == before) {
        m_to->setDate(m_today);
    }
}

void BooksPage::handOver() {
    EvidenceDialog dialog(m_desk, this);
    dialog.setPeriod(m_from->date(), m_to->date());
    if (dialog.exec() == QDialog::Accepted) {
        m_desk.say(tr("Written: %1").arg(dialog.target()));
    }
}

} // namespace tarebook
