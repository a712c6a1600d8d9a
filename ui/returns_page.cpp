#include "ui/returns_page.h"

#include <algorithm>

#include "core/shop/came_back.h"
#include "core/shop/register.h"
#include "ui/batch_load.h"
#include "ui/batch_steps.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/pages.h"
#include "ui/pickers.h"
#include "ui/scroll_side.h"
#include "ui/shipping_dialog.h"
#include "ui/wrapping_row.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QTableWidget>

namespace tarebook {
namespace {

constexpr int kWhyColumn = 5;

QPushButton* stepButton(const QString& text, const char* name, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QLatin1String(name));
    return button;
}

/// A place for a table that takes what is left, and gives way, down to two rows, before its half scrolls. The
/// place has a layout of its own because one that wraps would forget the least height of the table.
QWidget* yielding(QTableWidget* table, QWidget* parent) {
    auto* place = new QWidget(parent);
    auto* inside = new QVBoxLayout(place);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->addWidget(table);
    table->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
    kit::showRows(table, 2);
    return place;
}

} // namespace

ReturnsPage::ReturnsPage(Desk& desk, QWidget* parent) : Page(parent), m_desk(desk) {
    setObjectName(QStringLiteral("returnsPage"));
    auto* column = new QVBoxLayout(this);
    const int line = fontMetrics().height();
    column->setContentsMargins(line, line / 2, line, line / 2);
    auto* splitter = new QSplitter(Qt::Vertical, this);
    splitter->setChildrenCollapsible(false);
    // Where the type is large and the window is not, each half scrolls.
    for (QWidget* part : {buildCandidates(), buildBatches()}) {
        auto* area = new ScrollSide(splitter);
        area->column().setContentsMargins(0, 0, 0, 0);
        area->column().addWidget(part);
        splitter->addWidget(area);
    }
    column->addWidget(splitter);
}

QWidget* ReturnsPage::buildCandidates() {
    auto* part = new QWidget(this);
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(kit::heading(tr("May go, and may not"), part));
    m_candidates = kit::table(QStringLiteral("candidates"),
                              {tr("Cylinder"), tr("Line"), tr("Net"), tr("Gross"), tr("Gas of"),
                               tr("Shipping description, or why it stays")},
                              part);
    column->addWidget(yielding(m_candidates, part), 1);
    m_findings = new FindingView(m_desk, part);
    m_findings->setObjectName(QStringLiteral("batchFindings"));
    column->addWidget(m_findings);
    auto* row = new WrappingRow;
    auto* label = new QLabel(tr("&Reclaimer"), part);
    m_reclaimer = searchBox(QStringLiteral("batchReclaimer"), tr("Reclaimer"), part);
    label->setBuddy(m_reclaimer);
    m_sum = new QLabel(part);
    m_sum->setObjectName(QStringLiteral("batchSum"));
    m_propose = stepButton(tr("Propose the &best"), "batchPropose", part);
    m_propose->setToolTip(
        tr("Ticks the best batch by the terms of this reclaimer, and says what to decant first"));
    m_working = stepButton(tr("&Working…"), "batchWorking", part);
    m_working->setToolTip(tr("The price of every cylinder that was proposed, the fees, and the credit"));
    m_working->setEnabled(false);
    m_terms = stepButton(tr("&Terms…"), "batchTerms", part);
    m_terms->setToolTip(tr("On what terms this reclaimer takes gas: to read and to change"));
    m_empties = new QCheckBox(tr("&Empties too"), part);
    m_empties->setObjectName(QStringLiteral("batchEmpties"));
    m_empties->setToolTip(
        tr("Lists the cylinders that hold nothing as well: they go back to whom they belong, "
           "or in exchange"));
    m_prepare = stepButton(tr("Prepare the batch"), "batchPrepare", part);
    kit::makePrimary(m_prepare);
    row->addWidget(label);
    row->addWidget(m_reclaimer);
    row->addWidget(m_terms);
    row->addWidget(m_propose);
    row->addWidget(m_working);
    column->addLayout(row);
    auto* last = new WrappingRow; // whole at twice the type size, too
    last->addWidget(m_sum);
    last->addWidget(m_empties);
    last->addWidget(m_prepare);
    column->addLayout(last);
    m_load = kit::hint({}, part);
    m_load->setObjectName(QStringLiteral("batchLoad"));
    column->addWidget(m_load);
    m_proposal = new QLabel(part);
    m_proposal->setObjectName(QStringLiteral("batchProposal"));
    m_proposal->setTextFormat(Qt::PlainText);
    m_proposal->setWordWrap(true);
    // In large type a proposal is taller than a small window: it scrolls, and no button is squeezed.
    m_proposalSide = new QScrollArea(part);
    m_proposalSide->setAccessibleName(tr("The proposal"));
    m_proposalSide->setWidgetResizable(true);
    m_proposalSide->setFrameShape(QFrame::NoFrame);
    m_proposalSide->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    m_proposalSide->setMinimumHeight(fontMetrics().height() * 3);
    m_proposalSide->setWidget(m_proposal);
    m_proposal->hide();
    m_proposalSide->hide();
    column->addWidget(m_proposalSide);
    connect(m_candidates, &QTableWidget::itemChanged, this, &ReturnsPage::followChoice);
    connect(m_reclaimer, &QComboBox::currentTextChanged, this, &ReturnsPage::followChoice);
    connect(m_empties, &QCheckBox::toggled, this, &ReturnsPage::refresh);
    connect(m_propose, &QPushButton::clicked, this, &ReturnsPage::propose);
    connect(m_working, &QPushButton::clicked, this, &ReturnsPage::showWorking);
    connect(m_terms, &QPushButton::clicked, this, &ReturnsPage::changeTerms);
    connect(m_prepare, &QPushButton::clicked, this, &ReturnsPage::prepare);
    return part;
}

QWidget* ReturnsPage::buildBatches() {
    auto* part = new QWidget(this);
    auto* row = new QHBoxLayout(part);
    row->setContentsMargins(0, 0, 0, 0);
    auto* left = new QVBoxLayout;
    left->addWidget(kit::heading(tr("Batches"), part));
    m_batches =
        kit::table(QStringLiteral("batches"), {tr("Batch"), tr("Reclaimer"), tr("Stands"), tr("Net")}, part);
    left->addWidget(yielding(m_batches, part), 1);
    auto* right = new QVBoxLayout;
    m_batchNote = new QLabel(part);
    m_batchNote->setObjectName(QStringLiteral("batchNote"));
    m_batchNote->setWordWrap(true);
    right->addWidget(m_batchNote);
    m_lines = kit::table(
        QStringLiteral("batchLines"),
        {tr("Cylinder"), tr("Contents"), tr("Gross"), tr("Net"), tr("Received"), tr("Analysis")}, part);
    right->addWidget(yielding(m_lines, part), 1);
    m_look = stepButton(tr("Look at the manifest…"), "batchLook", part);
    m_pdf = stepButton(tr("As PDF…"), "batchPdf", part);
    m_print = stepButton(tr("Print…"), "batchPrint", part);
    m_ship = stepButton(tr("It left…"), "batchShip", part);
    m_receive = stepButton(tr("Receipt…"), "batchReceive", part);
    m_differences = stepButton(tr("&Differences…"), "batchDifferences", part);
    m_settle = stepButton(tr("Settle…"), "batchSettle", part);
    m_shipping = stepButton(tr("Shipping paper…"), "batchShipping", part);
    for (const auto& buttons : {std::vector{m_look, m_pdf, m_print, m_shipping},
                                std::vector{m_ship, m_receive, m_differences, m_settle}}) {
        auto* steps = new WrappingRow;
        for (QPushButton* button : buttons) {
            steps->addWidget(button);
        }
        right->addLayout(steps);
    }
    row->addLayout(left, 2);
    row->addLayout(right, 3);
    connect(m_batches, &QTableWidget::currentCellChanged, this, &ReturnsPage::showBatch);
    connect(m_pdf, &QPushButton::clicked, this, [this] { (void)savePdf({}); });
    connect(m_print, &QPushButton::clicked, this, &ReturnsPage::print);
    using Step = void (*)(Desk&, QWidget*, const QString&);
    for (const auto& [button, step] :
         std::initializer_list<std::pair<QPushButton*, Step>>{{m_look, previewStep},
                                                              {m_shipping, shippingPaperStep},
                                                              {m_ship, shipStep},
                                                              {m_receive, receiveStep},
                                                              {m_differences, differencesStep},
                                                              {m_settle, settleStep}}) {
        connect(button, &QPushButton::clicked, this,
                [this, step = step] { step(m_desk, this, chosenBatch()); });
    }
    return part;
}

void ReturnsPage::refresh() {
    m_proposal->hide();
    m_proposalSide->hide(); // it was about the books as they were
    m_proposed.reset();
    m_working->setEnabled(false);
    const QString batchBefore = chosenBatch();
    const auto chosen = chosenSerials();
    auto list = returnCandidates(m_desk.shop(), m_empties->isChecked());
    m_list = list ? std::move(list).value() : std::vector<ReturnCandidate>();
    const Display display = m_desk.shop().display();
    const QSignalBlocker quiet(m_candidates);
    m_candidates->setRowCount(0);
    for (const ReturnCandidate& candidate : m_list) {
        const int row = m_candidates->rowCount();
        m_candidates->insertRow(row);
        auto* first = kit::cell(m_candidates, row, 0, qt(candidate.serial));
        if (candidate.eligible) {
            const bool was = std::find(chosen.begin(), chosen.end(), candidate.serial) != chosen.end();
            first->setFlags(first->flags() | Qt::ItemIsUserCheckable);
            first->setCheckState(was ? Qt::Checked : Qt::Unchecked);
        }
        kit::cell(m_candidates, row, 1, qt(candidate.line));
        kit::cell(m_candidates, row, 2, qt(display.mass(candidate.net)), true);
        kit::cell(m_candidates, row, 3, qt(display.mass(candidate.gross)), true);
        kit::cell(m_candidates, row, 4, qt(candidate.owner));
        kit::cell(m_candidates, row, kWhyColumn,
                  candidate.eligible ? qt(candidate.shipping)
                                     : tr("Stays: %1 %2").arg(qt(candidate.reason), qt(candidate.remedy)));
    }
    kit::fitColumns(m_candidates, kWhyColumn);
    fillTakers(*m_reclaimer, m_desk);
    const auto all = batches(m_desk.shop());
    m_batches->setRowCount(0);
    for (const Batch& batch : all ? all.value() : std::vector<Batch>()) {
        const int row = m_batches->rowCount();
        m_batches->insertRow(row);
        kit::cell(m_batches, row, 0, qt(batch.name));
        kit::cell(m_batches, row, 1, qt(batch.reclaimer));
        kit::cell(m_batches, row, 2, qt(batch.standing()));
        kit::cell(m_batches, row, 3, qt(display.mass(batch.net())), true);
        if (qt(batch.name) == batchBefore) {
            m_batches->selectRow(row);
        }
    }
    kit::fitColumns(m_batches, 1);
    if (m_batches->currentRow() < 0 && m_batches->rowCount() > 0) {
        m_batches->selectRow(0);
    }
    followChoice();
    showBatch();
}

std::vector<std::string> ReturnsPage::chosenSerials() const {
    std::vector<std::string> serials;
    for (int row = 0; row < m_candidates->rowCount(); ++row) {
        const QTableWidgetItem* item = m_candidates->item(row, 0);
        if (item != nullptr && (item->flags() & Qt::ItemIsUserCheckable) != 0 &&
            item->checkState() == Qt::Checked) {
            serials.push_back(utf8(item->text()));
        }
    }
    return serials;
}

QString ReturnsPage::chosenBatch() const {
    const int row = m_batches->currentRow();
    return row < 0 || m_batches->item(row, 0) == nullptr ? QString() : m_batches->item(row, 0)->text();
}

void ReturnsPage::followChoice() {
    const auto serials = chosenSerials();
    std::int64_t gross = 0;
    for (const ReturnCandidate& candidate : m_list) {
        if (std::find(serials.begin(), serials.end(), candidate.serial) != serials.end()) {
            gross += candidate.gross.milligrams();
        }
    }
    m_sum->setText(serials.empty() ? tr("Tick the cylinders that go.")
                                   : tr("%1 chosen, %2 gross")
                                         .arg(serials.size())
                                         .arg(qt(m_desk.shop().display().mass(Mass::fromMilligrams(gross)))));
    const QString load = loadWords(m_desk.shop(), serials);
    m_load->setText(load);
    m_load->setVisible(!load.isEmpty());
    if (serials.empty()) {
        m_findings->setFindings({});
        m_prepare->setEnabled(false);
        return;
    }
    const Review reviewed = reviewBatch(m_desk.shop(), utf8(chosenIn(*m_reclaimer)), serials);
    std::vector<Finding> told;
    for (const Finding& finding : reviewed.findings) {
        if (finding.severity > Severity::note) {
            told.push_back(finding);
        }
    }
    m_findings->setFindings(told);
    m_prepare->setEnabled(!reviewed.refused());
}

void ReturnsPage::showBatch() {
    const auto its = batch(m_desk.shop(), utf8(chosenBatch()));
    m_lines->setRowCount(0);
    const std::string status = its ? its.value().status : "";
    m_look->setEnabled(its.ok());
    m_pdf->setEnabled(its.ok());
    m_print->setEnabled(its.ok());
    m_shipping->setEnabled(its.ok());
    m_shipping->setText(shippingPaperName(m_desk.shop()));
    m_ship->setEnabled(status == "prepared");
    m_receive->setEnabled((status == "shipped" || status == "received") && !its.value().unreceived().empty());
    m_differences->setEnabled(status == "received" || status == "settled");
    const bool bare = its && its.value().empties() == its.value().lines.size();
    m_settle->setEnabled(status == "received" || (status == "shipped" && bare));
    if (!its) {
        m_batchNote->setText(tr("No batch chosen."));
        return;
    }
    const Batch& shown = its.value();
    const Display display = m_desk.shop().display();
    const std::string back = cameBackText(m_desk.shop(), shown);
    m_batchNote->setText(
        tr("%1 for %2: %3 cylinders, %4 gross, %5 net. %6%7%8")
            .arg(qt(shown.name), qt(shown.reclaimer))
            .arg(shown.lines.size())
            .arg(qt(display.mass(shown.gross())), qt(display.mass(shown.net())), qt(shown.standing()),
                 shown.reference.empty() ? QString() : tr(", receipt %1").arg(qt(shown.reference)),
                 back.empty() ? QString() : QStringLiteral(". ") + qt(back)));
    for (const BatchLine& line : shown.lines) {
        const int row = m_lines->rowCount();
        m_lines->insertRow(row);
        kit::cell(m_lines, row, 0, qt(line.serial));
        kit::cell(m_lines, row, 1, qt(line.content));
        kit::cell(m_lines, row, 2, qt(display.mass(line.gross)), true);
        kit::cell(m_lines, row, 3, qt(display.mass(line.net)), true);
        QString received;
        if (line.receivedNet) {
            const std::int64_t off = line.receivedNet->milligrams() - line.net.milligrams();
            received = tr("%1 (%2)").arg(qt(display.mass(*line.receivedNet)),
                                         qt(display.mass(Mass::fromMilligrams(off))));
        }
        kit::cell(m_lines, row, 4, received, true);
        kit::cell(m_lines, row, 5, qt(line.analysis));
    }
    kit::fitColumns(m_lines, 1);
}

void ReturnsPage::tell(const Recorded& recorded, const QString& done) {
    m_desk.notifyRecorded(recorded);
    m_desk.say(recorded.ok() ? done : kit::told(recorded, tr("Not entered")));
}

void ReturnsPage::prepare() {
    Shop& shop = m_desk.shop();
    const QString reclaimer = chosenIn(*m_reclaimer);
    const PreparedBatch its = prepareNextBatch(shop, utf8(reclaimer), chosenSerials());
    tell(its.recorded, tr("Batch %1 stands ready for %2").arg(qt(its.name), reclaimer));
    (void)begin(Errand::batch, qt(its.name));
}

bool ReturnsPage::scan(const QString& text) {
    for (int row = 0; row < m_candidates->rowCount(); ++row) {
        QTableWidgetItem* item = m_candidates->item(row, 0);
        if (item->text().compare(text.trimmed(), Qt::CaseInsensitive) != 0) {
            continue;
        }
        if ((item->flags() & Qt::ItemIsUserCheckable) == 0) {
            m_desk.say(tr("%1 stays: %2").arg(item->text(), m_candidates->item(row, kWhyColumn)->text()));
        } else {
            item->setCheckState(item->checkState() == Qt::Checked ? Qt::Unchecked : Qt::Checked);
        }
        return true;
    }
    return false;
}

bool ReturnsPage::begin(Errand errand, const QString& subject) {
    if (errand != Errand::batch) {
        return false;
    }
    for (int row = 0; row < m_batches->rowCount(); ++row) {
        if (m_batches->item(row, 0)->text() == subject) {
            m_batches->selectRow(row);
            return true;
        }
    }
    refresh();
    for (int row = 0; row < m_batches->rowCount(); ++row) {
        if (m_batches->item(row, 0)->text() == subject) {
            m_batches->selectRow(row);
        }
    }
    return true;
}

Page* makeReturnsPage(Desk& desk) {
    return new ReturnsPage(desk);
}

} // namespace tarebook
