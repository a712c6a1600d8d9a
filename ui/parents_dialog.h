#pragma once

#include <QDialog>

#include "core/shop/batch_parents.h"

class QTableWidget;

namespace tarebook {

class Desk;

/// Whose gas, which jobs and whose machine are behind a cylinder of a batch, and where else gas of the same
/// charges is. A charge can be opened in the books, a cylinder by its card.
class ParentsDialog : public QDialog {
    Q_OBJECT
public:
    ParentsDialog(Desk& desk, const Batch& batch, const QString& serial, QWidget* parent = nullptr);

private:
    void fill(const BatchParents& its);
    void openCharge(int row);
    void openKin(int row);

    Desk& m_desk;
    BatchParents m_its;
    QTableWidget* m_charges;
    QTableWidget* m_kin;
};

} // namespace tarebook
