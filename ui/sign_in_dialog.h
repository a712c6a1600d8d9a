#pragma once

#include <QDialog>

#include "core/base/instant.h"
#include "core/shop/shop.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace tarebook {

/// Asks who is at the counter: the name, remembered from the last time, and the passphrase. Accepted once
/// the shop has let them in.
class SignInDialog : public QDialog {
    Q_OBJECT
public:
    enum class Why {
        opening,  // a shop that somebody signs in to
        changing, // somebody else goes on
        locked,   // the window was left alone: it closes by a passphrase only, or the program ends
        onlyThem, // the same, and there is unfinished work of theirs: nobody else can go on
    };
    /// `clock` is the machine's and must outlive it.
    SignInDialog(Shop& shop, const Clock& clock, Why why, QWidget* parent = nullptr);
    void reject() override;

private:
    [[nodiscard]] QString explanation() const;
    void fillNames();
    void trySignIn();

    Shop& m_shop;
    const Clock& m_clock;
    Why m_why;
    QComboBox* m_name;
    QLineEdit* m_passphrase;
    QLabel* m_told;
};

} // namespace tarebook
