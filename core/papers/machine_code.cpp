#include "core/papers/machine_code.h"

#include <algorithm>
#include <memory>

#include <fmt/format.h>
#include <zint.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr int kUtf8 = 26;  // the number of UTF-8 among the extended channel interpretations
constexpr int kLevelM = 2; // as the library counts L, M, Q, H
constexpr int kQuietSquares = 4;
constexpr int kQuietBars = 10;
constexpr unsigned kModulesAByte = 8;

bool isAscii(const std::string& text) {
    return std::all_of(text.begin(), text.end(), [](char letter) {
        return static_cast<unsigned char>(letter) >= ' ' && static_cast<unsigned char>(letter) < 0x7FU;
    });
}

} // namespace

Result<MachineCode> machineCode(Symbology symbology, const std::string& text) {
    const bool bars = symbology == Symbology::code128;
    if (bars && !isAscii(text)) {
        return Error{fmt::format("{} has letters that a Code 128 does not hold", tarebook::quoted(text)),
                     "scan its QR code, or type it"};
    }
    if (text.empty()) {
        return Error{"nothing to code", "a serial"};
    }
    const std::unique_ptr<zint_symbol, decltype(&ZBarcode_Delete)> symbol(ZBarcode_Create(),
                                                                          &ZBarcode_Delete);
    if (symbol == nullptr) {
        return Error{"no memory for a code", "close other programs"};
    }
    symbol->symbology = bars ? BARCODE_CODE128 : BARCODE_QRCODE;
    symbol->input_mode = UNICODE_MODE;
    if (!bars) {
        symbol->option_1 = kLevelM;
        symbol->eci = isAscii(text) ? 0 : kUtf8;
    }
    const std::vector<unsigned char> bytes(text.begin(), text.end());
    const int outcome = ZBarcode_Encode(symbol.get(), bytes.data(), static_cast<int>(bytes.size()));
    if (outcome >= ZINT_ERROR) {
        return Error{fmt::format("{} cannot be coded: {}", tarebook::quoted(text), symbol->errtxt),
                     "a shorter text"};
    }
    MachineCode code;
    code.width = symbol->width;
    code.height = symbol->rows;
    code.quiet = bars ? kQuietBars : kQuietSquares;
    for (int row = 0; row < code.height; ++row) {
        for (int column = 0; column < code.width; ++column) {
            const auto place = static_cast<unsigned>(column);
            const unsigned byte = symbol->encoded_data[row][place / kModulesAByte];
            code.dark.push_back(((byte >> (place % kModulesAByte)) & 1U) != 0);
        }
    }
    return code;
}

} // namespace tarebook
