#pragma once

#include <QDialog>

#include "core/shop/shop.h"

class QDateEdit;
class QLabel;
class QPushButton;
class QRadioButton;
class QSpinBox;

namespace tarebook {

/// Asks as of when the books are to be shown: the end of a day, or an entry.
class EarlierDialog : public QDialog {
    Q_OBJECT
public:
    EarlierDialog(Shop& shop, QWidget* parent);
    /// The newest entry of the books that were asked for; 0 while nothing was recorded by then.
    [[nodiscard]] Sequence head() const;

private:
    void follow();

    Shop& m_shop;
    QRadioButton* m_byDay;
    QRadioButton* m_byEntry;
    QDateEdit* m_day;
    QSpinBox* m_entry;
    QLabel* m_words;
    QPushButton* m_show = nullptr;
};

} // namespace tarebook
