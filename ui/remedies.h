#pragma once

#include <QString>

#include "core/shop/today.h"

class QPushButton;
class QWidget;

namespace tarebook {

class Desk;

/// A button with the one step that starts the remedy of a finding about `title` (a serial, a person, a
/// batch); its object name is `act:SUBJECT`.
[[nodiscard]] QPushButton* remedyButton(Desk& desk, QWidget* parent, const Finding& finding, Remedy remedy,
                                        const QString& title);
/// Asks for the last day of a new certificate.
void renewCertificate(Desk& desk, QWidget* parent, const QString& person);

} // namespace tarebook
