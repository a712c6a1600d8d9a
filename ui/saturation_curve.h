#pragma once

#include <QWidget>

#include <optional>

#include "core/refrigerant/refrigerant_card.h"
#include "core/shop/settings.h"

namespace tarebook {

/// Bubble and dew pressure over temperature with the band of their uncertainty, and a measured point.
class SaturationCurve : public QWidget {
    Q_OBJECT
public:
    struct Point {
        Temperature temperature = kLowestSaturation;
        GaugePressure pressure;
    };

    explicit SaturationCurve(QWidget* parent = nullptr);
    void setCard(const std::vector<CardRow>& rows, const Settings& settings);
    void setMeasured(const std::optional<Point>& point, const QString& words);
    /// A level to keep below, as 5/4 of a marked pressure, with its words; none with no value.
    void setLimit(const std::optional<GaugePressure>& limit, const QString& words);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Plot; // where temperatures and pressures lie on the paper
    [[nodiscard]] double highest() const;
    void paintAxes(QPainter& painter, const Plot& plot) const;
    void paintBand(QPainter& painter, const Plot& plot) const;
    void paintMeasured(QPainter& painter, const Plot& plot) const;

    std::vector<CardRow> m_rows; // only those with a state
    Settings m_settings;
    std::optional<Point> m_measured;
    QString m_measuredWords;
    std::optional<GaugePressure> m_limit;
    QString m_limitWords;
};

} // namespace tarebook
