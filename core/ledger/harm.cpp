#include "core/ledger/harm.h"

#include <algorithm>
#include <array>
#include <utility>

namespace tarebook {

namespace {

constexpr std::array<std::pair<Harm, std::string_view>, 8> kWords = {
    {{Harm::damage, "damaged"},
     {Harm::leak, "leaking"},
     {Harm::heat, "overheated"},
     {Harm::overPressure, "over-pressurised"},
     {Harm::wallMetal, "ground"},
     {Harm::corrosive, "corrosive"},
     {Harm::ordered, "ordered"},
     {Harm::rejected, "rejected"}}};

} // namespace

std::string_view harmWord(Harm harm) {
    const auto* found =
        std::find_if(kWords.begin(), kWords.end(), [&](const auto& pair) { return pair.first == harm; });
    return found == kWords.end() ? std::string_view() : found->second;
}

std::optional<Harm> harmFrom(std::string_view word) {
    const auto* found =
        std::find_if(kWords.begin(), kWords.end(), [&](const auto& pair) { return pair.second == word; });
    return found == kWords.end() ? std::nullopt : std::optional(found->first);
}

const std::vector<Harm>& everyHarm() {
    static const std::vector<Harm> kAll = [] {
        std::vector<Harm> all;
        all.reserve(kWords.size());
        for (const auto& [harm, word] : kWords) {
            all.push_back(harm);
        }
        return all;
    }();
    return kAll;
}

void Harms::add(Harm harm) {
    const auto place = std::lower_bound(m_harms.begin(), m_harms.end(), harm);
    if (place == m_harms.end() || *place != harm) {
        m_harms.insert(place, harm);
    }
}

void Harms::remove(Harm harm) {
    std::erase(m_harms, harm);
}

void Harms::add(const Harms& others) {
    for (const Harm harm : others.m_harms) {
        add(harm);
    }
}

bool Harms::has(Harm harm) const {
    return std::binary_search(m_harms.begin(), m_harms.end(), harm);
}

} // namespace tarebook
