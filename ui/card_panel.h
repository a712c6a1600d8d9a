#pragma once

#include <QWidget>

#include "core/shop/card.h"

class QGridLayout;
class QLabel;
class QPushButton;
class QSlider;
class QTableWidget;
class QVBoxLayout;

namespace tarebook {

class CylinderDrawing;
class Desk;
class FindingView;
class PressureCurve;

/// All about one cylinder: marks, what it holds and may hold, findings, who had it, what happened.
class CardPanel : public QWidget {
    Q_OBJECT
public:
    explicit CardPanel(Desk& desk, QWidget* parent = nullptr);
    /// Empty: shows what to do.
    void setSerial(const QString& serial);
    [[nodiscard]] QString serial() const { return m_serial; }
    void refresh();

private:
    void buildHead(QVBoxLayout& column);
    void buildFigures(QVBoxLayout& column);
    void buildPictures(QVBoxLayout& column);
    void buildTables(QVBoxLayout& column);
    void showHead(const Card& card);
    void showLimits(const Card& card);
    void showFindings(const Card& card);
    void showContents(const Card& card);
    void showHistory(const Card& card);
    void showTemperature();
    void reverseChosen();

    Desk& m_desk;
    QString m_serial;
    Card m_card;
    QLabel* m_title = nullptr;
    QLabel* m_marks = nullptr;
    QLabel* m_place = nullptr;
    QLabel* m_net = nullptr;
    QLabel* m_room = nullptr;
    QLabel* m_stop = nullptr;
    QLabel* m_due = nullptr;
    QLabel* m_working = nullptr;
    QLabel* m_temperature = nullptr;
    QSlider* m_slider = nullptr;
    CylinderDrawing* m_drawing = nullptr;
    PressureCurve* m_curve = nullptr;
    FindingView* m_findings = nullptr;
    QTableWidget* m_contents = nullptr;
    QTableWidget* m_custody = nullptr;
    QTableWidget* m_history = nullptr;
    QPushButton* m_more = nullptr;
    QWidget* m_body = nullptr;
    QLabel* m_nothing = nullptr;
};

} // namespace tarebook
