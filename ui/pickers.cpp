#include "ui/pickers.h"

#include "core/shop/machines.h"
#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/kit.h"

#include <QCompleter>
#include <QLineEdit>
#include <QSignalBlocker>

#include <set>

namespace tarebook {
namespace {

void refill(QComboBox& box, const std::vector<std::pair<QString, QString>>& items) {
    const QString before = chosenIn(box);
    const QSignalBlocker quiet(box);
    box.clear();
    box.addItem(QString(), QString());
    for (const auto& [shown, key] : items) {
        box.addItem(shown, key);
    }
    if (!chooseIn(box, before)) {
        box.setCurrentIndex(0);
    }
}

} // namespace

void fillSystems(QComboBox& box, Desk& desk) {
    std::vector<std::pair<QString, QString>> items;
    for (const System& system : systems(desk.shop())) {
        items.emplace_back(
            QStringLiteral("%1 – %2, %3").arg(qt(system.key()), qt(system.customer), qt(system.refrigerant)),
            qt(system.key()));
    }
    refill(box, items);
}

void fillCustomers(QComboBox& box, Desk& desk) {
    std::set<std::string> names;
    for (const System& system : systems(desk.shop())) {
        names.insert(system.customer);
    }
    names.erase("");
    std::vector<std::pair<QString, QString>> items;
    items.reserve(names.size());
    for (const std::string& name : names) {
        items.emplace_back(qt(name), qt(name));
    }
    refill(box, items);
}

void fillPeople(QComboBox& box, Desk& desk) {
    std::vector<std::pair<QString, QString>> items;
    for (const Person& person : people(desk.shop())) {
        if (person.active) {
            items.emplace_back(qt(person.name), qt(person.name));
        }
    }
    refill(box, items);
}

void fillParties(QComboBox& box, Desk& desk, const char* kind) {
    std::vector<std::pair<QString, QString>> items;
    for (const Party& party : parties(desk.shop(), kind)) {
        items.emplace_back(qt(party.name), qt(party.name));
    }
    refill(box, items);
}

void fillTakers(QComboBox& box, Desk& desk) {
    std::vector<std::pair<QString, QString>> items;
    for (const Party& party : parties(desk.shop(), "reclaimer")) {
        items.emplace_back(qt(party.name), qt(party.name));
    }
    for (const Party& party : parties(desk.shop(), "destroyer")) {
        items.emplace_back(QObject::tr("%1 (destroyer)").arg(qt(party.name)), qt(party.name));
    }
    refill(box, items);
}

void fillMachines(QComboBox& box, Desk& desk) {
    std::vector<std::pair<QString, QString>> items;
    for (const Machine& machine : machines(desk.shop())) {
        if (machine.active) {
            items.emplace_back(qt(machine.name), qt(machine.name));
        }
    }
    refill(box, items);
}

QComboBox* searchBox(const QString& name, const QString& caption, QWidget* parent) {
    auto* box = new QComboBox(parent);
    box->setObjectName(name);
    box->setAccessibleName(caption);
    box->setEditable(true);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->completer()->setCompletionMode(QCompleter::PopupCompletion);
    box->completer()->setFilterMode(Qt::MatchContains);
    box->setMinimumContentsLength(15);
    // A long item shows its beginning, which tells it from the others.
    QObject::connect(
        box, &QComboBox::currentIndexChanged, box, [box] { box->lineEdit()->setCursorPosition(0); },
        Qt::QueuedConnection);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    return box;
}

QString chosenIn(const QComboBox& box) {
    const int index = box.currentIndex();
    if (index >= 0 && (!box.isEditable() || box.itemText(index) == box.currentText())) {
        return box.itemData(index).toString();
    }
    return box.currentText().trimmed();
}

bool chooseIn(QComboBox& box, const QString& key) {
    const int index = box.findData(key);
    if (index >= 0) {
        box.setCurrentIndex(index);
    }
    return index >= 0;
}

} // namespace tarebook
