#include "ui/refrigerant_window.h"

#include "core/shop/identity.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/saturation_curve.h"
#include "ui/theme.h"
#include "ui/typed_quantities.h"

#include <QLabel>
#include <QLineEdit>
#include <QTableWidget>

namespace tarebook {

void RefrigerantWindow::showMarks() {
    const auto made = whatIf(m_desk.shop(), utf8(asked()));
    m_marks->setRowCount(0);
    if (!made) {
        m_at55->setText(QStringLiteral("–"));
        m_mark->setText(QStringLiteral("–"));
        return;
    }
    const WhatIf& what = made.value();
    m_at55->setText(what.at55 ? qt(m_desk.shop().display().pressure(*what.at55)) : tr("no liquid"));
    m_mark->setText(what.weakestMark.empty() ? tr("none") : qt(what.weakestMark));
    for (const MarkVerdict& verdict : what.marks) {
        const int row = m_marks->rowCount();
        m_marks->insertRow(row);
        kit::cell(m_marks, row, 0, qt(verdict.mark));
        auto* told = kit::cell(m_marks, row, 1,
                               !verdict.suits ? tr("does not suit")
                               : verdict.thin ? tr("suits, thinly")
                                              : tr("suits"));
        const Severity severity = !verdict.suits ? Severity::danger
                                  : verdict.thin ? Severity::caution
                                                 : Severity::note;
        told->setIcon(theme::mark(severity, palette(), fontMetrics().height(), devicePixelRatioF()));
        told->setToolTip(qt(verdict.working + " (" + verdict.citation + ")"));
    }
    kit::fitColumns(m_marks, 1);
    int weakest = 0; // the mark that the figure above names
    for (std::size_t place = 0; place < what.marks.size(); ++place) {
        weakest = what.marks[place].mark == what.weakestMark ? static_cast<int>(place) : weakest;
    }
    m_marks->setCurrentCell(m_marks->rowCount() > 0 ? weakest : -1, 0);
}

void RefrigerantWindow::showCylinder() {
    const QString serial = m_cylinder->text().trimmed();
    m_curve->setLimit(std::nullopt, {});
    if (serial.isEmpty() || !m_card) {
        m_cylinderText->clear();
        return;
    }
    const auto known = m_desk.shop().store().cylinder(utf8(serial));
    if (!known || !known.value()) {
        m_cylinderText->setText(tr("%1 is not in the register").arg(serial));
        return;
    }
    CylinderState asEmpty = *known.value();
    asEmpty.content = Holding();
    const Limits limits = limitsFor(m_desk.shop(), asEmpty, utf8(asked()));
    const Display display = m_desk.shop().display();
    if (!limits.known) {
        m_cylinderText->setText(qt(limits.problem));
        return;
    }
    const Mass inside = known.value()->content.total();
    QString text = tr("%1, empty, would take %2; stop at %3 gross. Pressure: %4")
                       .arg(serial, qt(display.limit(limits.net)), qt(display.limit(limits.grossToStop)),
                            qt(limits.pressureWorking));
    if (inside.milligrams() > 0) {
        text +=
            tr("\nIt holds %1 %2 now; were that all of these contents, %3 more would go in.")
                .arg(qt(display.mass(inside)), qt(contentName(known.value()->content)),
                     qt(display.limit(Mass::fromMilligrams(limits.net.milligrams() - inside.milligrams()))));
    }
    m_cylinderText->setText(text);
    if (limits.pressureLimit.kilopascal() > 0) {
        m_curve->setLimit(limits.pressureLimit,
                          tr("limit of %1: %2").arg(serial, qt(display.pressure(limits.pressureLimit))));
    }
}

void RefrigerantWindow::showTable(const RefrigerantCard& card) {
    m_table->setRowCount(0);
    for (const CardRow& row : card.rows) {
        const int at = m_table->rowCount();
        m_table->insertRow(at);
        kit::cell(m_table, at, 0, QString::number(row.temperature.fahrenheit(), 'f', 0), true);
        kit::cell(m_table, at, 1, QString::number(row.temperature.celsius(), 'f', 0), true);
        if (!row.state) {
            kit::cell(m_table, at, 2, tr("–"), true)->setToolTip(qt(row.state.error().text()));
            continue;
        }
        const Saturation& state = row.state.value();
        const double figures[] = {state.bubble.gauge().psi(), state.bubble.gauge().bar(),
                                  state.dew.gauge().psi(), state.dew.gauge().bar(),
                                  state.liquid.kilogramsPerCubicMetre()};
        const int digits[] = {1, 2, 1, 2, 1};
        for (int column = 0; column < 5; ++column) {
            kit::cell(m_table, at, column + 2, QString::number(figures[column], 'f', digits[column]), true);
        }
    }
    kit::fitColumns(m_table, 6);
}

void RefrigerantWindow::showMeasured() {
    m_curve->setMeasured(std::nullopt, {});
    m_measured->clear();
    if (!m_card || m_temperature->text().trimmed().isEmpty() || m_pressure->text().trimmed().isEmpty()) {
        return;
    }
    const Settings& settings = m_desk.shop().settings();
    const auto temperature = readTemperature(m_temperature->text(), settings.temperature);
    const auto pressure = readPressure(m_pressure->text(), settings.pressure);
    if (!temperature || !pressure) {
        m_measured->setText(qt((temperature ? pressure.error() : temperature.error()).text()));
        return;
    }
    const SaturationCurve::Point point{temperature.value(), pressure.value()};
    PressureReading reading;
    reading.temperature = temperature.value();
    reading.pressure = pressure.value();
    takeSettings(settings.own, reading);
    const Catalogue& catalogue = m_desk.shop().catalogue();
    const auto check = checkIdentity(m_desk.shop().limitSource().contentsRules(), catalogue, m_card->contents,
                                     catalogue.displayName(m_card->contents), reading, {});
    if (!check) {
        m_curve->setMeasured(point, tr("measured"));
        m_measured->setText(qt(check.error().text()));
        return;
    }
    m_curve->setMeasured(point, tr("measured: %1").arg(qt(verdictWord(check.value().verdict))));
    const Finding& finding = check.value().finding;
    QStringList lines{qt(finding.headline + (finding.remedy.empty() ? "" : " " + finding.remedy))};
    for (const std::string& line : finding.working) {
        QString sentence = qt(line);
        sentence[0] = sentence[0].toUpper();
        lines.append(sentence + QLatin1Char('.'));
    }
    m_measured->setText(lines.join(QLatin1Char('\n')));
}

} // namespace tarebook
