#include "app/plain_output.h"

#include <cerrno>
#include <cstdio>
#include <string_view>
#include <unistd.h>

#include "core/base/plain_text.h"

namespace tarebook {

namespace {

/// One of the two streams of the process.
struct PlainStream {
    int descriptor = STDOUT_FILENO;
    bool keepsReturns = false; // a line of progress is written over itself
    ControlPictures pictures = {};
};

bool wholly(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno != EINTR) {
            return false;
        }
        bytes.remove_prefix(written < 0 ? 0 : static_cast<std::size_t>(written));
    }
    return true;
}

/// For fopencookie(): the bytes that were taken, 0 for an error.
ssize_t writePlain(void* cookie, const char* bytes, std::size_t count) {
    auto& stream = *static_cast<PlainStream*>(cookie);
    std::string_view piece(bytes, count);
    if (stream.keepsReturns && piece.starts_with('\r')) {
        if (!wholly(stream.descriptor, "\r")) {
            return 0;
        }
        piece.remove_prefix(1);
    }
    return wholly(stream.descriptor, stream.pictures.shown(piece)) ? static_cast<ssize_t>(count) : 0;
}

/// What was held back at the end: half a character is no command.
int closePlain(void* cookie) {
    auto& stream = *static_cast<PlainStream*>(cookie);
    return wholly(stream.descriptor, stream.pictures.rest()) ? 0 : EOF;
}

std::FILE* opened(PlainStream& stream, int buffering) {
    std::FILE* file = fopencookie(&stream, "w", {nullptr, writePlain, nullptr, closePlain});
    if (file != nullptr) {
        (void)std::setvbuf(file, nullptr, buffering, BUFSIZ);
    }
    return file;
}

} // namespace

void makeOutputPlain() {
    static PlainStream out{STDOUT_FILENO};
    static PlainStream err{STDERR_FILENO, true};
    // Of the GNU C library: its streams may be put in the place of the standard ones.
    if (std::FILE* file = opened(out, isatty(STDOUT_FILENO) == 0 ? _IOFBF : _IOLBF)) {
        stdout = file;
    }
    if (std::FILE* file = opened(err, _IONBF)) {
        stderr = file;
    }
}

} // namespace tarebook
