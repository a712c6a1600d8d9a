// Which texts of a window are wider or higher than the place that they have.
#pragma once

#include <QAbstractButton>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QTabBar>
#include <QTableWidget>

#include <string>
#include <vector>

namespace tarebook::tests {

inline constexpr int kRounding = 1; // of widths that are no whole pixels

inline bool labelCut(const QLabel& label) {
    if (label.text().isEmpty() || !label.pixmap().isNull()) {
        return false;
    }
    const QRect place = label.contentsRect();
    if (label.wordWrap()) {
        return label.heightForWidth(label.width()) > label.height() + kRounding;
    }
    const QSize asks = label.fontMetrics().size(Qt::TextShowMnemonic, label.text());
    return asks.width() > place.width() + kRounding || asks.height() > place.height() + kRounding;
}

inline bool placeholderCut(const QLineEdit& line) {
    constexpr int kBeside = 6; // of the text within its place
    if (!line.text().isEmpty() || line.placeholderText().isEmpty()) {
        return false;
    }
    QStyleOptionFrame option;
    option.initFrom(&line);
    option.lineWidth = line.hasFrame() ? 1 : 0;
    const QRect place = line.style()->subElementRect(QStyle::SE_LineEditContents, &option, &line);
    return line.fontMetrics().horizontalAdvance(line.placeholderText()) + kBeside > place.width();
}

inline bool chosenCut(const QComboBox& box) {
    if (box.isEditable() || box.currentText().isEmpty()) {
        return false;
    }
    QStyleOptionComboBox option;
    option.initFrom(&box);
    option.editable = false;
    const QRect place =
        box.style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, &box);
    return box.fontMetrics().horizontalAdvance(box.currentText()) > place.width() + kRounding;
}

inline bool titlesCut(const QHeaderView& header, std::string& which) {
    if (header.orientation() != Qt::Horizontal || header.model() == nullptr) {
        return false;
    }
    QFont bold = header.font();
    bold.setWeight(QFont::DemiBold);
    for (int column = 0; column < header.count(); ++column) {
        const QString title = header.model()->headerData(column, Qt::Horizontal).toString();
        if (!header.isSectionHidden(column) &&
            QFontMetrics(bold).horizontalAdvance(title) > header.sectionSize(column)) {
            which = title.toStdString();
            return true;
        }
    }
    return false;
}

/// Each with its object name and what it says. Examples in empty fields are left out unless they are asked
/// for.
inline std::vector<std::string> cutTexts(const QWidget& window, bool examples) {
    std::vector<std::string> cut;
    const auto say = [&](const QWidget& widget, const QString& text) {
        cut.push_back(std::string(widget.metaObject()->className()) + " " +
                      widget.objectName().toStdString() + ": " + text.toStdString());
    };
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        std::string title;
        if (!widget->isVisible()) {
            continue;
        }
        if (const auto* label = qobject_cast<const QLabel*>(widget); label != nullptr && labelCut(*label)) {
            say(*label, label->text());
        } else if (const auto* line = qobject_cast<const QLineEdit*>(widget);
                   examples && line != nullptr && placeholderCut(*line)) {
            say(*line, line->placeholderText());
        } else if (const auto* box = qobject_cast<const QComboBox*>(widget);
                   box != nullptr && chosenCut(*box)) {
            say(*box, box->currentText());
        } else if (const auto* button = qobject_cast<const QAbstractButton*>(widget);
                   button != nullptr && !button->text().isEmpty() &&
                   button->width() + kRounding < button->sizeHint().width()) {
            say(*button, button->text());
        } else if (const auto* header = qobject_cast<const QHeaderView*>(widget);
                   header != nullptr && titlesCut(*header, title)) {
            say(*header->parentWidget(), QString::fromStdString(title));
        } else if (const auto* tabs = qobject_cast<const QTabBar*>(widget);
                   tabs != nullptr && tabs->sizeHint().width() > tabs->width() + kRounding) {
            say(*tabs, tabs->tabText(0));
        }
    }
    return cut;
}

} // namespace tarebook::tests
