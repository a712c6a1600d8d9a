#include "ui/questions.h"

#include "ui/theme.h"

#include <QDialog>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPushButton>
#include <QVBoxLayout>

#include <deque>

namespace tarebook::questions {
namespace {

std::deque<std::optional<QString>>& queue() {
    static std::deque<std::optional<QString>> answers;
    return answers;
}

QString& told() {
    static QString text;
    return text;
}

std::optional<std::optional<QString>> queued() {
    if (queue().empty()) {
        return {};
    }
    auto answer = queue().front();
    queue().pop_front();
    return answer;
}

/// The sign of that severity instead of the platform's own, which knows nothing of our colours.
void mark(QMessageBox& box, Severity severity) {
    const int side = box.fontMetrics().height() * 2;
    box.setIconPixmap(theme::mark(severity, box.palette(), side, box.devicePixelRatioF()));
}

} // namespace

bool ask(QWidget* parent, const QString& title, const QString& text, const QString& yes) {
    told() = text;
    if (const auto answer = queued()) {
        return answer->has_value();
    }
    QMessageBox box(QMessageBox::Question, title, text, QMessageBox::Cancel, parent);
    box.setObjectName(QStringLiteral("question"));
    mark(box, Severity::caution);
    const QPushButton* accept = box.addButton(yes, QMessageBox::AcceptRole);
    box.exec();
    return box.clickedButton() == accept;
}

std::optional<QString> askText(QWidget* parent, const QString& title, const QString& text,
                               const QString& yes) {
    told() = text;
    if (const auto answer = queued()) {
        return *answer;
    }
    QDialog dialog(parent);
    dialog.setWindowTitle(title);
    dialog.setObjectName(QStringLiteral("textQuestion"));
    auto* label = new QLabel(text, &dialog);
    label->setWordWrap(true);
    label->setMinimumWidth(label->fontMetrics().averageCharWidth() * 50);
    auto* line = new QLineEdit(&dialog);
    line->setObjectName(QStringLiteral("textAnswer"));
    label->setBuddy(line);
    line->setAccessibleName(text);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, &dialog);
    QPushButton* accept = buttons->addButton(yes, QDialogButtonBox::AcceptRole);
    accept->setEnabled(false);
    QObject::connect(line, &QLineEdit::textChanged, accept,
                     [accept](const QString& typed) { accept->setEnabled(!typed.trimmed().isEmpty()); });
    QObject::connect(buttons, &QDialogButtonBox::accepted, &dialog, &QDialog::accept);
    QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
    auto* layout = new QVBoxLayout(&dialog);
    layout->addWidget(label);
    layout->addWidget(line);
    layout->addWidget(buttons);
    if (dialog.exec() != QDialog::Accepted) {
        return {};
    }
    return line->text().trimmed();
}

void tell(QWidget* parent, const QString& title, const QString& text) {
    told() = text;
    if (queued()) {
        return;
    }
    QMessageBox box(QMessageBox::Information, title, text, QMessageBox::Ok, parent);
    box.setObjectName(QStringLiteral("notice"));
    mark(box, Severity::note);
    box.exec();
}

void queueAnswer(const std::optional<QString>& answer) {
    queue().push_back(answer);
}

std::optional<std::optional<QString>> takeQueued(const QString& text) {
    told() = text;
    return queued();
}

QString lastTold() {
    return told();
}

} // namespace tarebook::questions
