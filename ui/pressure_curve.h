#pragma once

#include <QPointF>
#include <QVector>
#include <QWidget>

#include "core/shop/settings.h"

namespace tarebook {

/// Pressure over temperature of a cylinder's contents, the limit of its class, and where it is now.
class PressureCurve : public QWidget {
    Q_OBJECT
public:
    explicit PressureCurve(QWidget* parent = nullptr);
    /// Points in degC and kPa gauge, ascending; a limit of 0 or below is not drawn.
    void setCurve(const QVector<QPointF>& points, double limit, const Settings& settings);
    void setMarker(double celsius);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] double pressureAt(double celsius) const;

    QVector<QPointF> m_points;
    double m_limit = 0;
    double m_marker = 25;
    Settings m_settings;
};

} // namespace tarebook
