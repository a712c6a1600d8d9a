#include "ui/read_field.h"

#include "ui/kit.h"
#include "ui/theme.h"

#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace tarebook {

ReadField ReadField::in(QFormLayout& form, QWidget* parent, const QString& prefix, const char* name,
                        const QString& caption, const QString& placeholder) {
    ReadField field;
    field.line = new QLineEdit(parent);
    field.line->setObjectName(prefix + QLatin1Char(':') + QLatin1String(name));
    field.line->setPlaceholderText(placeholder);
    field.told = kit::hint({}, parent);
    field.told->setObjectName(prefix + QStringLiteral("Told:") + QLatin1String(name));
    field.told->hide();
    auto* both = new QVBoxLayout;
    both->setSpacing(1);
    both->addWidget(field.line);
    both->addWidget(field.told);
    auto* label = new QLabel(caption, parent);
    label->setBuddy(field.line);
    form.addRow(label, both);
    return field;
}

std::string ReadField::text() const {
    return utf8(line->text().trimmed());
}

void ReadField::tell(const std::string& understood, const Error* error, bool evenBlank) const {
    const QString typed = line->text().trimmed();
    const QString words = error != nullptr ? qt(error->text()) : qt(understood);
    told->setText(words);
    told->setVisible((!typed.isEmpty() || evenBlank) && !words.isEmpty() && words != typed);
    QPalette look = line->parentWidget()->palette();
    look.setColor(QPalette::PlaceholderText,
                  error != nullptr ? theme::ink(Severity::refusal, look) : theme::quiet(look));
    told->setPalette(look);
}

} // namespace tarebook
