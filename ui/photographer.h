#pragma once

#include <QString>

#include <functional>

class QDialog;
class QWidget;

namespace tarebook {

/// Shows windows one after the other, as they stand once their layouts have settled, to whoever wants to see
/// them all: to be kept as pictures, or to be measured.
class Photographer {
public:
    /// Gets a window and its name; false where it could not do with it what it does.
    using Look = std::function<bool(QWidget& window, const QString& name)>;

    explicit Photographer(Look look) : m_look(std::move(look)) {}
    void take(QWidget& window, const QString& name);
    void takeDialog(QDialog& dialog, const QString& name);
    /// The dialog that `open` opens and waits for; it is left as by Escape.
    void takeAsked(const std::function<void()>& open, const QString& name);
    /// Whether every look came off.
    [[nodiscard]] bool good() const { return m_good; }
    /// Layouts and palettes settle over a few rounds of events.
    static void settle();

private:
    Look m_look;
    bool m_good = true;
};

} // namespace tarebook
