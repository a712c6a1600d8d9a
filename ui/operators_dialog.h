#pragma once

#include <QDialog>

#include "core/base/instant.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;
struct Recorded;

/// Who signs in to the shop, for its manager: adds, gives another role or passphrase, removes. In a shop that
/// nobody signs in to yet it sets up the first manager, who is signed in from then on.
class OperatorsDialog : public QDialog {
    Q_OBJECT
public:
    /// `clock` is the machine's and must outlive it.
    OperatorsDialog(Desk& desk, const Clock& clock, QWidget* parent = nullptr);

signals:
    /// The first manager was set up and is signed in.
    void signedIn();

private:
    void refresh();
    void add();
    void changeRole();
    void changePassphrase();
    void remove();
    [[nodiscard]] QString selected() const;
    void follow(const Recorded& recorded);

    Desk& m_desk;
    const Clock& m_clock;
    QTableWidget* m_list;
    QLabel* m_hint;
    QPushButton* m_role = nullptr;
    QPushButton* m_passphrase = nullptr;
    QPushButton* m_remove = nullptr;
};

/// Asks for a new passphrase, twice, and sets it; says what came of it.
void askNewPassphrase(Desk& desk, QWidget* parent, const QString& name);

} // namespace tarebook
