#pragma once

#include <QSize>
#include <QString>

#include "ui/photographer.h"

namespace tarebook {

class Program;

/// Shows every place and dialog of the open shop, one after the other; what has to be recorded before a
/// dialog can be seen is recorded in a copy of the shop. False where one of them did not come, or a look did
/// not come off.
[[nodiscard]] bool showEveryWindow(Program& program, const Photographer::Look& look);

/// Renders them to PNG files in a folder, made when it is not there: `today.png`, `fleet.png`, ... with the
/// suffix behind the name, the main window of that size where one is given. False also where the folder
/// cannot be written.
[[nodiscard]] bool writePictures(Program& program, const QString& folder, const QString& suffix,
                                 const QSize& size = {});

} // namespace tarebook
