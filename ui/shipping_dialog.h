#pragma once

#include <QDialog>
#include <QString>

class QLabel;

namespace tarebook {

class Desk;
struct ShippingPaper;

/// Shows the shipping paper of a batch, prints it or writes a PDF; either is kept in the books as an issue.
class ShippingDialog : public QDialog {
    Q_OBJECT
public:
    ShippingDialog(Desk& desk, QString batch, QWidget* parent = nullptr);
    /// Asks where when no path is given. False when nothing was written.
    bool savePdf(const QString& path);

private:
    void print();
    void keepIssue(const ShippingPaper& paper, const QString& done);

    Desk& m_desk;
    QString m_batch;
    QLabel* m_note;
};

/// Opens it; says why where the batch can have no such paper.
void shippingPaperStep(Desk& desk, QWidget* parent, const QString& batch);

} // namespace tarebook
