#include "core/store/private_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace tarebook {

void makePrivateFile(const std::string& path) {
    const int handle = ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (handle >= 0) {
        ::close(handle);
    }
}

} // namespace tarebook
