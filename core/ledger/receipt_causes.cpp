#include "core/ledger/receipt_causes.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/unit_slip.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<ReceiptCause, std::string_view>, 6> kReceiptCauseWords = {
    {{ReceiptCause::slip, "unit slip"},
     {ReceiptCause::swapped, "swapped"},
     {ReceiptCause::tareUsed, "tare used"},
     {ReceiptCause::oilTwice, "taken off twice"},
     {ReceiptCause::less, "less"},
     {ReceiptCause::more, "more"}}};

Mass milligrams(std::int64_t count) {
    return Mass::fromMilligrams(count);
}

/// Looks for the causes of one line among all of the receipt.
class Examiner {
public:
    Examiner(const std::vector<ReceiptEvidence>& all, std::size_t place, Mass tolerance,
             const EvidenceWords& words)
        : m_all(all), m_its(all[place]), m_place(place), m_tolerance(tolerance.milligrams()), m_words(words) {
    }

    ReceiptDifference examine() {
        const std::int64_t off = difference();
        ReceiptDifference found{m_its.line.serial, milligrams(off), std::abs(off) > m_tolerance, {}};
        if (!found.beyond) {
            return found;
        }
        addSlips();
        addSwaps();
        addTare();
        addDeduction();
        std::stable_sort(m_found.begin(), m_found.end(),
                         [](const ReceiptExplanation& one, const ReceiptExplanation& other) {
                             return std::tie(other.figures, one.misfit) < std::tie(one.figures, other.misfit);
                         });
        addUnexplained(off);
        found.explanations = std::move(m_found);
        return found;
    }

private:
    [[nodiscard]] std::int64_t difference() const {
        return m_its.line.net().milligrams() - m_its.sentNet.milligrams();
    }
    [[nodiscard]] bool agree(std::int64_t one, std::int64_t other) const {
        return std::abs(one - other) <= m_tolerance;
    }
    [[nodiscard]] std::string words(std::int64_t count) const { return m_words.mass(milligrams(count)); }

    /// What is left open where the net mass is this.
    [[nodiscard]] Mass openAt(std::int64_t net) const {
        return milligrams(std::abs(net - m_its.sentNet.milligrams()));
    }

    /// A slip in the gross, in the tare, or the same in both.
    void addSlips() {
        const std::int64_t gross = m_its.line.gross.milligrams();
        const std::int64_t tare = m_its.line.tare.milligrams();
        for (const UnitSlip slip : kUnitSlips) {
            const auto rightGross = withoutSlip(gross, slip);
            const auto rightTare = withoutSlip(tare, slip);
            if (rightGross) {
                addSlip(slip, *rightGross, tare, "the gross", 1);
            }
            if (rightTare) {
                addSlip(slip, gross, *rightTare, "the tare", 1);
            }
            if (rightGross && rightTare) {
                addSlip(slip, *rightGross, *rightTare, "both weights", 2);
            }
        }
    }

    void addSlip(UnitSlip slip, std::int64_t gross, std::int64_t tare, const char* what, int figures) {
        if (!agree(gross - tare, m_its.sentNet.milligrams())) {
            return;
        }
        // A tare that is right afterwards is a second figure, found independently of the net mass.
        const bool tareFits =
            tare != m_its.line.tare.milligrams() && figures == 1 && agree(tare, m_its.tare.milligrams());
        m_found.push_back({ReceiptCause::slip,
                           fmt::format("{}: {} in {} make it {} gross, {} tare, {} net; shipped were {}",
                                       m_its.line.serial, unitSlipWords(slip), what, words(gross),
                                       words(tare), words(gross - tare), m_words.mass(m_its.sentNet)),
                           "Ask them which unit their scale showed, and correct the line.",
                           tareFits ? 2 : figures, openAt(gross - tare), milligrams(gross),
                           milligrams(tare)});
    }

    /// Another line whose gross weight, or whose both weights, belong here, and the reverse.
    void addSwaps() {
        for (std::size_t place = 0; place < m_all.size(); ++place) {
            const ReceiptEvidence& other = m_all[place];
            const bool same = other.line.gross == m_its.line.gross && other.line.tare == m_its.line.tare;
            if (place == m_place || same) {
                continue;
            }
            for (const bool both : {true, false}) {
                const Mass tare = both ? other.line.tare : m_its.line.tare;
                const Mass otherTare = both ? m_its.line.tare : other.line.tare;
                const std::int64_t net = other.line.gross.milligrams() - tare.milligrams();
                const std::int64_t otherNet = m_its.line.gross.milligrams() - otherTare.milligrams();
                const bool moved = both || other.line.gross != m_its.line.gross;
                if (moved && agree(net, m_its.sentNet.milligrams()) &&
                    agree(otherNet, other.sentNet.milligrams()) &&
                    agree(tare.milligrams(), m_its.tare.milligrams()) &&
                    agree(otherTare.milligrams(), other.tare.milligrams())) {
                    addSwap(other, net, tare);
                    break;
                }
            }
        }
    }

    void addSwap(const ReceiptEvidence& other, std::int64_t net, Mass tare) {
        m_found.push_back(
            {ReceiptCause::swapped,
             fmt::format("{} and {}: with their weights exchanged both agree with what was shipped; {} has "
                         "{} net then",
                         m_its.line.serial, other.line.serial, m_its.line.serial, words(net)),
             "Ask them to look at the numbers on both collars, and correct both lines.", 3, openAt(net),
             other.line.gross, tare});
    }

    /// Another tare than the register's was taken off: the stamped one, or one of their own.
    void addTare() {
        const std::int64_t used = m_its.line.tare.milligrams();
        const std::int64_t known = m_its.tare.milligrams();
        const std::int64_t net = m_its.line.gross.milligrams() - known;
        if (used == known || !agree(net, m_its.sentNet.milligrams())) {
            return;
        }
        const bool stamped = m_its.mark && agree(used, m_its.mark->milligrams());
        const std::string whose = stamped ? "the tare on the collar" : "a tare of their own";
        const std::string advice =
            stamped ? "Tell them what it weighs empty and how that was found; the collar says otherwise."
                    : "Ask where their tare comes from; have it weighed empty when it is back.";
        m_found.push_back({ReceiptCause::tareUsed,
                           fmt::format("{}: {}, {}, was taken off; by the register it is {}: {} off, and the "
                                       "net mass {}",
                                       m_its.line.serial, whose, words(used), words(known),
                                       words(std::abs(used - known)), words(net)),
                           advice, stamped ? 2 : 1, openAt(net), m_its.line.gross, m_its.tare});
    }

    /// Short by just what is then taken off: it had been taken out before the scale.
    void addDeduction() {
        const std::int64_t off = m_its.line.deducted().milligrams();
        const std::int64_t with = m_its.line.net().milligrams() + off;
        if (off <= m_tolerance || !agree(with, m_its.sentNet.milligrams())) {
            return;
        }
        m_found.push_back({ReceiptCause::oilTwice,
                           fmt::format("{}: short by {}, and {} is taken off beside it: it may have left the "
                                       "weight already",
                                       m_its.line.serial, words(-difference()), words(off)),
                           "Ask whether they weighed before or after separating it.", 1, openAt(with)});
    }

    void addUnexplained(std::int64_t off) {
        const bool less = off < 0;
        m_found.push_back(
            {less ? ReceiptCause::less : ReceiptCause::more,
             fmt::format("{}: {} {} than shipped", m_its.line.serial, words(std::abs(off)),
                         less ? "less" : "more"),
             less ? "Look for a leak on the way or a valve left open, and ask for their scale's check."
                  : "Ask for their scale's check; a recovery may be missing in the books.",
             0, milligrams(std::abs(off))});
    }

    const std::vector<ReceiptEvidence>& m_all;
    const ReceiptEvidence& m_its;
    std::size_t m_place;
    std::int64_t m_tolerance;
    const EvidenceWords& m_words;
    std::vector<ReceiptExplanation> m_found;
};

} // namespace

Mass ReceiptEvidence::sentGross() const {
    return Mass::fromMilligrams(tare.milligrams() + sentNet.milligrams());
}

std::string_view receiptCauseWord(ReceiptCause cause) {
    const auto* const found = std::find_if(kReceiptCauseWords.begin(), kReceiptCauseWords.end(),
                                           [&](const auto& pair) { return pair.first == cause; });
    return found->second;
}

std::vector<ReceiptDifference> receiptDifferences(const std::vector<ReceiptEvidence>& lines, Mass tolerance,
                                                  const EvidenceWords& words) {
    std::vector<ReceiptDifference> differences;
    differences.reserve(lines.size());
    for (std::size_t place = 0; place < lines.size(); ++place) {
        differences.push_back(Examiner(lines, place, tolerance, words).examine());
    }
    return differences;
}

} // namespace tarebook
