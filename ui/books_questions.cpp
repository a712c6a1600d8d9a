// Of the books: what auditors ask in their own words, and what is handed over to them.
#include "core/shop/earlier.h"
#include "ui/books_page.h"
#include "ui/desk.h"
#include "ui/evidence_dialog.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/pickers.h"

#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QLineEdit>
#include <QStackedWidget>
#include <QTableWidget>

namespace tarebook {
namespace {

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
    const bool days = question == nullptr ? place == kDrawnQuestions - 1
                                          : customer || question->need == QuestionNeed::period;
    m_input->setVisible(charge || cylinder || system || customer);
    m_input->setCurrentWidget(cylinder   ? static_cast<QWidget*>(m_cylinder)
                              : system   ? m_system
                              : customer ? m_customer
                                         : m_lot);
    m_days->setVisible(days);
    m_older->setVisible(charge && m_moreLots);
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
    QuestionInput input{dayOf(m_from->date()), dayOf(m_to->date())};
    if (question.need == QuestionNeed::cylinder) {
        input.subject = utf8(m_cylinder->text().trimmed());
    } else if (question.need == QuestionNeed::system || question.need == QuestionNeed::customer) {
        input.subject = utf8(chosenIn(question.need == QuestionNeed::system ? *m_system : *m_customer));
    }
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
    setColumns(titles, 0);
    for (const auto& row : its.value().table.rows) {
        QStringList cells;
        for (const std::string& cell : row) {
            cells.append(qt(cell));
        }
        addRow(cells, 0);
        for (int column = 0; column < cells.size(); ++column) {
            if (isMassColumn(its.value().table.columns[static_cast<std::size_t>(column)])) {
                m_table->item(m_table->rowCount() - 1, column)
                    ->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
            }
        }
    }
    kit::fitColumns(m_table, 0);
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

void BooksPage::handOver() {
    EvidenceDialog dialog(m_desk, this);
    dialog.setPeriod(m_from->date(), m_to->date());
    if (dialog.exec() == QDialog::Accepted) {
        m_desk.say(tr("Written: %1, and its report as %2").arg(dialog.target(), dialog.report()));
    }
}

} // namespace tarebook
