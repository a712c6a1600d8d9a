#include "ui/stocktake_dialog.h"

#include "core/papers/stocktake_paper.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/paper_print.h"
#include "ui/questions.h"

#include <QFileDialog>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kMostNotSeen = 500; // more than anybody reads beside a rack

/// A shape beside the word: severity is never colour alone.
QString verdictText(StockVerdict verdict) {
    const QString word = qt(std::string(stockVerdictWord(verdict)));
    switch (verdict) {
    case StockVerdict::agrees:
        return QStringLiteral("✓ ") + word;
    case StockVerdict::followed:
        return QStringLiteral("? ") + word;
    case StockVerdict::varies:
        return QStringLiteral("▲ ") + word;
    }
    return word;
}

QString joined(const std::vector<std::string>& sentences) {
    QStringList texts;
    for (const std::string& sentence : sentences) {
        texts.append(qt(sentence));
    }
    return texts.join(QStringLiteral("\n"));
}

} // namespace

bool StocktakeDialog::take(const QString& serial, const QString& gross, const QString& remark) {
    m_serial->setText(serial);
    m_gross->setText(gross);
    m_remark->setText(remark);
    const std::size_t before = m_weighings.size();
    add();
    return m_weighings.size() > before || m_serial->text().isEmpty();
}

void StocktakeDialog::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && m_serial->hasFocus()) {
        // A scanner ends with Enter: the weight is next.
        m_gross->line()->setFocus();
        m_gross->line()->selectAll();
        return;
    }
    if (event->key() == Qt::Key_Delete && m_table->hasFocus()) {
        removeChosen();
        return;
    }
    QDialog::keyPressEvent(event);
}

void StocktakeDialog::say(const QString& text) {
    m_said->setText(text);
}

void StocktakeDialog::add() {
    QString serial = m_serial->text().trimmed();
    if (serial.isEmpty()) {
        say(tr("No cylinder: scan its number, or type it."));
        m_serial->setFocus();
        return;
    }
    if (!m_gross->mass()) {
        say(m_gross->blank() ? tr("%1: no weight yet; type what the scale says, as 59.6 lb.").arg(serial)
                             : tr("%1: the gross cannot be read; write it as 59.6 lb.").arg(serial));
        m_gross->line()->setFocus();
        return;
    }
    const auto known = m_desk.shop().store().cylinder(utf8(serial));
    if (!known || !known.value()) {
        const auto upper = m_desk.shop().store().cylinder(utf8(serial.toUpper()));
        serial = upper && upper.value() ? serial.toUpper() : serial;
    }
    const StockWeighing weighing{utf8(serial), *m_gross->mass(), utf8(m_remark->text().trimmed())};
    const auto again = std::find_if(m_weighings.begin(), m_weighings.end(),
                                    [&](const StockWeighing& one) { return one.serial == weighing.serial; });
    const std::vector<StockWeighing> before = m_weighings;
    QString words = tr("%1 taken.").arg(serial);
    if (again == m_weighings.end()) {
        m_weighings.push_back(weighing);
    } else {
        words = tr("%1 was weighed before, %2: that weight is replaced. Was it another cylinder?")
                    .arg(serial, qt(m_desk.shop().display().mass(again->gross)));
        *again = weighing;
    }
    say(words);
    compare();
    if (!m_report) {
        m_weighings = before;
        const QString wrong = m_said->text();
        compare();
        say(wrong);
        return;
    }
    for (const StockAbsence& unknown : m_report->unknown) {
        if (unknown.serial == weighing.serial) {
            say(qt(unknown.remedy));
        }
    }
    for (const StockAbsence& elsewhere : m_report->unexpected) {
        if (elsewhere.serial == weighing.serial) {
            say(tr("%1 by the books: %2. %3").arg(serial, qt(elsewhere.where), qt(elsewhere.remedy)));
        }
    }
    choose(serial);
    m_serial->clear();
    m_gross->clear();
    m_remark->clear();
    m_serial->setFocus();
}

void StocktakeDialog::removeChosen() {
    const int row = m_table->currentRow();
    if (row < 0 || row >= m_table->rowCount()) {
        return;
    }
    const std::string serial = utf8(m_table->item(row, 0)->text());
    std::erase_if(m_weighings, [&](const StockWeighing& one) { return one.serial == serial; });
    say(tr("%1 is no longer in the list.").arg(qt(serial)));
    compare();
}

void StocktakeDialog::compare() {
    StocktakeAsk ask;
    ask.weighings = m_weighings;
    ask.place = utf8(m_place->text().trimmed());
    ask.scaleError = m_scaleError->mass();
    m_report.reset();
    if (!m_weighings.empty()) {
        auto report = stocktake(m_desk.shop(), ask);
        if (report) {
            m_report = std::move(report).value();
        } else {
            say(qt(report.error().text()));
        }
    }
    for (QPushButton* button : {m_record, m_print, m_pdf}) {
        button->setEnabled(m_report.has_value());
    }
    showLines();
    showNotSeen();
    showCauses();
}

void StocktakeDialog::showLines() {
    const QString chosen =
        m_table->currentRow() < 0 ? QString() : m_table->item(m_table->currentRow(), 0)->text();
    const QSignalBlocker quiet(m_table);
    m_table->setRowCount(0);
    m_counts->setText(tr("Nothing weighed yet"));
    if (!m_report) {
        return;
    }
    const Display display = m_desk.shop().display();
    m_counts->setText(
        tr("%1 weighed, %2 agree, %3 vary")
            .arg(m_weighings.size())
            .arg(m_report->count(StockVerdict::agrees))
            .arg(m_report->count(StockVerdict::varies) + m_report->count(StockVerdict::followed)) +
        (m_report->remarks.empty() ? QString() : QStringLiteral(". ") + qt(m_report->remarks.front())));
    // The newest on top: the one in hand is always in sight.
    for (auto line = m_report->lines.rbegin(); line != m_report->lines.rend(); ++line) {
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, 0, qt(line->serial));
        kit::cell(m_table, row, 1, qt(line->content));
        int column = 2;
        for (const Mass mass : {line->gross, line->bookGross, line->difference, line->tolerance}) {
            kit::cell(m_table, row, column++, qt(display.mass(mass)), true);
        }
        kit::cell(m_table, row, column,
                  verdictText(line->verdict) +
                      (line->elsewhere.empty() ? QString() : QStringLiteral(", ") + qt(line->elsewhere)));
    }
    for (const StockAbsence& unknown : m_report->unknown) {
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, 0, qt(unknown.serial));
        kit::cell(m_table, row, 2, qt(display.mass(unknown.bookGross)), true);
        for (const int column : {1, 3, 4, 5}) {
            kit::cell(m_table, row, column, {});
        }
        kit::cell(m_table, row, 6, QStringLiteral("▲ ") + tr("not in the register"));
    }
    kit::fitColumns(m_table, 6);
    choose(chosen);
}

void StocktakeDialog::showNotSeen() {
    m_notSeen->clear();
    std::vector<StockAbsence> missing;
    if (m_report) {
        missing = m_report->notSeen;
    }
    m_missing->setText(m_report ? tr("Not seen yet: %1").arg(missing.size()) : tr("Not seen yet"));
    for (std::size_t place = 0; place < missing.size() && place < kMostNotSeen; ++place) {
        const StockAbsence& one = missing[place];
        m_notSeen->addItem(qt(one.serial + (one.where.empty() ? "" : ", " + one.where)));
    }
    if (missing.size() > kMostNotSeen) {
        m_notSeen->addItem(tr("… and %1 more").arg(missing.size() - kMostNotSeen));
    }
}

void StocktakeDialog::choose(const QString& serial) {
    for (int row = 0; row < m_table->rowCount(); ++row) {
        if (m_table->item(row, 0)->text() == serial) {
            m_table->selectRow(row);
        }
    }
    showCauses();
}

const StockLine* StocktakeDialog::chosenLine() const {
    const int row = m_table->currentRow();
    if (!m_report || row < 0 || row >= m_table->rowCount()) {
        return nullptr;
    }
    const std::string serial = utf8(m_table->item(row, 0)->text());
    const auto line = std::find_if(m_report->lines.begin(), m_report->lines.end(),
                                   [&](const StockLine& one) { return one.serial == serial; });
    return line == m_report->lines.end() ? nullptr : &*line;
}

const StockCause* StocktakeDialog::chosenCause() const {
    const StockLine* line = chosenLine();
    const int row = m_causes->currentRow();
    return line == nullptr || row < 0 || row >= std::ssize(line->causes)
               ? nullptr
               : &line->causes[static_cast<std::size_t>(row)];
}

void StocktakeDialog::showCauses() {
    m_causes->setRowCount(0);
    m_advice->clear();
    m_mend->setEnabled(false);
    const StockLine* line = chosenLine();
    if (line == nullptr) {
        return;
    }
    for (const StockCause& cause : line->causes) {
        const int row = m_causes->rowCount();
        m_causes->insertRow(row);
        kit::cell(m_causes, row, 0, qt(std::string(differenceCauseWord(cause.cause))));
        kit::cell(m_causes, row, 1, qt(cause.evidence));
        kit::cell(m_causes, row, 2, joined(cause.sentences));
    }
    if (m_causes->rowCount() > 0) {
        m_causes->selectRow(0);
    }
}

void StocktakeDialog::mend() {
    const StockCause* cause = chosenCause();
    if (cause == nullptr) {
        return;
    }
    if (cause->cause == DifferenceCause::swapped) {
        if (!questions::ask(this, tr("Exchange the two numbers?"), qt(cause->evidence + ". " + cause->advice),
                            tr("Exchange them"))) {
            return;
        }
        exchange(chosenLine()->serial, cause->mend.back().body.value("serial", std::string()));
        return;
    }
    if (!questions::ask(this, tr("Record this?"),
                        qt(cause->advice) + QStringLiteral("\n\n") + joined(cause->sentences),
                        tr("Record it"))) {
        return;
    }
    const Recorded recorded = recordMend(m_desk.shop(), *m_report, *cause);
    m_desk.notifyRecorded(recorded);
    if (recorded.outrun) {
        compare();
    }
    say(recorded.ok() ? tr("Recorded.") : kit::told(recorded, tr("Not recorded")));
}

void StocktakeDialog::exchange(const std::string& one, const std::string& other) {
    const auto named = [&](const std::string& serial) {
        return std::find_if(m_weighings.begin(), m_weighings.end(),
                            [&](const StockWeighing& weighing) { return weighing.serial == serial; });
    };
    const auto first = named(one);
    const auto second = named(other);
    if (first != m_weighings.end() && second != m_weighings.end()) {
        std::swap(first->gross, second->gross);
        say(tr("The weights of %1 and %2 were exchanged.").arg(qt(one), qt(other)));
    } else if (first != m_weighings.end()) {
        first->serial = other; // it was the other all along
        say(tr("The weight counts for %1 now; %2 is not seen yet.").arg(qt(other), qt(one)));
    }
    compare();
}

void StocktakeDialog::enter() {
    if (!m_report) {
        return;
    }
    const QString text =
        tr("%1 weighings are written as entries of their own, with the reference “%2”. Where one is beyond "
           "the "
           "uncertainty the books follow the scale; mend first what has a cause. What weighs less than its "
           "tare is left out.")
            .arg(m_report->lines.size())
            .arg(qt(stocktakeReference(m_desk.shop(), *m_report)));
    if (!questions::ask(this, tr("Record the weighings?"), text, tr("Record them"))) {
        return;
    }
    const Recorded recorded = recordStocktake(m_desk.shop(), *m_report);
    m_desk.notifyRecorded(recorded);
    if (recorded.outrun) {
        compare(); // what another desk wrote is in it now
    }
    say(recorded.ok() ? tr("%1 weighings recorded.").arg(recorded.entries.size())
                      : kit::told(recorded, tr("Not recorded")));
}

void StocktakeDialog::print() {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (m_report && dialog.exec() == QDialog::Accepted) {
        drawStocktake(paperOf(m_desk.shop(), *m_report), printer);
        say(tr("Printed"));
    }
}

void StocktakeDialog::askPdf() {
    const QString path = QFileDialog::getSaveFileName(this, tr("The report as a PDF"),
                                                      QStringLiteral("stocktake.pdf"), tr("PDF (*.pdf)"));
    if (!path.isEmpty()) {
        (void)writePdf(path);
    }
}

bool StocktakeDialog::writePdf(const QString& path) {
    const bool letter = m_desk.shop().settings().mass == MassUnit::pound;
    const bool written = m_report && stocktakePdf(paperOf(m_desk.shop(), *m_report), path, letter);
    say(written ? tr("Written: %1").arg(path) : tr("%1 cannot be written.").arg(path));
    return written;
}

} // namespace tarebook
