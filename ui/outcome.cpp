#include "ui/outcome.h"

#include "core/shop/card.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

namespace tarebook {

void tellOutcome(Desk& desk, QWidget* parent, const Recorded& recorded) {
    desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(parent, QObject::tr("Not entered"), kit::told(recorded, QObject::tr("Not entered")));
        return;
    }
    const auto entry = desk.shop().store().entry(recorded.entries.front());
    desk.say(entry ? qt(sentenceOf(desk.shop(), entry.value())) : QString());
}

} // namespace tarebook
