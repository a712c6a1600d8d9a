#include "ui/day_dialog.h"

#include "core/base/written_date.h"
#include "core/shop/day_checkout.h"
#include "core/shop/moments.h"
#include "core/shop/plan_margin.h"
#include "ui/day_print.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QApplication>
#include <QComboBox>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {
namespace {

enum PlanColumn { person, hour, job, what, take, share, stopAt, why };

/// What a job is called to a person.
QString dayJobName(const std::string& job) {
    return job.empty() ? QObject::tr("a job without a number") : qt(job);
}

} // namespace

Result<Date> DayDialog::day() const {
    const std::string text = utf8(m_day->text().trimmed());
    return text.empty() ? Result<Date>(m_desk.shop().today())
                        : readDate(text, dateOrderOf(m_desk.shop().settings()));
}

Result<std::vector<DayJob>> DayDialog::jobsWithMargin() const {
    std::vector<DayJob> jobs;
    jobs.reserve(m_jobs.size());
    for (const DayJob& one : m_jobs) {
        if (m_handedOut.contains(one.line)) {
            continue;
        }
        const auto margin = readMargin(m_desk.shop(), utf8(m_margin->text()), one.plan.expected);
        if (!margin) {
            return margin.error();
        }
        DayJob& its = jobs.emplace_back(one);
        its.plan.margin = margin.value();
    }
    return jobs;
}

bool DayDialog::cannot(const QString& why) {
    m_plan.reset();
    showPlan();
    m_summary->setText(why);
    return false;
}

void DayDialog::outdate(const QString& why) {
    m_summary->setText(why);
    m_print->setEnabled(false);
    m_pdf->setEnabled(false);
}

bool DayDialog::plan() {
    say({});
    if (m_jobs.empty()) {
        return cannot(tr("Choose the sheet with the jobs."));
    }
    const auto on = day();
    if (!on) {
        return cannot(tr("Day: %1").arg(qt(on.error().text())));
    }
    const auto jobs = jobsWithMargin();
    if (!jobs) {
        return cannot(tr("Room to spare: %1").arg(qt(jobs.error().text())));
    }
    if (jobs.value().empty()) {
        return cannot(tr("The cylinders of all jobs have gone out."));
    }
    // A large shop takes its time: that it is at work is seen.
    m_summary->setText(tr("Planning (jobs: %1)…").arg(jobs.value().size()));
    m_summary->repaint();
    QApplication::setOverrideCursor(Qt::WaitCursor);
    auto planned = planDay(m_desk.shop(), on.value(), jobs.value());
    QApplication::restoreOverrideCursor();
    if (!planned) {
        return cannot(qt(planned.error().text()));
    }
    m_plan = std::move(planned).value();
    m_tabs->setCurrentIndex(0);
    showPlan();
    return true;
}

void DayDialog::showPlan() {
    m_table->setRowCount(0);
    m_shown.clear();
    if (m_plan) {
        m_shown = rowsOf(*m_plan, m_desk.shop().display());
    }
    for (const DayRow& its : m_shown) {
        addRow(its);
    }
    kit::fitColumns(m_table, why);
    m_table->setCurrentCell(m_shown.empty() ? -1 : 0, 0);
    followPlan();
    showChosen();
}

void DayDialog::addRow(const DayRow& its) {
    const int row = m_table->rowCount();
    m_table->insertRow(row);
    kit::cell(m_table, row, person, qt(its.person));
    kit::cell(m_table, row, hour, qt(its.hour), true);
    kit::cell(m_table, row, job, qt(its.job));
    kit::cell(m_table, row, what, qt(its.what));
    auto* taken = kit::cell(m_table, row, take, its.serial.empty() ? tr("▲ none") : qt(its.serial));
    QFont font = taken->font();
    font.setBold(true);
    taken->setFont(font);
    kit::cell(m_table, row, share, qt(its.share), true);
    kit::cell(m_table, row, stopAt, qt(its.stopAt), true);
    kit::cell(m_table, row, why, its.serial.empty() ? tr("not served: %1").arg(qt(its.why)) : qt(its.why));
}

void DayDialog::followPlan() {
    const QString before = m_person->currentText();
    m_person->clear();
    if (m_plan) {
        for (const std::string& name : m_plan->people()) {
            const bool waits =
                std::any_of(m_plan->answers.begin(), m_plan->answers.end(), [&](const DayAnswer& answer) {
                    return answer.job.person == name && answer.served() &&
                           !m_handedOut.contains(answer.job.line);
                });
            if (waits) {
                m_person->addItem(qt(name));
            }
        }
        QString text = tr("%1: %2").arg(qt(m_plan->day.text()), qt(summaryOf(*m_plan)));
        if (m_refused > 0) {
            text += m_refused == 1
                        ? tr(". A row of the sheet cannot be read: see what was read")
                        : tr(". %1 rows of the sheet cannot be read: see what was read").arg(m_refused);
        }
        if (!m_handedOut.empty()) {
            text += m_handedOut.size() == 1 ? tr(". Handed out: what one job takes")
                                            : tr(". Handed out: what %1 jobs take").arg(m_handedOut.size());
        }
        m_summary->setText(text + QLatin1Char('.'));
    }
    m_person->setCurrentIndex(std::max(0, m_person->findText(before)));
    m_person->setEnabled(m_person->count() > 0);
    m_checkOut->setEnabled(m_person->count() > 0);
    m_anew->setEnabled(!m_jobs.empty());
    m_print->setEnabled(m_plan.has_value());
    m_pdf->setEnabled(m_plan.has_value());
}

void DayDialog::showChosen() {
    const int row = m_table->currentRow();
    m_next->setRowCount(0);
    if (!m_plan || row < 0 || static_cast<std::size_t>(row) >= m_shown.size()) {
        m_why->clear();
        m_findings->setFindings({});
        return;
    }
    const DayRow& its = m_shown[static_cast<std::size_t>(row)];
    const DayAnswer& answer = m_plan->answers[its.answer];
    QString told = tr("%1, %2, %3: ").arg(qt(its.person), dayJobName(its.job), qt(its.what));
    if (its.serial.empty()) {
        told += tr("not served. %1").arg(qt(its.why));
    } else {
        told += answer.job.plan.purpose == Purpose::charge
                    ? tr("takes %1 (%2), %3 of it; its part is out at gross %4.")
                          .arg(qt(its.serial), qt(its.why), qt(its.share), qt(its.stopAt))
                    : tr("takes %1 (%2), room for %3 in it; stop at gross %4.")
                          .arg(qt(its.serial), qt(its.why), qt(its.share), qt(its.stopAt));
    }
    m_why->setText(told);
    const auto add = [this](const QString& stays, const QString& rule, const QString& reason) {
        const int place = m_next->rowCount();
        m_next->insertRow(place);
        kit::cell(m_next, place, 0, stays);
        kit::cell(m_next, place, 1, rule);
        kit::cell(m_next, place, 2, reason);
    };
    for (const LeftOut& one : answer.next) {
        add(qt(one.serial), qt(one.rule), qt(one.reason));
    }
    if (!answer.served()) {
        for (const auto& [rule, count] : answer.stay) {
            add(tr("%1 more").arg(count), qt(rule), tr("plan the job alone to see why"));
        }
    }
    kit::fitColumns(m_next, 2);
    m_next->resizeRowsToContents();
    m_findings->setFindings(answer.findings);
    for (FindingCard* card : m_findings->cards()) {
        if (card->finding().rule == "plan.method") {
            card->setOpened(true); // steps are there to be read
        }
    }
}

void DayDialog::checkOut() {
    const QString name = m_person->currentText();
    if (!m_plan || name.isEmpty()) {
        return;
    }
    Shop& shop = m_desk.shop();
    const Review reviewed = reviewDay(shop, *m_plan, utf8(name));
    if (reviewed.refused()) {
        questions::tell(this, tr("Not handed out"),
                        tr("%1 %2").arg(qt(reviewed.reason()), qt(reviewed.findings.front().remedy)));
        say(tr("Not handed out: %1").arg(qt(reviewed.reason())));
        return;
    }
    QStringList lines{tr("To %1 for %2:").arg(name, qt(m_plan->day.text()))};
    for (const CheckOut& out : handOutsOf(*m_plan, utf8(name))) {
        QStringList serials;
        for (const std::string& serial : out.serials) {
            serials << qt(serial);
        }
        lines << (serials.isEmpty()
                      ? tr("%1: shares what goes out for an earlier job").arg(dayJobName(out.job))
                      : tr("%1: %2").arg(dayJobName(out.job), serials.join(QStringLiteral(", "))));
    }
    for (const Finding& finding : reviewed.findings) {
        if (finding.severity >= Severity::caution) {
            lines << tr("▲ %1: %2").arg(qt(finding.subject), qt(finding.headline));
        }
    }
    if (!questions::ask(this, tr("Check out?"), lines.join(QLatin1Char('\n')), tr("Check out"))) {
        return;
    }
    m_recording = true;
    const Recorded recorded = checkOutDay(shop, *m_plan, utf8(name));
    m_desk.notifyRecorded(recorded);
    m_recording = false;
    if (!recorded.ok()) {
        say(kit::told(recorded, tr("Not handed out")));
        return;
    }
    for (const DayAnswer& answer : m_plan->answers) {
        if (answer.job.person == utf8(name) && answer.served()) {
            m_handedOut.insert(answer.job.line);
        }
    }
    followPlan();
    const std::size_t count = m_plan->takenBy(utf8(name)).size();
    say(count == 1 ? tr("One cylinder handed to %1").arg(name)
                   : tr("%1 cylinders handed to %2").arg(count).arg(name));
}

void DayDialog::print() {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (m_plan && dialog.exec() == QDialog::Accepted) {
        drawDay(paperOf(m_desk.shop(), *m_plan), printer);
        say(tr("Printed"));
    }
}

void DayDialog::askPdf() {
    const QString path = QFileDialog::getSaveFileName(this, tr("The plan as a PDF"),
                                                      QStringLiteral("day.pdf"), tr("PDF (*.pdf)"));
    if (!path.isEmpty()) {
        (void)writePdf(path);
    }
}

bool DayDialog::writePdf(const QString& path) {
    const bool letter = m_desk.shop().settings().mass == MassUnit::pound;
    const bool written = m_plan && dayPdf(paperOf(m_desk.shop(), *m_plan), path, letter);
    say(written ? tr("Written: %1").arg(path) : tr("%1 cannot be written.").arg(path));
    return written;
}

void DayDialog::say(const QString& text) {
    m_said->setText(text);
    m_said->setVisible(!text.isEmpty());
}

} // namespace tarebook
