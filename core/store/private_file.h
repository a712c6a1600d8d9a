#pragma once

#include <string>

namespace tarebook {

/// Makes the empty file with mode 0600 (its owner reads and writes, nobody else) before SQLite would make it
/// as the umask has it; SQLite gives its rollback journal the mode of the file. A file that is there already
/// keeps its mode. What cannot be made is left to SQLite, which says why.
void makePrivateFile(const std::string& path);

} // namespace tarebook
