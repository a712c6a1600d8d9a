#pragma once

#include <QWidget>

#include <map>
#include <vector>

#include "core/ledger/posting.h"
#include "core/shop/settings.h"

namespace tarebook {

/// A charge on its way: accounts as boxes in columns from where it came to where it is, legs as bands whose
/// width is their mass. A click on a cylinder opens its card.
class FlowDrawing : public QWidget {
    Q_OBJECT
public:
    explicit FlowDrawing(QWidget* parent = nullptr);
    void setLegs(const std::vector<Leg>& legs, const Settings& settings);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
    /// For printing and tests: draws into a rectangle.
    void paintInto(QPainter& painter, const QRectF& area) const;

signals:
    void cylinderClicked(const QString& serial);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    struct Box {
        Account account;
        int column = 0;
        int row = 0;
        std::int64_t in = 0;
        std::int64_t out = 0;
    };
    struct Band {
        std::size_t from = 0;
        std::size_t to = 0;
        std::int64_t mass = 0;
    };
    [[nodiscard]] QRectF rectOf(const Box& box, const QRectF& area) const;
    [[nodiscard]] std::size_t boxOf(const Account& account);
    void arrange();

    std::vector<Box> m_boxes;
    std::vector<Band> m_bands;
    int m_columns = 0;
    int m_rows = 0;
    Settings m_settings;
};

} // namespace tarebook
