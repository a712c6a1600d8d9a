#pragma once

#include <QDialog>

#include "core/shop/attachments.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;

/// The photos and papers that belong to an entry: shown, added, saved, withdrawn.
class AttachmentsDialog : public QDialog {
    Q_OBJECT
public:
    AttachmentsDialog(Desk& desk, Sequence entry, QWidget* parent);
    /// Attaches the file of that path; what is wrong is told in the window.
    void add(const QString& path);
    /// Writes the chosen one there.
    void saveTo(const QString& path);

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void build();
    void refresh();
    void showChosen();
    void fitPicture();
    void askForFile();
    void askWhere();
    void withdraw();
    [[nodiscard]] const Attachment* chosen() const;

    Desk& m_desk;
    Sequence m_entry;
    std::vector<Attachment> m_attachments;
    QTableWidget* m_table;
    QLabel* m_picture;
    QLabel* m_words;
    QPushButton* m_add = nullptr;
    QPushButton* m_save = nullptr;
    QPushButton* m_withdraw = nullptr;
    QImage m_image;
};

} // namespace tarebook
