#include "ui/differences_dialog.h"

#include "core/shop/settlement.h"
#include "ui/desk.h"
#include "ui/facts_dialog.h"
#include "ui/kit.h"
#include "ui/parents_dialog.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QLabel>
#include <QPushButton>
#include <QScreen>
#include <QScrollArea>
#include <QTableWidget>

namespace tarebook {
namespace {

enum Column { serial, shipped, received, difference, off, payable, cause, verdict, analysis };

QString resultOf(const ReceiptLine& line) {
    const QString result = qt(std::string(analysisResultWord(line.result)));
    return line.analysis.empty() ? result
           : result.isEmpty()    ? qt(line.analysis)
                                 : QStringLiteral("%1, %2").arg(qt(line.analysis), result);
}

QString takenOff(const ReceiptLine& line, const Display& display) {
    QStringList parts;
    for (const Deduction& one : line.deductions) {
        parts << QStringLiteral("%1 %2").arg(qt(one.what), qt(display.mass(one.mass)));
    }
    return parts.join(QStringLiteral(", "));
}

QPushButton* decision(const QString& text, const char* name, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QLatin1String(name));
    button->setAutoDefault(false);
    return button;
}

} // namespace

DifferencesDialog::DifferencesDialog(Desk& desk, QString batch, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_name(std::move(batch)), m_sums(new QLabel(this)),
      m_table(kit::table(QStringLiteral("differences"),
                         {tr("Cylinder"), tr("Shipped"), tr("Received"), tr("Difference"), tr("Taken off"),
                          tr("Payable"), tr("Likeliest cause"), tr("We say"), tr("Analysis")},
                         this)),
      m_causes(new QLabel(this)), m_working(new QLabel(this)) {
    setObjectName(QStringLiteral("differencesDialog"));
    setWindowTitle(tr("Receipt of batch %1").arg(m_name));
    m_sums->setObjectName(QStringLiteral("differencesSums"));
    m_causes->setObjectName(QStringLiteral("differencesCauses"));
    m_working->setObjectName(QStringLiteral("differencesWorking"));
    for (QLabel* label : {m_sums, m_causes, m_working}) {
        label->setWordWrap(true);
        label->setTextFormat(Qt::PlainText);
    }
    m_accept = decision(tr("&Accept"), "differencesAccept", this);
    m_dispute = decision(tr("&Dispute…"), "differencesDispute", this);
    m_correct = decision(tr("C&orrect…"), "differencesCorrect", this);
    m_parents = decision(tr("&Parents…"), "differencesParents", this);
    m_parents->setToolTip(tr("Whose gas, which jobs and whose machine are behind this cylinder"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* row = new QHBoxLayout;
    for (QPushButton* button : {m_accept, m_dispute, m_correct, m_parents}) {
        row->addWidget(button);
    }
    row->addStretch(1);
    row->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_table, &QTableWidget::currentCellChanged, this, &DifferencesDialog::showLine);
    connect(m_accept, &QPushButton::clicked, this, [this] {
        decide({utf8(chosen()), ReceiptVerdict::accepted}, tr("%1 accepted").arg(chosen()));
    });
    connect(m_dispute, &QPushButton::clicked, this, &DifferencesDialog::dispute);
    connect(m_correct, &QPushButton::clicked, this, &DifferencesDialog::correct);
    connect(m_parents, &QPushButton::clicked, this, &DifferencesDialog::showParents);
    auto* column = new QVBoxLayout(this);
    column->addWidget(m_sums);
    column->addWidget(m_table, 1);
    // What there is to tell scrolls where it is long or the type large, so that the buttons stay in sight.
    auto* told = new QWidget(this);
    auto* lines = new QVBoxLayout(told);
    lines->setContentsMargins(0, 0, 0, 0);
    lines->addWidget(m_causes);
    lines->addWidget(m_working);
    lines->addStretch(1);
    auto* scroll = new QScrollArea(this);
    scroll->setObjectName(QStringLiteral("differencesTold"));
    scroll->setAccessibleName(tr("Likely causes, and the working of the credit"));
    scroll->setWidget(told);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    column->addWidget(scroll, 1);
    column->addLayout(row);
    const int line = fontMetrics().height();
    resize(QSize(line * 62, line * 28).boundedTo(screen()->availableSize()));
    refresh();
}

QString DifferencesDialog::chosen() const {
    const int row = m_table->currentRow();
    return row < 0 ? QString() : m_table->item(row, serial)->text();
}

void DifferencesDialog::refresh() {
    const QString before = chosen();
    const auto its = batch(m_desk.shop(), utf8(m_name));
    const auto differences = its ? compareReceipt(m_desk.shop(), its.value())
                                 : Result<std::vector<ReceiptDifference>>(its.error());
    const auto money = its ? settlementOf(m_desk.shop(), its.value()) : Result<Settlement>(its.error());
    const QSignalBlocker quiet(m_table);
    m_table->setRowCount(0);
    m_differences.clear();
    if (!differences || !money) {
        m_sums->setText(qt(differences ? money.error().text() : differences.error().text()));
        showLine();
        return;
    }
    m_batch = its.value();
    m_differences = differences.value();
    const Display display = m_desk.shop().display();
    m_sums->setText(tr("Shipped %1, received %2, payable %3.")
                        .arg(qt(display.mass(money.value().shipped)),
                             qt(display.mass(money.value().received)),
                             qt(display.mass(money.value().payable))));
    for (const ReceiptDifference& one : m_differences) {
        const auto line = std::find_if(m_batch.lines.begin(), m_batch.lines.end(),
                                       [&](const BatchLine& any) { return any.serial == one.serial; });
        const ReceiptLine& receipt = *line->receipt;
        const int row = m_table->rowCount();
        m_table->insertRow(row);
        kit::cell(m_table, row, serial, qt(one.serial));
        kit::cell(m_table, row, shipped, qt(display.mass(line->net)), true);
        kit::cell(m_table, row, received, qt(display.mass(receipt.net())), true);
        kit::cell(m_table, row, difference, qt(display.mass(one.difference)), true);
        kit::cell(m_table, row, off, takenOff(receipt, display));
        kit::cell(m_table, row, payable, qt(display.mass(receipt.payable())), true);
        kit::cell(m_table, row, cause,
                  one.explanations.empty()
                      ? QString()
                      : qt(std::string(receiptCauseWord(one.explanations.front().cause))));
        kit::cell(m_table, row, analysis, resultOf(receipt));
        kit::cell(m_table, row, verdict, qt(std::string(receiptVerdictWord(receipt.verdict))));
        if (qt(one.serial) == before) {
            m_table->selectRow(row);
        }
    }
    kit::fitColumns(m_table, -1);
    if (m_table->currentRow() < 0 && m_table->rowCount() > 0) {
        m_table->selectRow(0);
    }
    QStringList steps;
    for (const std::string& step : money.value().working) {
        steps << qt(step);
    }
    constexpr qsizetype kMostShown = 6;
    m_working->setToolTip(steps.join(QLatin1Char('\n')));
    m_working->setText(steps.size() <= kMostShown ? steps.join(QLatin1Char('\n')) : steps.last());
    showLine();
}

void DifferencesDialog::showLine() {
    const int row = m_table->currentRow();
    const bool any = row >= 0 && row < static_cast<int>(m_differences.size());
    const bool open = any && m_batch.status == "received";
    m_accept->setEnabled(open);
    m_dispute->setEnabled(open);
    m_correct->setEnabled(open);
    m_parents->setEnabled(any);
    QStringList told;
    if (any) {
        for (const ReceiptExplanation& one : m_differences[static_cast<std::size_t>(row)].explanations) {
            told << QStringLiteral("%1. %2").arg(qt(one.evidence), qt(one.advice));
        }
        const auto& name = m_differences[static_cast<std::size_t>(row)].serial;
        for (const BatchLine& line : m_batch.lines) {
            if (line.serial == name && line.receipt && !line.receipt->why.empty()) {
                told << tr("We said: %1").arg(qt(line.receipt->why));
            }
        }
    }
    m_causes->setText(told.join(QLatin1Char('\n')));
}

void DifferencesDialog::decide(const ReceiptDecision& decision, const QString& done) {
    const Sequence looked = m_batch.newest();
    const Recorded recorded = decideReceipt(m_desk.shop(), utf8(m_name), {decision}, {}, looked);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
        refresh(); // another desk may have decided it
        return;
    }
    m_desk.say(done);
    refresh();
}

void DifferencesDialog::dispute() {
    const QString name = chosen();
    const auto why = questions::askText(
        this, tr("Dispute %1").arg(name),
        tr("What is the reclaimer asked? The batch is not settled before they have answered."),
        tr("Dispute it"));
    if (why) {
        decide({utf8(name), ReceiptVerdict::disputed, utf8(*why)}, tr("%1 disputed").arg(name));
    }
}

void DifferencesDialog::correct() {
    const QString name = chosen();
    const ReceiptDifference& its = m_differences[static_cast<std::size_t>(m_table->currentRow())];
    const Display display = m_desk.shop().display();
    FactsAsked asked;
    asked.title = tr("Correct %1").arg(name);
    asked.explanation = tr("The weights that are right. What was entered before stays visible in the books.");
    const auto suggested = [&](const std::optional<Mass> ReceiptExplanation::*weight) {
        return its.explanations.empty() || !(its.explanations.front().*weight)
                   ? QString()
                   : qt((its.explanations.front().*weight)->kilogramsText());
    };
    asked.facts = {{QStringLiteral("gross"),
                    tr("&Gross"),
                    QStringLiteral("49.9 lb"),
                    Fact::Kind::line,
                    {},
                    suggested(&ReceiptExplanation::gross)},
                   {QStringLiteral("tare"),
                    tr("&Tare"),
                    QStringLiteral("28.1 lb"),
                    Fact::Kind::line,
                    {},
                    suggested(&ReceiptExplanation::tare)}};
    asked.yes = tr("Correct it");
    asked.problem = [display](const Facts& facts) {
        const auto gross = display.readMass(utf8(facts.at(QStringLiteral("gross"))));
        const auto tare = display.readMass(utf8(facts.at(QStringLiteral("tare"))));
        return gross && tare ? QString() : qt(gross ? tare.error().text() : gross.error().text());
    };
    const auto facts = questions::askFacts(this, asked);
    if (!facts) {
        return;
    }
    const auto gross = display.readMass(utf8(facts->at(QStringLiteral("gross"))));
    const auto tare = display.readMass(utf8(facts->at(QStringLiteral("tare"))));
    if (!gross || !tare) {
        questions::tell(this, tr("Not entered"), qt(gross ? tare.error().text() : gross.error().text()));
        return;
    }
    decide({utf8(name), ReceiptVerdict::corrected, {}, gross.value(), tare.value()},
           tr("%1 corrected").arg(name));
}

void DifferencesDialog::showParents() {
    if (ParentsDialog(m_desk, m_batch, chosen(), this).exec() == QDialog::Accepted) {
        accept(); // the person has gone to the books
    }
}

} // namespace tarebook
