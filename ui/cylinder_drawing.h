#pragma once

#include <QString>
#include <QWidget>

namespace tarebook {

/// A cylinder with its liquid: level, the line at which to stop, and what it says at a temperature.
class CylinderDrawing : public QWidget {
    Q_OBJECT
public:
    explicit CylinderDrawing(QWidget* parent = nullptr);
    /// Shares of the inner volume, 0 to 1; a negative stop line is not drawn.
    void setLevel(double liquid, double stopLine, bool danger, const QString& caption);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    double m_liquid = 0;
    double m_stop = -1;
    bool m_danger = false;
};

} // namespace tarebook
