#include "core/shop/returns.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/names.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

std::string textIn(const nlohmann::json& body, const char* key) {
    const auto place = body.find(key);
    return place != body.end() && place->is_string() ? place->get<std::string>() : std::string();
}

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
        m_batch.reclaimer = textIn(entry.body, "reclaimer");
        m_batch.status = statusWord(std::string(entryKindWord(entry.kind)));
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
                m_batch.lines.push_back(lineOf(*state.value(), state.value()->content));
            }
        }
    }

    void ship(const Entry& entry) {
        m_batch.shipped = entry.occurred;
        m_batch.lines.clear();
        const auto legs = m_shop.store().legReader()->ofEntry(entry.seq);
        for (const auto& line : entry.body["lines"]) {
            const std::string serial = textIn(line, "serial");
            const auto state = m_shop.store().cylinderAt(serial, entry.seq);
            if (!state || !state.value()) {
                continue;
            }
            Holding moved;
            for (const Leg& leg : legs ? legs.value() : std::vector<Leg>()) {
                if (leg.source == Account::cylinder(serial) && leg.cause == LegCause::movement) {
                    moved.add(leg.moved);
                }
            }
            BatchLine shipped = lineOf(*state.value(), moved);
            shipped.gross = massIn(line, "gross_mg");
            m_batch.lines.push_back(std::move(shipped));
        }
    }

    void receive(const Entry& entry) {
        m_batch.reference = textIn(entry.body, "reference");
        if (!entry.body.contains("lines") || !entry.body["lines"].is_array()) {
            return;
        }
        for (const auto& line : entry.body["lines"]) {
            if (BatchLine* known = lineNamed(m_batch, textIn(line, "serial"))) {
                known->receivedGross = massIn(line, "gross_mg");
                known->receivedTare = massIn(line, "tare_mg");
                known->receivedNet = massIn(line, "net_mg");
                known->analysis = textIn(line, "analysis");
            }
        }
    }

    [[nodiscard]] BatchLine lineOf(const CylinderState& state, const Holding& content) const {
        BatchLine line;
        line.serial = state.plate.serial;
        line.content = contentName(content);
        CylinderState full = state;
        full.content = content;
        const Shipping shipping = shippingOf(m_shop, full);
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

Result<Batch> batchWith(Shop& shop, const std::string& name, const std::string& status) {
    auto known = batch(shop, name);
    if (known && known.value().status != status) {
        return Error{fmt::format("batch {} is {}", name, known.value().status),
                     fmt::format("this is for a batch that is {}", status)};
    }
    return known;
}

/// What the batch sent, gas by gas, so that a difference is settled in the same proportions.
std::map<std::string, Holding> sentBy(Shop& shop, const Batch& batch) {
    std::map<std::string, Holding> sent;
    for (const Sequence seq : batch.entries) {
        const auto entry = shop.store().entry(seq);
        if (!entry || entry.value().kind != EntryKind::batchShipped) {
            continue;
        }
        const auto legs = shop.store().legReader()->ofEntry(seq);
        for (const Leg& leg : legs ? legs.value() : std::vector<Leg>()) {
            if (leg.cause == LegCause::movement && leg.source.kind == AccountKind::cylinder) {
                sent[leg.source.name].add(leg.moved);
            }
        }
    }
    return sent;
}

void addSettledLines(const std::string& serial, const Holding& book, Mass net, nlohmann::json& lines) {
    const Holding received = book.portion(net);
    for (const auto& [gas, milligrams] : book.parts()) {
        const auto its = received.parts().find(gas);
        nlohmann::json line{{"serial", serial},
                            {"refrigerant", gas.refrigerant},
                            {"book_mg", milligrams},
                            {"net_mg", its == received.parts().end() ? 0 : its->second}};
        if (!gas.owner.empty()) {
            line["owner"] = gas.owner;
        }
        lines.push_back(std::move(line));
    }
}

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
    return folder.take();
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

Recorded prepareBatch(Shop& shop, const std::string& name, const std::string& reclaimer,
                      const std::vector<std::string>& serials) {
    const Review reviewed = reviewBatch(shop, reclaimer, serials);
    if (reviewed.refused()) {
        const Finding& worst = reviewed.findings.front();
        Recorded recorded = notRecorded({clauseOf(worst), worst.remedy});
        recorded.findings = reviewed.findings;
        return recorded;
    }
    const auto known = batch(shop, name);
    if (known && known.value().status != "prepared") {
        return notRecorded(
            {fmt::format("batch {} is {} already", name, known.value().status), "take a new name"});
    }
    if (trimmed(name).empty()) {
        return notRecorded({"the batch has no name", "as " + nextBatchName(shop)});
    }
    return shop.record({shop.draft(EntryKind::batchPrepared,
                                   {{"batch", name}, {"reclaimer", reclaimer}, {"serials", serials}})});
}

Recorded shipBatch(Shop& shop, const std::string& name, const std::string& carrier,
                   std::optional<Instant> occurred) {
    const auto known = batchWith(shop, name, "prepared");
    if (!known) {
        return notRecorded(known.error());
    }
    std::vector<std::string> serials;
    nlohmann::json lines = nlohmann::json::array();
    for (const BatchLine& line : known.value().lines) {
        serials.push_back(line.serial);
        lines.push_back({{"serial", line.serial},
                         {"mass_mg", line.net.milligrams()},
                         {"gross_mg", line.gross.milligrams()}});
    }
    const Review reviewed = reviewBatch(shop, known.value().reclaimer, serials);
    if (reviewed.refused()) {
        const Finding& worst = reviewed.findings.front();
        Recorded recorded = notRecorded({clauseOf(worst), worst.remedy});
        recorded.findings = reviewed.findings;
        return recorded;
    }
    nlohmann::json body{{"batch", name}, {"reclaimer", known.value().reclaimer}, {"lines", lines}};
    if (!carrier.empty()) {
        body["carrier"] = carrier;
    }
    return shop.record({shop.draft(EntryKind::batchShipped, body, occurred)});
}

Recorded receiveBatch(Shop& shop, const std::string& name, const std::string& reference,
                      const std::vector<ReceiptLine>& lines, std::optional<Instant> occurred) {
    auto known = batchWith(shop, name, "shipped");
    if (!known) {
        return notRecorded(known.error());
    }
    Batch sent = std::move(known).value();
    nlohmann::json received = nlohmann::json::array();
    for (const ReceiptLine& line : lines) {
        if (lineNamed(sent, line.serial) == nullptr) {
            return notRecorded({fmt::format("{} was not in batch {}", tarebook::quoted(line.serial), name),
                                "look at the receipt again"});
        }
        if (line.gross < line.tare || line.tare.milligrams() < 0) {
            return notRecorded({fmt::format("{}: gross {} is below tare {}", line.serial,
                                            shop.display().mass(line.gross), shop.display().mass(line.tare)),
                                "look at the receipt again"});
        }
        nlohmann::json body{{"serial", line.serial},
                            {"gross_mg", line.gross.milligrams()},
                            {"tare_mg", line.tare.milligrams()},
                            {"net_mg", line.gross.milligrams() - line.tare.milligrams()}};
        if (!line.analysis.empty()) {
            body["analysis"] = line.analysis;
        }
        received.push_back(std::move(body));
    }
    return shop.record({shop.draft(
        EntryKind::batchReceived,
        {{"batch", name}, {"reclaimer", sent.reclaimer}, {"reference", reference}, {"lines", received}},
        occurred)});
}

Recorded settleBatch(Shop& shop, const std::string& name, const std::vector<std::string>& gone,
                     const std::string& note, std::optional<Instant> occurred,
                     const std::vector<Draft>& together) {
    const auto known = batchWith(shop, name, "received");
    if (!known) {
        return notRecorded(known.error());
    }
    const auto sent = sentBy(shop, known.value());
    nlohmann::json lines = nlohmann::json::array();
    nlohmann::json exchanged = nlohmann::json::array();
    std::vector<Draft> drafts;
    std::set<std::string> left(gone.begin(), gone.end());
    for (const BatchLine& line : known.value().lines) {
        const auto book = sent.find(line.serial);
        if (book != sent.end() && line.receivedNet) {
            addSettledLines(line.serial, book->second, *line.receivedNet, lines);
        }
        if (left.erase(line.serial) > 0) {
            exchanged.push_back({{"out", line.serial}});
        } else {
            drafts.push_back(shop.draft(EntryKind::returned, {{"serial", line.serial}}, occurred));
        }
    }
    if (!left.empty()) {
        return notRecorded({fmt::format("{} was not in batch {}", tarebook::quoted(*left.begin()), name),
                            "name cylinders of the batch"});
    }
    nlohmann::json body{{"batch", name}, {"reclaimer", known.value().reclaimer}, {"lines", lines}};
    if (!note.empty()) {
        body["note"] = note;
    }
    if (!exchanged.empty()) {
        body["exchanged"] = exchanged;
    }
    drafts.insert(drafts.begin(), shop.draft(EntryKind::batchSettled, body, occurred));
    drafts.insert(drafts.end(), together.begin(), together.end());
    return shop.record(drafts);
}

} // namespace tarebook
