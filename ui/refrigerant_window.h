#pragma once

#include <QDialog>
#include <QStringList>

#include "core/refrigerant/refrigerant_card.h"
#include "core/shop/what_if.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPrinter;
class QSlider;
class QTableWidget;
class QVBoxLayout;

namespace tarebook {

class Desk;
class SaturationCurve;

/// The card of a refrigerant or of a mixture of two: composition, safety, potentials, pressures over
/// temperature with what was measured beside them and what that means, which marks it asks for and how much a
/// cylinder would take. A mixture can be kept as a blend of the shop's own.
class RefrigerantWindow : public QDialog {
    Q_OBJECT
public:
    explicit RefrigerantWindow(Desk& desk, QWidget* parent = nullptr);
    /// Shows these contents, as `R-22` or `R-22:0.7+R-410A:0.3`.
    void showContents(const QString& contents);
    /// Writes the table for the van as a PDF; asks where when no path is given.
    bool saveTable(const QString& path);

private:
    QWidget* buildChoice();
    QWidget* buildFacts();
    QWidget* buildMarks();
    QWidget* buildPressures();
    /// What the two boxes and the share ask for, in one text.
    [[nodiscard]] QString asked() const;
    void follow();
    void showFacts(const RefrigerantCard& card);
    void showMarks();
    void showCylinder();
    void showTable(const RefrigerantCard& card);
    void showMeasured();
    /// The catalogue's refrigerants and the shop's own blends into both boxes, when they changed.
    void fillChoices();
    /// Asks for a blend of the shop's own, beginning with the mixture shown, and keeps it.
    void nameBlend();

    Desk& m_desk;
    std::optional<RefrigerantCard> m_card;
    QStringList m_choices; // what the boxes offer
    QComboBox* m_first = nullptr;
    QComboBox* m_second = nullptr;
    QSlider* m_share = nullptr;
    QLabel* m_shareText = nullptr;
    QLabel* m_title = nullptr;
    QLabel* m_facts = nullptr;
    QLabel* m_cautions = nullptr;
    QLabel* m_unknown = nullptr;
    QLabel* m_at55 = nullptr;
    QLabel* m_mark = nullptr;
    QTableWidget* m_marks = nullptr;
    QLabel* m_markWorking = nullptr; // of the mark that is chosen
    QLineEdit* m_cylinder = nullptr;
    QLabel* m_cylinderText = nullptr;
    SaturationCurve* m_curve = nullptr;
    QLineEdit* m_temperature = nullptr;
    QLineEdit* m_pressure = nullptr;
    QLabel* m_measured = nullptr;
    QTableWidget* m_table = nullptr;
};

} // namespace tarebook
