#include "core/ledger/holding.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<GasState, std::string_view>, 4> kStates = {
    {{GasState::unused, "new"},
     {GasState::recovered, "recovered"},
     {GasState::recycled, "recycled"},
     {GasState::reclaimed, "reclaimed"}}};
__extension__ using Wide = __int128;

constexpr char kFieldMark = '|';
constexpr char kPartMark = ';';
constexpr char kEscape = '\\';

std::string escaped(const std::string& text) {
    std::string shown;
    for (const char character : text) {
        if (character == kFieldMark || character == kPartMark || character == kEscape) {
            shown += kEscape;
        }
        shown += character;
    }
    return shown;
}

/// Takes the next field of the escaped text away, and the mark that ends it; returns the mark, 0 for the end
/// of the text.
char takeField(std::string_view& rest, std::string& field) {
    static constexpr std::array<char, 3> kMarks = {kFieldMark, kPartMark, kEscape};
    field.clear();
    while (true) {
        const std::size_t place = rest.find_first_of(std::string_view(kMarks.data(), kMarks.size()));
        if (place == std::string_view::npos) {
            field += rest;
            rest = {};
            return '\0';
        }
        field += rest.substr(0, place);
        const char mark = rest[place];
        rest.remove_prefix(place + 1);
        if (mark != kEscape) {
            return mark;
        }
        field += rest.empty() ? kEscape : rest.front(); // at the very end it stands for itself
        rest.remove_prefix(rest.empty() ? 0 : 1);
    }
}

struct Share {
    const Gas* gas = nullptr;
    std::int64_t whole = 0;
    std::int64_t rest = 0;
};

} // namespace

std::string gasStateWord(GasState state) {
    for (const auto& [value, word] : kStates) {
        if (value == state) {
            return std::string(word);
        }
    }
    return "new";
}

Result<GasState> gasStateFrom(std::string_view word) {
    for (const auto& [value, itsWord] : kStates) {
        if (itsWord == word) {
            return value;
        }
    }
    return Error{fmt::format("{} is no state of a refrigerant", tarebook::quoted(word)),
                 "write new, recovered, recycled or reclaimed"};
}

Mass Holding::total() const {
    std::int64_t sum = 0;
    for (const auto& [gas, milligrams] : m_parts) {
        sum += milligrams;
    }
    return Mass::fromMilligrams(sum);
}

std::map<std::string, std::int64_t> Holding::byRefrigerant() const {
    std::map<std::string, std::int64_t> sums;
    for (const auto& [gas, milligrams] : m_parts) {
        sums[gas.refrigerant] += milligrams;
    }
    return sums;
}

std::map<std::string, std::int64_t> Holding::byOwner() const {
    std::map<std::string, std::int64_t> sums;
    for (const auto& [gas, milligrams] : m_parts) {
        sums[gas.owner] += milligrams;
    }
    return sums;
}

void Holding::add(const Gas& gas, std::int64_t milligrams) {
    const auto [place, fresh] = m_parts.try_emplace(gas, 0);
    place->second += milligrams;
    if (place->second == 0) {
        m_parts.erase(place);
    }
}

void Holding::add(const Holding& other) {
    for (const auto& [gas, milligrams] : other.m_parts) {
        add(gas, milligrams);
    }
}

void Holding::subtract(const Holding& other) {
    for (const auto& [gas, milligrams] : other.m_parts) {
        add(gas, -milligrams);
    }
}

Holding Holding::portion(Mass mass) const {
    const std::int64_t whole = total().milligrams();
    Holding taken;
    if (whole <= 0) {
        return taken;
    }
    std::vector<Share> shares;
    std::int64_t left = mass.milligrams();
    for (const auto& [gas, milligrams] : m_parts) {
        const Wide product = static_cast<Wide>(milligrams) * mass.milligrams();
        const auto part = static_cast<std::int64_t>(product / whole);
        shares.push_back({&gas, part, static_cast<std::int64_t>(product % whole)});
        left -= part;
    }
    // Equal remainders fall in the order of the gases, so that every run and every machine agree.
    std::stable_sort(shares.begin(), shares.end(),
                     [](const Share& one, const Share& other) { return one.rest > other.rest; });
    for (const Share& share : shares) {
        const std::int64_t extra = left > 0 ? 1 : 0;
        left -= extra;
        taken.add(*share.gas, share.whole + extra);
    }
    return taken;
}

std::string Holding::encoded() const {
    std::string text;
    for (const auto& [gas, milligrams] : m_parts) {
        if (!text.empty()) {
            text += kPartMark;
        }
        text += escaped(gas.refrigerant);
        text += kFieldMark;
        text += escaped(gas.owner);
        text += kFieldMark;
        text += gasStateWord(gas.state);
        text += kFieldMark;
        text += std::to_string(milligrams);
    }
    return text;
}

Result<Holding> Holding::decode(std::string_view text) {
    Holding holding;
    if (text.empty()) {
        return holding;
    }
    const auto damaged = [text] {
        return Error{fmt::format("{} is no holding", tarebook::quoted(text)),
                     "rebuild the views from the journal"};
    };
    std::string_view rest = text;
    std::array<std::string, 4> fields;
    for (char mark = kPartMark; mark == kPartMark;) {
        for (std::size_t place = 0; place < fields.size(); ++place) {
            mark = takeField(rest, fields[place]);
            if ((mark == kFieldMark) != (place + 1 < fields.size())) {
                return damaged();
            }
        }
        const auto state = gasStateFrom(fields[2]);
        std::int64_t milligrams = 0;
        const auto [end, code] =
            std::from_chars(fields[3].data(), fields[3].data() + fields[3].size(), milligrams);
        if (!state || code != std::errc() || end != fields[3].data() + fields[3].size()) {
            return damaged();
        }
        Gas gas{std::move(fields[0]), std::move(fields[1]), state.value()};
        if (milligrams == 0 || !holding.m_parts.try_emplace(std::move(gas), milligrams).second) {
            return damaged();
        }
    }
    return holding;
}

} // namespace tarebook
