// The entry of libFuzzer (llvm.org/docs/LibFuzzer.html); TAREBOOK_FUZZ_TARGET names the reader.

#include <cstddef>
#include <cstdint>

#include "tests/fuzz/target.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static void (*const kFeed)(std::string_view) = [] {
        for (const auto& target : tarebook::tests::fuzzTargets()) {
            if (std::string_view(target.name) == TAREBOOK_FUZZ_TARGET) {
                return target.feed;
            }
        }
        tarebook::tests::demand(false, "there is a reader of this name", TAREBOOK_FUZZ_TARGET);
        return tarebook::tests::fuzzTargets().front().feed;
    }();
    kFeed({reinterpret_cast<const char*>(data), size});
    return 0;
}
