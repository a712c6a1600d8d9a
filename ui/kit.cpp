#include "ui/kit.h"

#include <QFont>
#include <QFrame>
#include <QHeaderView>
#include <QLabel>
#include <QPalette>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace tarebook::kit {
namespace {

void enlarge(QWidget* widget, qreal factor, bool bold) {
    QFont font = widget->font();
    font.setPointSizeF(font.pointSizeF() * factor);
    font.setBold(bold);
    widget->setFont(font);
}

} // namespace

QLabel* heading(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    enlarge(label, 1.25, true);
    return label;
}

QLabel* hint(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setWordWrap(true);
    label->setForegroundRole(QPalette::PlaceholderText);
    return label;
}

QFrame* figure(const QString& name, const QString& caption, QLabel** number, QWidget* parent) {
    auto* frame = new QFrame(parent);
    frame->setFrameShape(QFrame::StyledPanel);
    auto* layout = new QVBoxLayout(frame);
    layout->setSpacing(2);
    frame->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    auto* value = new QLabel(QStringLiteral("–"), frame);
    value->setObjectName(name);
    value->setAccessibleName(caption);
    value->setTextInteractionFlags(Qt::TextSelectableByMouse);
    enlarge(value, 1.5, true);
    auto* below = hint(caption, frame);
    below->setWordWrap(false);
    layout->addWidget(value);
    layout->addWidget(below);
    *number = value;
    return frame;
}

void makePrimary(QPushButton* button) {
    button->setDefault(true);
    QFont font = button->font();
    font.setBold(true);
    button->setFont(font);
    const int line = button->fontMetrics().height();
    button->setMinimumHeight(line * 2);
    button->setMinimumWidth(line * 8);
}

QTableWidget* table(const QString& name, const QStringList& columns, QWidget* parent) {
    auto* made = new QTableWidget(0, static_cast<int>(columns.size()), parent);
    made->setObjectName(name);
    made->setHorizontalHeaderLabels(columns);
    made->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    made->horizontalHeader()->setHighlightSections(false);
    made->horizontalHeader()->setDefaultSectionSize(made->fontMetrics().height() * 6);
    made->verticalHeader()->hide();
    made->verticalHeader()->setDefaultSectionSize(made->fontMetrics().height() * 2);
    made->setShowGrid(false);
    made->setAlternatingRowColors(true);
    made->setSelectionBehavior(QAbstractItemView::SelectRows);
    made->setSelectionMode(QAbstractItemView::SingleSelection);
    made->setEditTriggers(QAbstractItemView::NoEditTriggers);
    made->setTabKeyNavigation(false);
    made->setWordWrap(true);
    made->setFrameShape(QFrame::NoFrame);
    made->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    made->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    return made;
}

QTableWidgetItem* cell(QTableWidget* table, int row, int column, const QString& text, bool number) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsSelectable | Qt::ItemIsEnabled);
    item->setTextAlignment((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    item->setToolTip(text);
    table->setItem(row, column, item);
    if (auto* header = table->horizontalHeaderItem(column); number && header != nullptr) {
        header->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    }
    return item;
}

void fitColumns(QTableWidget* table, int wide) {
    for (int column = 0; column < table->columnCount(); ++column) {
        table->horizontalHeader()->setSectionResizeMode(
            column, column == wide ? QHeaderView::Stretch : QHeaderView::ResizeToContents);
    }
}

QString told(const Recorded& recorded, const QString& failed) {
    if (recorded.ok()) {
        return {};
    }
    if (recorded.outcome == Outcome::unknown) {
        return QObject::tr("Checking: the disk failed while this was written, and it may stand in the books "
                           "already. Do not enter it again; look at the card first. %1")
            .arg(qt(recorded.error.text()));
    }
    return failed + QStringLiteral(": ") + qt(recorded.error.text());
}

void roomyLabels(QWidget* parent) {
    for (QLabel* label : parent->findChildren<QLabel*>()) {
        if (label->buddy() != nullptr) {
            label->setMinimumWidth(label->sizeHint().width() + label->fontMetrics().averageCharWidth());
        }
    }
}

void showRows(QTableWidget* table, int rows) {
    table->setMinimumHeight(table->fontMetrics().height() * 2 * (rows + 1));
}

} // namespace tarebook::kit
