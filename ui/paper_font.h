#pragma once

#include <QFont>
#include <QStringList>

namespace tarebook {

/// What is printed is set in one face, whatever the window uses, so that a paper breaks its lines alike on
/// every machine: DejaVu Sans, of the package fonts-dejavu-core, which app/install-dependencies brings.
[[nodiscard]] inline QFont paperFont() {
    QFont font(QStringList{QStringLiteral("DejaVu Sans"), QStringLiteral("Sans")});
    font.setHintingPreference(QFont::PreferNoHinting); // the machine's own would move letters
    return font;
}
/// The same in points.
[[nodiscard]] inline QFont paperFont(int points, bool bold = false) {
    QFont font = paperFont();
    font.setPointSize(points);
    font.setBold(bold);
    return font;
}

} // namespace tarebook
