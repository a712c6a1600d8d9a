#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace tarebook {

/// What can befall a cylinder and override the date of its next test: the grounds of 49 CFR 180.205(d), (e),
/// (h) and (i). What follows from each is the rulebook's to say.
enum class Harm {
    damage,       // dents, corrosion, cracks, abrasion, bulges, an accident
    leak,         // through the wall or a fitting
    heat,         // fire, an arc burn, known or visible overheating
    overPressure, // known or visible, as after overfilling and heat
    wallMetal,    // ground or sanded away outside an authorised repair
    corrosive,    // a corrosive liquid was in it
    ordered,      // an authority asked for a test
    rejected,     // failed a test that may be mended
};

/// As the result of an inspection has it: `damaged`, `leaking`, `overheated`, `over-pressurised`, `ground`,
/// `corrosive`, `ordered`, `rejected`. The words in the journal never change.
[[nodiscard]] std::string_view harmWord(Harm harm);
/// Nothing when it is no such word.
[[nodiscard]] std::optional<Harm> harmFrom(std::string_view word);
/// All of them, in the order of the enumeration.
[[nodiscard]] const std::vector<Harm>& everyHarm();

/// Harms of one cylinder, in the order of the enumeration, none twice.
class Harms {
public:
    void add(Harm harm);
    void remove(Harm harm);
    void add(const Harms& others);
    void clear() { m_harms.clear(); }
    [[nodiscard]] bool has(Harm harm) const;
    [[nodiscard]] bool empty() const { return m_harms.empty(); }
    [[nodiscard]] const std::vector<Harm>& list() const { return m_harms; }

    bool operator==(const Harms&) const = default;

private:
    std::vector<Harm> m_harms;
};

} // namespace tarebook
