#include "ui/sign_in_dialog.h"

#include "core/shop/operators.h"
#include "core/store/passphrase.h"
#include "ui/kit.h"
#include "ui/memory.h"

#include <QApplication>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace tarebook {
namespace {

constexpr int kWidthInLetters = 52;

const auto kLastName = QStringLiteral("signIn/lastName");

} // namespace

SignInDialog::SignInDialog(Shop& shop, const Clock& clock, Why why, QWidget* parent)
    : QDialog(parent), m_shop(shop), m_clock(clock), m_why(why), m_name(new QComboBox(this)),
      m_passphrase(new QLineEdit(this)), m_told(kit::hint({}, this)) {
    setObjectName(QStringLiteral("signInDialog"));
    const bool locked = why == Why::locked || why == Why::onlyThem;
    setWindowTitle(locked ? tr("Locked") : tr("Sign in"));
    setWindowFlag(Qt::WindowCloseButtonHint, !locked);
    m_name->setObjectName(QStringLiteral("signInName"));
    m_passphrase->setObjectName(QStringLiteral("signInPassphrase"));
    m_passphrase->setEchoMode(QLineEdit::Password);
    m_told->setObjectName(QStringLiteral("signInTold"));
    // Room for two lines, so that the buttons do not jump.
    m_told->setMinimumHeight(fontMetrics().height() * 2);
    m_told->setAlignment(Qt::AlignTop);
    m_told->setMinimumWidth(fontMetrics().averageCharWidth() * kWidthInLetters);
    fillNames();
    auto* form = new QFormLayout;
    form->addRow(tr("&Name"), m_name);
    form->addRow(tr("&Passphrase"), m_passphrase);
    auto* buttons = new QDialogButtonBox(this);
    auto* accept = buttons->addButton(locked ? tr("&Unlock") : tr("&Sign in"), QDialogButtonBox::AcceptRole);
    accept->setObjectName(QStringLiteral("signInAccept"));
    kit::makePrimary(accept);
    connect(buttons, &QDialogButtonBox::accepted, this, &SignInDialog::trySignIn);
    auto* leave = buttons->addButton(locked ? tr("&Quit") : tr("Cancel"), QDialogButtonBox::RejectRole);
    leave->setObjectName(QStringLiteral("signInLeave"));
    leave->setAutoDefault(false);
    if (locked) {
        connect(leave, &QPushButton::clicked, qApp, [] { QApplication::exit(0); });
    } else {
        connect(leave, &QPushButton::clicked, this, &QDialog::reject);
    }
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::heading(
        m_shop.settings().name.empty() ? tr("Shop without a name") : qt(m_shop.settings().name), this));
    column->addWidget(kit::hint(explanation(), this));
    column->addLayout(form);
    column->addWidget(m_told);
    column->addWidget(buttons);
    kit::roomyLabels(this);
    m_passphrase->setFocus();
}

QString SignInDialog::explanation() const {
    switch (m_why) {
    case Why::opening:
        return tr("Every entry in these books carries who made it.");
    case Why::changing:
        return tr("Somebody else goes on: what was typed and not yet entered is dropped.");
    case Why::locked:
        return tr("Locked: what was typed is still there for the one who typed it.");
    case Why::onlyThem:
        return tr("Locked, with something half typed: only the one who typed it can go on.");
    }
    return {};
}

void SignInDialog::fillNames() {
    const auto writer = m_shop.store().signedIn();
    const auto all = m_shop.store().operators();
    for (const Operator& one : all ? all.value() : std::vector<Operator>()) {
        if (m_why != Why::onlyThem || !writer || one.name == writer->name) {
            m_name->addItem(qt(one.name));
        }
    }
    const QString last = writer ? qt(writer->name) : programMemory().value(kLastName).toString();
    m_name->setCurrentIndex(std::max(0, m_name->findText(last)));
    connect(m_name, &QComboBox::activated, m_passphrase, qOverload<>(&QWidget::setFocus));
}

void SignInDialog::trySignIn() {
    std::string passphrase = utf8(m_passphrase->text());
    m_passphrase->clear();
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const auto signedIn = signIn(m_shop, utf8(m_name->currentText()), passphrase, m_clock.now());
    QApplication::restoreOverrideCursor();
    wipe(passphrase);
    if (signedIn) {
        programMemory().setValue(kLastName, m_name->currentText());
        accept();
        return;
    }
    QString told = qt(signedIn.error().text());
    told.replace(0, 1, told.left(1).toUpper());
    m_told->setText(told + QLatin1Char('.'));
    m_passphrase->setFocus();
}

void SignInDialog::reject() {
    if (m_why == Why::opening || m_why == Why::changing) {
        QDialog::reject();
    }
}

} // namespace tarebook
