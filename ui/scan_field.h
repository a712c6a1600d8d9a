#pragma once

#include <QLineEdit>

namespace tarebook {

/// The one field that is always reachable (Ctrl+L or F2): a scanner types into it and ends with Enter.
class ScanField : public QLineEdit {
    Q_OBJECT
public:
    explicit ScanField(QWidget* parent = nullptr);
    void seize();
    /// What is typed where nothing takes text begins here.
    void begin(const QString& typed);

signals:
    /// What was scanned, trimmed, never blank.
    void scanned(const QString& text);
    /// Enter with nothing typed.
    void entered();

protected:
    /// Escape clears.
    void keyPressEvent(QKeyEvent* event) override;
};

} // namespace tarebook
