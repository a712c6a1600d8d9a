#pragma once

#include <QAbstractButton>

namespace tarebook {

/// A place on the rail at the left: its glyph, its word, and how many things wait there.
class RailButton : public QAbstractButton {
    Q_OBJECT
public:
    RailButton(const QString& glyph, const QString& title, QWidget* parent = nullptr);
    /// 0: nothing waits; shown beside the word and told to a screen reader.
    void setWaiting(qint64 count);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
    void enterEvent(QEnterEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    [[nodiscard]] QString waitingText() const;

    QString m_glyph;
    qint64 m_waiting = 0;
};

} // namespace tarebook
