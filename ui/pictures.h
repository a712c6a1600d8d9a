#pragma once

#include <QString>

namespace tarebook {

class Program;

/// Renders every place and dialog of the open shop to PNG files in a folder, made when it is not there:
/// `today.png`, `fleet.png`, ... with the suffix behind the name. Error: the folder cannot be written.
[[nodiscard]] bool writePictures(Program& program, const QString& folder, const QString& suffix);

} // namespace tarebook
