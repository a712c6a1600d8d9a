#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/base/date.h"
#include "core/base/result.h"

namespace tarebook {

/// A file within a zip: its path there, with slashes, and where its bytes come from. They are asked for while
/// the zip is written, one file after the other, so that many photos are never all in memory.
struct ZippedFile {
    std::string name;
    std::function<Result<std::string>()> bytes;
};

/// A time of day on the clock of the place, as a zip keeps it: without a zone, and whole to two seconds.
struct ZipTime {
    Date day;
    int hour = 0;
    int minute = 0;
    int second = 0;
};

/// Whether the path says that a zip is meant: its last letters are `.zip`, large or small.
[[nodiscard]] bool namesZip(const std::string& path);

/// Writes a zip (deflated, names in UTF-8) in which every file bears that time, so that the same files make
/// the same bytes. It is written under another name beside it and renamed when it is whole. Error: something
/// is at the path already, it cannot be written, the disk is full, or the bytes of a file are not to be had;
/// then nothing stays behind.
[[nodiscard]] Result<bool> writeZip(const std::string& path, const ZipTime& when,
                                    const std::vector<ZippedFile>& files);

} // namespace tarebook
