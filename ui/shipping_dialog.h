#pragma once

#include <QDialog>
#include <QString>

class QLabel;

namespace tarebook {

class Desk;
class Shop;
struct BatchPaper;

/// Shows the paper that a batch travels with by the rulebook of the shop, a shipping paper or a consignment
/// data sheet; prints it or writes a PDF, and either is kept in the books as an issue.
class ShippingDialog : public QDialog {
    Q_OBJECT
public:
    ShippingDialog(Desk& desk, QString batch, QWidget* parent = nullptr);
    /// Asks where when no path is given. False when nothing was written.
    bool savePdf(const QString& path);

private:
    void print();
    void keepIssue(const BatchPaper& paper, const QString& done);

    Desk& m_desk;
    QString m_batch;
    QLabel* m_note;
};

/// What such a paper is called by the rulebook of the shop, for a button.
[[nodiscard]] QString shippingPaperName(const Shop& shop);
/// Opens it; says why where the batch can have no such paper.
void shippingPaperStep(Desk& desk, QWidget* parent, const QString& batch);

} // namespace tarebook
