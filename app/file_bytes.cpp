#include "app/file_bytes.h"

#include <fstream>
#include <iostream>
#include <sstream>

namespace tarebook {

Result<std::string> bytesOf(const std::string& path) {
    if (path == "-") {
        std::ostringstream text;
        text << std::cin.rdbuf();
        return text.str();
    }
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    if (!stream || !(text << stream.rdbuf())) {
        return Error{path + ": cannot be read, or is empty", "name a CSV file"};
    }
    return text.str();
}

} // namespace tarebook
