#include "core/shop/returns.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/shop/came_back.h"
#include "core/shop/emptied.h"
#include "core/shop/names.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

Mass massIn(const nlohmann::json& body, const char* key) {
    return Mass::fromMilligrams(body.value(key, std::int64_t{0}));
}

std::string statusWord(const std::string& kind) {
    constexpr std::string_view kPrefix = "batch_";
    return kind.starts_with(kPrefix) ? kind.substr(kPrefix.size()) : kind;
}

BatchLine* lineNamed(Batch& batch, const std::string& serial) {
    const auto line = std::find_if(batch.lines.begin(), batch.lines.end(),
                                   [&](const BatchLine& one) { return one.serial == serial; });
    return line == batch.lines.end() ? nullptr : &*line;
}

/// Puts a batch together from its entries, oldest first.
class Folder {
public:
    Folder(Shop& shop, const std::string& name) : m_shop(shop) { m_batch.name = name; }

    void take(const Entry& entry) {
        m_batch.entries.push_back(entry.seq);
        m_batch.reclaimer = bodyText(entry.body, "reclaimer");
        if (!bringsOnlyCertificate(entry.body)) {
            m_batch.status = statusWord(std::string(entryKindWord(entry.kind)));
        }
        switch (entry.kind) {
        case EntryKind::batchPrepared:
            prepare(entry);
            break;
        case EntryKind::batchShipped:
            ship(entry);
            break;
        case EntryKind::batchReceived:
            receive(entry);
            break;
        case EntryKind::batchSettled:
            settle(entry);
            break;
        default:
            break;
        }
    }
    Batch take() { return std::move(m_batch); }

private:
    void prepare(const Entry& entry) {
        m_batch.lines.clear();
        if (!entry.body.contains("serials") || !entry.body["serials"].is_array()) {
            return;
        }
        for (const auto& serial : entry.body["serials"]) {
            const auto state = serial.is_string() ? m_shop.store().cylinder(serial.get<std::string>())
                                                  : Result<std::optional<CylinderState>>(Error{});
            if (state && state.value()) {
                m_batch.lines.push_back(
                    lineOf(*state.value(), state.value()->content, emptiedOf(m_shop, *state.value()).last));
            }
        }
    }

    void ship(const Entry& entry) {
        m_batch.shipped = entry.occurred;
        m_batch.lines.clear();
        const auto legs = m_shop.store().legReader()->ofEntry(entry.seq);
        for (const auto& line : entry.body["lines"]) {
            const std::string serial = bodyText(line, "serial");
            Holding moved;
            for (const Leg& leg : legs ? legs.value() : std::vector<Leg>()) {
                if (leg.source == Account::cylinder(serial) && leg.cause == LegCause::movement) {
                    moved.add(leg.moved);
                }
            }
            const auto state = stateAt(serial, entry.seq, moved.empty());
            if (!state) {
                continue;
            }
            BatchLine shipped = lineOf(*state, moved, bodyText(line, "last_contained"));
            shipped.gross = massIn(line, "gross_mg");
            m_batch.lines.push_back(std::move(shipped));
        }
    }

    void receive(const Entry& entry) {
        const std::string before = m_batch.reference;
        takePapers(entry);
        if (!before.empty() && m_batch.reference != before) {
            m_batch.reference = before + ", " + m_batch.reference; // a further part has a paper of its own
        }
        if (!entry.body.contains("lines") || !entry.body["lines"].is_array()) {
            return;
        }
        for (const auto& written : entry.body["lines"]) {
            BatchLine* known = lineNamed(m_batch, bodyText(written, "serial"));
            auto line = ReceiptLine::from(written);
            if (known == nullptr || !line) {
                continue;
            }
            known->receivedGross = massIn(written, "gross_mg");
            known->receivedTare = massIn(written, "tare_mg");
            known->receivedNet = massIn(written, "net_mg");
            known->analysis = line.value().analysis;
            known->receipt = std::move(line).value();
        }
    }

    /// A later entry about the same batch leaves what it does not name.
    void takePapers(const Entry& entry) {
        for (const auto& [key, field] :
             {std::pair{"reference", &m_batch.reference}, std::pair{"certificate", &m_batch.certificate}}) {
            if (const std::string text = bodyText(entry.body, key); !text.empty()) {
                *field = text;
            }
        }
    }

    void settle(const Entry& entry) {
        takePapers(entry);
        if (const auto credit = entry.body.find("credit");
            credit != entry.body.end() && credit->is_object()) {
            m_batch.credit = *credit;
        }
    }

    /// Of a full one only the marks are asked for: how it is described for the road, its contents decide.
    std::optional<CylinderState> stateAt(const std::string& serial, Sequence seq, bool empty) {
        if (empty) {
            const auto state = m_shop.store().cylinderAt(serial, seq);
            return state ? state.value() : std::nullopt;
        }
        const auto plate = m_shop.store().nameplateAt(serial, seq);
        if (!plate || !plate.value()) {
            return {};
        }
        CylinderState state;
        state.plate = *plate.value();
        return state;
    }

    /// `last`: what was in it before it was emptied, where it is empty.
    [[nodiscard]] BatchLine lineOf(const CylinderState& state, const Holding& content,
                                   const std::string& last) const {
        BatchLine line;
        line.serial = state.plate.serial;
        line.content = contentName(content);
        CylinderState full = state;
        full.content = content;
        Shipping shipping;
        if (content.empty()) {
            const Emptied its = emptiedOf(m_shop, state, last);
            shipping = its.shipping;
            line.content = its.content();
            line.residue = its.words;
            line.last = last;
            if (its.words.empty() && its.finding) {
                line.freed = fmt::format("{} {} ({})", its.finding->headline, its.finding->remedy,
                                         its.finding->citation);
            }
        } else {
            shipping = shippingOf(m_shop, full);
        }
        line.shipping = shipping.text;
        line.labels = shipping.labels;
        line.division = shipping.division;
        line.tare = state.plate.tare;
        line.net = content.total();
        line.gross = Mass::fromMilligrams(line.tare.milligrams() + line.net.milligrams());
        for (const auto& [owner, milligrams] : content.byOwner()) {
            line.owners[owner] = Mass::fromMilligrams(milligrams);
        }
        return line;
    }

    Shop& m_shop;
    Batch m_batch;
};

} // namespace

Mass Batch::gross() const {
    std::int64_t sum = 0;
    for (const BatchLine& line : lines) {
        sum += line.gross.milligrams();
    }
    return Mass::fromMilligrams(sum);
}

Mass Batch::net() const {
    std::int64_t sum = 0;
    for (const BatchLine& line : lines) {
        sum += line.net.milligrams();
    }
    return Mass::fromMilligrams(sum);
}

std::size_t Batch::empties() const {
    return static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [](const BatchLine& line) { return line.empty(); }));
}

std::vector<std::string> Batch::unreceived() const {
    std::vector<std::string> serials;
    for (const BatchLine& line : lines) {
        if (!line.receipt && !line.empty()) {
            serials.push_back(line.serial);
        }
    }
    return serials;
}

Sequence Batch::newest() const {
    return entries.empty() ? 0 : *std::max_element(entries.begin(), entries.end());
}

std::string Batch::standing() const {
    return status == "received" && !unreceived().empty() ? "received in part" : status;
}

Result<Batch> batch(Shop& shop, const std::string& name) {
    const auto entries = shop.store().entriesAbout("batch:" + name);
    if (!entries) {
        return entries.error();
    }
    Folder folder(shop, name);
    bool any = false;
    for (const Entry& entry : entries.value()) {
        const bool its = entry.kind == EntryKind::batchPrepared || entry.kind == EntryKind::batchShipped ||
                         entry.kind == EntryKind::batchReceived || entry.kind == EntryKind::batchSettled;
        if (its && !shop.store().reversedBy(entry.seq)) {
            folder.take(entry);
            any = true;
        }
    }
    if (!any) {
        return Error{fmt::format("there is no batch {}", tarebook::quoted(name)),
                     "the list of batches names them"};
    }
    return withThoseBack(shop, folder.take());
}

Result<Batch> batchThatIs(Shop& shop, const std::string& name, const std::string& status) {
    auto known = batch(shop, name);
    if (known && known.value().status != status) {
        return Error{fmt::format("batch {} is {}", name, known.value().status),
                     fmt::format("this is for a batch that is {}", status)};
    }
    return known;
}

Result<std::vector<Batch>> batches(Shop& shop) {
    const auto records = shop.store().records("batch");
    if (!records) {
        return records.error();
    }
    std::vector<Batch> batches;
    for (const Record& record : records.value()) {
        auto one = batch(shop, record.key);
        if (one) {
            batches.push_back(std::move(one).value());
        }
    }
    std::reverse(batches.begin(), batches.end());
    return batches;
}

std::string nextBatchName(Shop& shop) {
    const int year = shop.today().month().year();
    std::set<std::string> taken;
    if (const auto records = shop.store().records("batch")) {
        for (const Record& record : records.value()) {
            taken.insert(record.key);
        }
    }
    int number = 1;
    while (taken.contains(fmt::format("B-{}-{:03}", year, number))) {
        ++number;
    }
    return fmt::format("B-{}-{:03}", year, number);
}

} // namespace tarebook
