#pragma once

namespace tarebook {

/// From here on nothing that the program prints can command a terminal: what goes to standard output and to
/// standard error passes through ControlPictures, whoever prints it. Texts of old journals and cells of
/// sheets are printed as they stand, and they may hold anything. Where it cannot be set up, which takes a
/// lack of memory, the streams stay as they are.
void makeOutputPlain();

} // namespace tarebook
