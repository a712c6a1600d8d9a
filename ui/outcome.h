#pragma once

class QWidget;

namespace tarebook {

class Desk;
struct Recorded;

/// Tells the window what was recorded, in the words of its first entry, or the person why it was not.
void tellOutcome(Desk& desk, QWidget* parent, const Recorded& recorded);

} // namespace tarebook
