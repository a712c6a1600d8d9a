#pragma once

#include <QString>

#include <optional>

class QWidget;

namespace tarebook {

/// What the program asks in between. Tests queue their answers beforehand; with a queued answer no window
/// opens.
namespace questions {

/// A yes or no; `yes` is the verb on the button.
[[nodiscard]] bool ask(QWidget* parent, const QString& title, const QString& text, const QString& yes);
/// A line of text, as the reason for a reversal. Nothing when the person thought better of it; never blank.
[[nodiscard]] std::optional<QString> askText(QWidget* parent, const QString& title, const QString& text,
                                             const QString& yes);
void tell(QWidget* parent, const QString& title, const QString& text);

/// For tests: the next answers, first come first served. An empty optional is `no`.
void queueAnswer(const std::optional<QString>& answer);
/// The next queued answer, for other windows that ask; notes what would have been told.
[[nodiscard]] std::optional<std::optional<QString>> takeQueued(const QString& text);
/// The last thing told, for tests.
[[nodiscard]] QString lastTold();

} // namespace questions
} // namespace tarebook
