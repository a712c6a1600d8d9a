#include "ui/card_words.h"

#include "ui/kit.h"

#include <QCoreApplication>

namespace tarebook {

namespace {

QString words(const char* text) {
    return QCoreApplication::translate("CardPanel", text);
}

} // namespace

QString placeWords(const Card& card) {
    QString place =
        card.state.holder.empty()
            ? words("In the shop%1")
                  .arg(card.state.place.empty() ? QString() : QStringLiteral(", ") + qt(card.state.place))
            : words("Out with %1").arg(qt(card.state.holder));
    if (!card.state.job.empty()) {
        place += words(", job %1").arg(qt(card.state.job));
    }
    if (card.state.condition != Condition::serviceable) {
        place = qt(std::string(conditionWord(card.state.condition))) +
                (card.state.conditionNote.empty() ? QString()
                                                  : QStringLiteral(": ") + qt(card.state.conditionNote));
    }
    QString said =
        place + (card.fillAllowed ? words("; may be filled") : words("; may not be filled")) +
        (card.shipAllowed ? words(", may travel as it stands") : words(", may not travel as it stands"));
    for (const std::string& sentence : card.exchange) {
        said += QLatin1Char('\n') + qt(sentence);
    }
    return said;
}

} // namespace tarebook
