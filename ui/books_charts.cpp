// Of the books: the pictures of answers, and what is behind a point of one.
#include "core/shop/earlier.h"
#include "ui/books_page.h"
#include "ui/chart_drawing.h"
#include "ui/desk.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/pickers.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kRowsAlone = 3; // of the answer's table, and fewer where a picture takes its room
constexpr int kRowsUnderPicture = 2;

QString daysWords(const std::pair<Date, Date>& days) {
    return days.first == days.second
               ? QObject::tr("of %1").arg(qt(days.first.text()))
               : QObject::tr("from %1 to %2").arg(qt(days.first.text()), qt(days.second.text()));
}

} // namespace

QWidget* BooksPage::buildGas(QWidget* part) {
    m_gas = searchBox(QStringLiteral("bookGas"), tr("Refrigerant or owner"), part);
    connect(m_gas->lineEdit(), &QLineEdit::returnPressed, this, &BooksPage::ask);
    return m_gas;
}

QWidget* BooksPage::buildChart(QWidget* part) {
    m_chartPart = new QWidget(part);
    auto* column = new QVBoxLayout(m_chartPart);
    column->setContentsMargins(0, 0, 0, 0);
    m_chart = new ChartDrawing(m_chartPart);
    auto* area = new QScrollArea(m_chartPart);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    area->setWidget(m_chart);
    area->setMinimumHeight(fontMetrics().height() * 15);
    column->addWidget(area, 1);
    auto* row = new QHBoxLayout;
    m_point = kit::hint({}, m_chartPart);
    m_point->setObjectName(QStringLiteral("bookPoint"));
    m_whole = new QPushButton(tr("Whole answer"), m_chartPart);
    m_whole->setObjectName(QStringLiteral("bookWhole"));
    m_whole->setEnabled(false);
    row->addWidget(m_point, 1);
    row->addWidget(m_whole);
    column->addLayout(row);
    connect(m_chart, &ChartDrawing::pointChosen, this, [this, area](int point) {
        const QPoint middle = m_chart->placeOf(point).center();
        area->ensureVisible(middle.x(), middle.y(), fontMetrics().height() * 3, 0);
        tellPoint(point);
    });
    connect(m_chart, &ChartDrawing::pointOpened, this, &BooksPage::openPoint);
    connect(m_chart, &ChartDrawing::wholeAsked, this, &BooksPage::showWhole);
    connect(m_whole, &QPushButton::clicked, this, &BooksPage::showWhole);
    m_chartPart->hide();
    return m_chartPart;
}

QWidget* BooksPage::buildTables(QWidget* part) {
    auto* tables = new QWidget(part);
    auto* column = new QVBoxLayout(tables);
    column->setContentsMargins(0, 0, 0, 0);
    m_table = kit::table(QStringLiteral("bookTable"), {QString()}, tables);
    kit::showRows(m_table, kRowsAlone);
    m_entriesTitle = kit::heading(tr("The entries behind it"), tables);
    m_entries = kit::table(QStringLiteral("bookEntries"),
                           {tr("Entry"), tr("Happened"), tr("Written"), tr("What"), tr("By")}, tables);
    kit::showRows(m_entries, 4);
    kit::fitColumns(m_entries, 3);
    connect(m_table, &QTableWidget::cellActivated, this, &BooksPage::openPiece);
    connect(m_table, &QTableWidget::cellClicked, this, &BooksPage::openPiece);
    for (QTableWidget* table : {m_table, m_entries}) {
        // They share what room there is; neither asks for more than its rows.
        table->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
    }
    column->addWidget(m_table, 1);
    column->addWidget(m_entriesTitle);
    column->addWidget(m_entries, 1);
    // Nothing is shown of an answer before there is one.
    m_table->hide();
    m_entriesTitle->hide();
    m_entries->hide();
    return tables;
}

void BooksPage::showChart() {
    const bool drawn = m_told.chart.has_value();
    m_chartPart->setVisible(drawn);
    kit::showRows(m_table, drawn ? kRowsUnderPicture : kRowsAlone);
    if (!drawn) {
        m_chart->clear();
        m_entriesTitle->setText(m_told.pieces.empty()
                                    ? tr("The entries behind it")
                                    : tr("The entries behind it; of one row: click it, or Enter on it"));
        return;
    }
    // A calendar of what is to come has no entries behind its points.
    const auto& points = m_told.chart->points;
    const bool dated = std::any_of(points.begin(), points.end(),
                                   [](const ChartPoint& point) { return point.days.has_value(); });
    m_entriesTitle->setVisible(dated);
    m_entries->setVisible(dated);
    m_chart->setChart(*m_told.chart);
    m_drawn->setEnabled(!m_chart->empty());
    m_whole->setEnabled(false);
    tellPoint(m_chart->chosen());
}

const ChartPoint* BooksPage::pointAt(int place) const {
    return !m_told.chart || place < 0 || place >= static_cast<int>(m_told.chart->points.size())
               ? nullptr
               : &m_told.chart->points[static_cast<std::size_t>(place)];
}

void BooksPage::tellPoint(int point) {
    if (const ChartPoint* its = pointAt(point)) {
        m_point->setText(qt(its->words));
    }
}

void BooksPage::openPoint(int point) {
    const ChartPoint* its = pointAt(point);
    if (its != nullptr && listBehind([&](Shop& shop) { return linesOfPoint(shop, m_asked, *its); },
                                     !its->days ? tr("The entries behind it")
                                                : tr("The entries %1").arg(daysWords(*its->days)))) {
        addAnswerRows(&its->rows);
        tellPoint(point);
        m_whole->setEnabled(true);
    }
}

void BooksPage::openPiece(int row) {
    if (row < 0 || row >= static_cast<int>(m_told.pieces.size())) {
        return;
    }
    const AnswerPiece piece = m_told.pieces[static_cast<std::size_t>(row)];
    (void)listBehind(
        [&](Shop& shop) { return linesOfPiece(shop, m_asked, piece); },
        tr("The entries of %1 %2").arg(qt(piece.refrigerant), daysWords({piece.from, piece.to})));
}

bool BooksPage::listBehind(const std::function<Result<std::vector<HistoryLine>>(Shop&)>& read,
                           const QString& title) {
    std::unique_ptr<EarlierBooks> earlier;
    if (m_askedHead != 0) {
        auto made = EarlierBooks::make(m_desk.shop(), m_askedHead);
        if (!made) {
            fail(made.error());
            return false;
        }
        earlier = std::move(made).value();
    }
    const auto lines = read(earlier ? earlier->shop() : m_desk.shop());
    if (!lines) {
        fail(lines.error());
        return false;
    }
    listEntries(lines.value());
    m_entriesTitle->setText(title);
    return true;
}

void BooksPage::showWhole() {
    addAnswerRows(nullptr);
    listEntries(m_toldLines);
    m_entriesTitle->setText(tr("The entries behind it"));
    m_whole->setEnabled(false);
    m_chart->setFocus();
}

bool BooksPage::saveDrawing(const QString& path) {
    constexpr qsizetype kOfPapers = 16; // so much of the head stands on every paper
    const bool letter = m_desk.shop().settings().mass == MassUnit::pound;
    const QString foot = tr("Books at %1").arg(m_digest.left(kOfPapers));
    return m_chartPart->isHidden() ? m_flow->writePdf(path, m_sentence->text(), foot, letter)
                                   : m_chart->writePdf(path, m_sentence->text(), foot, letter);
}

} // namespace tarebook
