#pragma once

#include "ui/label_papers.h"

#include <QDialog>

#include <functional>
#include <string>
#include <vector>

class QComboBox;
class QLabel;
class QPushButton;

namespace tarebook {

class Desk;

/// What is to be printed, on whatever form.
struct LabelJob {
    QString title;    // of the window and the file
    QString fileName; // proposed, without `.pdf`
    std::function<QVector<LabelPage>(LabelForm form, qreal dots)> pages;
    /// Enters that it was issued, and numbers the next one; says itself why that was not done.
    std::function<bool(QWidget* window)> issue;
};

/// Shows the first page, lets the person choose the form, which is remembered, and prints it or writes a PDF.
class LabelDialog : public QDialog {
    Q_OBJECT
public:
    /// `letter`: the sheet is letter, not A4.
    LabelDialog(LabelJob job, bool letter, QWidget* parent = nullptr);
    /// Asks where when no path is given. False when nothing was written.
    bool savePdf(const QString& path);

private:
    [[nodiscard]] LabelForm form() const;
    [[nodiscard]] LabelMaker maker() const;
    void preview();
    void print();
    void told(const QString& done);

    LabelJob m_job;
    QComboBox* m_form;
    QLabel* m_preview;
    QLabel* m_note;
    QPushButton* m_print;
};

/// Tags of the cylinders, as they stand now; says why when there can be none.
void showTags(Desk& desk, QWidget* parent, const std::vector<std::string>& serials);
/// The slip of all that is out with the technician.
void showSlip(Desk& desk, QWidget* parent, const std::string& person);

} // namespace tarebook
