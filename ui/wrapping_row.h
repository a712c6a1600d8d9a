#pragma once

#include <QLayout>
#include <QList>

namespace tarebook {

/// A row that goes on below where its place is too narrow: buttons stay whole at twice the type size in a
/// small window.
class WrappingRow : public QLayout {
public:
    WrappingRow();
    ~WrappingRow() override;
    void addItem(QLayoutItem* item) override { m_items.append(item); }
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int place) const override { return m_items.value(place); }
    QLayoutItem* takeAt(int place) override;
    [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    /// As wide as the widest part: the others may stand below it.
    [[nodiscard]] QSize minimumSize() const override;
    [[nodiscard]] QSize sizeHint() const override;
    void setGeometry(const QRect& place) override;

private:
    /// Puts the parts into their places, where `move` says so. Returns the height that they take.
    int arrange(const QRect& place, bool move) const;
    [[nodiscard]] int gap() const;

    QList<QLayoutItem*> m_items;
};

} // namespace tarebook
