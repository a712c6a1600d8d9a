#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace tarebook {

/// Random numbers that are the same on every machine: SplitMix64 (Steele, Lea, Flood 2014), reduced by
/// remainder; the slight unevenness does not matter to an invented shop.
class SampleRandom {
public:
    explicit SampleRandom(std::uint64_t seed) : m_state(seed) {}

    [[nodiscard]] std::uint64_t next() {
        m_state += 0x9E3779B97F4A7C15ULL;
        std::uint64_t mixed = m_state;
        mixed = (mixed ^ (mixed >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        mixed = (mixed ^ (mixed >> 27U)) * 0x94D049BB133111EBULL;
        return mixed ^ (mixed >> 31U);
    }
    /// 0 to count - 1; count above zero.
    [[nodiscard]] std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }
    /// Both ends included.
    [[nodiscard]] int between(int least, int most) {
        const auto span = static_cast<std::uint64_t>(most) - static_cast<std::uint64_t>(least) + 1;
        return least + static_cast<int>(next() % span);
    }
    [[nodiscard]] bool chance(int percent) { return between(1, 100) <= percent; }
    template <typename Item> [[nodiscard]] const Item& pick(const std::vector<Item>& items) {
        return items[below(items.size())];
    }

private:
    std::uint64_t m_state;
};

} // namespace tarebook
