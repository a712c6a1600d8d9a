#pragma once

#include <QString>

class QWidget;

namespace tarebook {

class Desk;

/// The steps of a batch after it was prepared: each asks for what it needs, records, and says what came of
/// it.
void shipStep(Desk& desk, QWidget* parent, const QString& batch);
void receiveStep(Desk& desk, QWidget* parent, const QString& batch);
void settleStep(Desk& desk, QWidget* parent, const QString& batch);
/// The number of the reclaimer's certificate, which came after the receipt.
void certificateStep(Desk& desk, QWidget* parent, const QString& batch);
/// Shipped, received and payable, with the likely causes of what differs; each line is accepted, disputed or
/// corrected there.
void differencesStep(Desk& desk, QWidget* parent, const QString& batch);
/// Shows the manifest as it would be printed; nothing is recorded by looking.
void previewStep(Desk& desk, QWidget* parent, const QString& batch);

} // namespace tarebook
