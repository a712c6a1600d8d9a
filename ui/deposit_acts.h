#pragma once

#include <QString>

class QWidget;

namespace tarebook {

class Desk;

/// Asks whose the cylinder is or who has it, since when, and what that costs; for one that is out, the same
/// facts to be put right, and the day it went back.
void askDeposit(Desk& desk, QWidget* parent, const QString& serial);

} // namespace tarebook
