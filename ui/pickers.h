#pragma once

#include <QComboBox>
#include <QString>

namespace tarebook {

class Desk;

/// Fills a box with the systems (`SITE/TAG – customer, refrigerant`), keeping what was chosen; the data of an
/// item is the key. The first item is blank.
void fillSystems(QComboBox& box, Desk& desk);
/// The same with the customers of the sites; the data is the name.
void fillCustomers(QComboBox& box, Desk& desk);
/// The same with technicians who work here.
void fillPeople(QComboBox& box, Desk& desk);
/// The same with parties of a kind.
void fillParties(QComboBox& box, Desk& desk, const char* kind);
/// The same with who takes a batch: reclaimers, then destroyers, which say that they are.
void fillTakers(QComboBox& box, Desk& desk);
/// The same with recovery machines that are in use.
void fillMachines(QComboBox& box, Desk& desk);
/// A box that one can also type into to find an item.
[[nodiscard]] QComboBox* searchBox(const QString& name, const QString& caption, QWidget* parent);
/// Data of the chosen item; what was typed when it is none of them.
[[nodiscard]] QString chosenIn(const QComboBox& box);
/// Chooses the item of that data; false when there is none.
bool chooseIn(QComboBox& box, const QString& key);

} // namespace tarebook
