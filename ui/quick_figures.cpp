#include "ui/quick_figures.h"

#include "core/base/text.h"
#include "core/rules/retest_facts.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>

namespace tarebook {

QuickFiguresWindow::QuickFiguresWindow(Desk& desk, QWidget* parent) : QDialog(parent), m_desk(desk) {
    setObjectName(QStringLiteral("quickFigures"));
    setWindowTitle(tr("Quick figures"));
    auto* row = new QHBoxLayout(this);
    row->addWidget(buildFields(), 2);
    row->addWidget(buildAnswers(), 3);
    kit::roomyLabels(this);
    m_fields.at("specification").line->setFocus();
    const int line = fontMetrics().height();
    resize(line * 62, line * 40);
    connect(&m_desk, &Desk::changed, this, &QuickFiguresWindow::follow); // settings, own blends
    follow();
}

QWidget* QuickFiguresWindow::buildFields() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(
        kit::hint(tr("For a cylinder that is not on file, as its marks are read to you. Nothing is "
                     "recorded."),
                  part));
    auto* form = new QFormLayout;
    addField(*form, "specification", tr("S&pecification"), tr("DOT-4BA400, TC-4BAM28 …"));
    addField(*form, "capacity", tr("&Water capacity"), tr("47.7 lb, 21.6 l"));
    addField(*form, "tare", tr("&Tare"), tr("27.0 lb"));
    addField(*form, "contents", tr("&Contents"), tr("R-410A, R-22:0.7+R-410A:0.3"));
    addField(*form, "gross", tr("&Gross now"), tr("blank when empty"));
    addField(*form, "made", tr("&Made"), tr("2021-03, 3/21"));
    addField(*form, "tested", tr("&Last test"), tr("blank when there was none"));
    addField(*form, "suffix", tr("Mark be&hind it"), tr("E, S, star … or blank"));
    addField(*form, "filled", tr("Last &filled"), tr("2026-09-14, or blank"));
    m_recovery = new QCheckBox(tr("has held &recovered gas since that test"), part);
    m_recovery->setObjectName(QStringLiteral("quickRecovery"));
    m_recovery->setChecked(true);
    form->addRow(QString(), m_recovery);
    connect(m_recovery, &QCheckBox::toggled, this, &QuickFiguresWindow::follow);
    column->addLayout(form);
    m_problem = new QLabel(part);
    m_problem->setObjectName(QStringLiteral("quickProblem"));
    m_problem->setWordWrap(true);
    column->addWidget(m_problem);
    column->addStretch(1);
    column->addWidget(kit::hint(tr("Check the marks yourself before anything is filled. Local codes and "
                                   "licensed practice decide."),
                                part));
    return part;
}

QWidget* QuickFiguresWindow::buildAnswers() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    auto* first = new QHBoxLayout;
    first->addWidget(kit::figure(QStringLiteral("quickGross"), tr("gross at which to stop"), &m_gross, part));
    first->addWidget(kit::figure(QStringLiteral("quickNet"), tr("at most inside"), &m_net, part));
    first->addWidget(kit::figure(QStringLiteral("quickRoom"), tr("room left"), &m_room, part));
    first->addStretch(1);
    auto* second = new QHBoxLayout;
    second->addWidget(
        kit::figure(QStringLiteral("quickPressure"), tr("at 55 °C, 131 °F"), &m_pressure, part));
    second->addWidget(kit::figure(QStringLiteral("quickDue"), tr("retest due"), &m_due, part));
    second->addStretch(1);
    column->addLayout(first);
    column->addLayout(second);
    auto* area = new QScrollArea(part);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget(area);
    auto* insideColumn = new QVBoxLayout(inside);
    insideColumn->setContentsMargins(0, 0, fontMetrics().height() / 2, 0);
    m_findings = new FindingView(m_desk, inside);
    m_findings->setEmptyText(tr("The answers come as soon as specification, water capacity, tare, contents "
                                "and the month of manufacture are there."));
    insideColumn->addWidget(m_findings);
    insideColumn->addStretch(1);
    area->setWidget(inside);
    column->addWidget(area, 1);
    return part;
}

void QuickFiguresWindow::addField(QFormLayout& form, const char* name, const QString& caption,
                                  const QString& placeholder) {
    const ReadField field = ReadField::in(form, this, QStringLiteral("quick"), name, caption, placeholder);
    connect(field.line, &QLineEdit::textChanged, this, &QuickFiguresWindow::follow);
    m_fields[name] = field;
}

std::string QuickFiguresWindow::text(const char* name) const {
    return m_fields.at(name).text();
}

void QuickFiguresWindow::tell(const char* name, const std::string& understood, const Error* error) {
    m_fields.at(name).tell(understood, error);
}

std::optional<TalkedOf> QuickFiguresWindow::readAll() {
    const Display display = m_desk.shop().display();
    TalkedOf cylinder;
    Nameplate& plate = cylinder.plate;
    bool good = true;
    const auto take = [&](const char* name, const auto& result, auto understood, auto use) {
        if (result) {
            use(result.value());
            tell(name, understood(result.value()), nullptr);
        } else {
            tell(name, {}, &result.error());
            good = false;
        }
    };
    const auto given = [&](const char* name) {
        if (text(name).empty()) {
            tell(name, {}, nullptr);
            return false;
        }
        return true;
    };
    take(
        "specification", Specification::parse(text("specification")),
        [](const Specification& mark) { return mark.text(); },
        [&](const Specification& mark) { plate.specification = mark; });
    take(
        "capacity", WaterCapacity::parse(text("capacity")),
        [&](WaterCapacity capacity) { return display.mass(capacity.water()) + " of water"; },
        [&](WaterCapacity capacity) { plate.waterCapacity = capacity; });
    take(
        "tare", display.readMass(text("tare")), [&](Mass tare) { return display.mass(tare); },
        [&](Mass tare) { plate.tare = tare; });
    take(
        "contents", m_desk.shop().catalogue().contents(text("contents")),
        [&](const Contents& contents) { return m_desk.shop().catalogue().displayName(contents); },
        [&](const Contents&) { cylinder.contents = text("contents"); });
    if (given("gross")) {
        take(
            "gross", display.readMass(text("gross")),
            [&](Mass gross) {
                return display.mass(Mass::fromMilligrams(gross.milligrams() - plate.tare.milligrams())) +
                       " inside";
            },
            [&](Mass gross) {
                cylinder.inside = Mass::fromMilligrams(gross.milligrams() - plate.tare.milligrams());
            });
    }
    take(
        "made", MonthYear::parse(text("made")), [](MonthYear month) { return month.text(); },
        [&](MonthYear month) { plate.manufactured = month; });
    if (given("tested")) {
        take(
            "tested", MonthYear::parse(text("tested")), [](MonthYear month) { return month.text(); },
            [&](MonthYear month) { plate.lastTest = month; });
    }
    if (given("suffix")) {
        take(
            "suffix", parseMarkSuffix(text("suffix")), [](const std::string& suffix) { return suffix; },
            [&](const std::string& suffix) { plate.markSuffix = suffix; });
    }
    if (given("filled")) {
        take(
            "filled", Date::parse(text("filled")), [](Date day) { return day.text(); },
            [&](Date day) { cylinder.lastFilled = day; });
    }
    cylinder.recoveryUse = m_recovery->isChecked();
    return good ? std::optional<TalkedOf>(std::move(cylinder)) : std::nullopt;
}

void QuickFiguresWindow::follow() {
    for (QLabel* label : {m_net, m_gross, m_room, m_pressure, m_due}) {
        label->setText(QStringLiteral("–"));
    }
    m_problem->clear();
    m_findings->setFindings({});
    const auto cylinder = readAll();
    if (!cylinder) {
        return;
    }
    const Shop& shop = m_desk.shop();
    if (cylinder->inside && cylinder->inside->milligrams() < 0) {
        m_problem->setText(tr("The gross weight is below the tare: read both again."));
        return;
    }
    const auto found = quickFigures(shop, *cylinder, shop.today());
    if (!found) {
        m_problem->setText(qt(found.error().text()));
        return;
    }
    const QuickFigures& figures = found.value();
    const Display display = shop.display();
    if (figures.limits.known) {
        m_net->setText(qt(display.limit(figures.limits.net)));
        m_gross->setText(qt(display.limit(figures.limits.grossToStop)));
        m_room->setText(qt(display.limit(figures.limits.room)));
    } else {
        m_problem->setText(tr("No limit: %1").arg(qt(figures.limits.problem)));
    }
    m_pressure->setText(figures.limits.at55.kilopascal() > 0 ? qt(display.pressure(figures.limits.at55))
                                                             : QStringLiteral("–"));
    m_due->setText(figures.due.empty() ? QStringLiteral("–") : qt(figures.due));
    m_findings->setFindings(figures.findings);
}

} // namespace tarebook
