#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace tarebook {

enum class Symbology {
    qr,      // ISO/IEC 18004, error correction level M (15 %): a label gets scratched
    code128, // ISO/IEC 15417
};

/// A code that a scanner reads, in modules (its smallest squares or its thinnest bars). Drawn with at least
/// `quiet` white modules around it: 4 for a QR code (ISO/IEC 18004), 10 beside a Code 128 (ISO/IEC 15417);
/// both figures from memory.
struct MachineCode {
    int width = 0;
    int height = 0;         // 1: bars, as high as they are drawn
    int quiet = 0;          // on each side
    std::vector<bool> dark; // row by row

    [[nodiscard]] bool at(int column, int row) const {
        return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
                    static_cast<std::size_t>(column)];
    }
};

/// The text as a code. A QR code holds any text: what is not ASCII stands in it as UTF-8, said so by the
/// extended channel interpretation 26. Error: nothing to code, more than it holds, and for a Code 128 letters
/// outside ASCII, which scanners read each in their own way.
[[nodiscard]] Result<MachineCode> machineCode(Symbology symbology, const std::string& text);

} // namespace tarebook
