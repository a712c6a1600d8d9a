#include "ui/tare_question.h"

#include "ui/kit.h"
#include "ui/questions.h"

#include <QCoreApplication>

namespace tarebook {

bool tareConfirmed(QWidget* parent, const std::optional<Error>& question) {
    if (!question) {
        return true;
    }
    const auto tr = [](const char* text) { return QCoreApplication::translate("TareQuestion", text); };
    return questions::ask(parent, tr("An unusual tare"),
                          qt(question->text()) + QStringLiteral(".\n\n") +
                              tr("The weight at which filling stops follows the tare: one that is too high "
                                 "fills the cylinder with liquid before the scale gets there."),
                          tr("The tare is so"));
}

} // namespace tarebook
