#pragma once

#include <QString>

class QMenu;
class QWidget;

namespace tarebook {

class Desk;

/// What can be done to a cylinder beside handing out, checking in and decanting: each asks for what it needs,
/// records, and says what came of it. Object names of the actions are `act:weigh`, `act:test`, ...
void addCylinderActs(QMenu& menu, Desk& desk, QWidget* parent, const QString& serial);

/// Asks what the new mark says, and enters the test or condemns the cylinder.
void enterTest(Desk& desk, QWidget* parent, const QString& serial);
/// Asks what an inspection found and what was seen.
void enterInspection(Desk& desk, QWidget* parent, const QString& serial);
/// Asks for the tare and why it changes.
void enterTare(Desk& desk, QWidget* parent, const QString& serial);
/// Asks what it may be used for, as it is marked.
void enterUse(Desk& desk, QWidget* parent, const QString& serial);
/// Asks for a reason and closes the finding about `subject`, as `system:SITE/TAG`; nothing when the person
/// thought better of it.
void settleFinding(Desk& desk, QWidget* parent, const QString& subject, const QString& rule);
/// The same of a cylinder.
void overruleFinding(Desk& desk, QWidget* parent, const QString& serial, const QString& rule);
/// Asks for a reason and reverses the entry.
void reverseEntry(Desk& desk, QWidget* parent, qint64 entry, const QString& sentence);

} // namespace tarebook
