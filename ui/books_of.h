#pragma once

#include <QWidget>

#include "core/shop/shop.h"

class QComboBox;
class QDateEdit;
class QLabel;
class QSpinBox;

namespace tarebook {

/// Asks which books something is made from: as they stand, at the end of a day, or when an entry was the
/// newest; and says which entry that is.
class BooksOf : public QWidget {
    Q_OBJECT
public:
    BooksOf(Shop& shop, QWidget* parent);
    /// The newest entry of those books; 0 where nothing was recorded by then.
    [[nodiscard]] Sequence head() const;
    /// The day on which it was recorded, today for the books as they stand.
    [[nodiscard]] QDate day() const;

signals:
    void changed();

private:
    enum Choice { asTheyStand, endOfDay, atEntry };
    void follow();

    Shop& m_shop;
    QComboBox* m_choice;
    QDateEdit* m_day;
    QSpinBox* m_entry;
    QLabel* m_words;
};

} // namespace tarebook
