#include "core/exchange/cylinder_rows.h"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/exchange/sheet_fields.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostSerialCharacters = 40;
constexpr std::size_t kMostNoteCharacters = 60;

/// Reads one row; collects every problem, not only the first.
class RowReader {
public:
    RowReader(SheetFields& fields, const CylinderRowsContext& context, CylinderRow& target)
        : m_fields(fields), m_context(context), m_target(target) {}

    void read() {
        readSerial();
        const auto specification = required<Specification>("specification", Specification::parse);
        const auto capacity = required<WaterCapacity>("water_capacity", WaterCapacity::parse);
        const auto tare = readTare();
        const auto manufactured = required<MonthYear>(
            "manufactured", [this](std::string_view text) { return readMonth(text, m_context.dateOrder); });
        if (specification) {
            m_plate.specification = *specification;
        }
        if (capacity) {
            m_plate.waterCapacity = *capacity;
        }
        if (tare) {
            m_plate.tare = *tare;
        }
        if (manufactured) {
            m_plate.manufactured = *manufactured;
            checkPast("manufactured", *manufactured);
        }
        readLastTest(manufactured);
        readServiceLife(manufactured);
        readRest();
        if (specification && capacity && tare) {
            checkTare();
        }
        if (m_target.state() != RowState::refused) {
            m_target.nameplate = m_plate;
        }
    }

private:
    [[nodiscard]] std::string cell(std::string_view field) const { return m_fields.cell(field); }

    void refuse(std::string_view field, Error error, bool confirmable = false) {
        m_fields.refuse(field, std::move(error), confirmable);
    }

    template <typename Value, typename Parse>
    std::optional<Value> required(std::string_view field, Parse parse) {
        return m_fields.required<Value>(field, fmt::format("read the {} on the collar", label(field)), parse);
    }

    static std::string label(std::string_view field) {
        std::string words(field);
        for (char& character : words) {
            character = character == '_' ? ' ' : character;
        }
        return field == "manufactured" ? "month and year of manufacture" : words;
    }

    void readSerial() {
        m_plate.serial = cell("serial");
        if (m_plate.serial.empty()) {
            refuse("serial", Error{"the cell is blank", "read the serial on the collar"});
        } else if (characterCount(m_plate.serial) > kMostSerialCharacters) {
            refuse("serial",
                   Error{fmt::format("the serial has {} characters", characterCount(m_plate.serial)),
                         fmt::format("a serial has at most {}", kMostSerialCharacters)});
        } else if (hasUnprintable(m_plate.serial)) {
            refuse("serial", Error{fmt::format("{} holds a character that cannot be printed",
                                               tarebook::quoted(m_plate.serial)),
                                   "type the serial again"});
        } else if (looksShortened(m_plate.serial)) {
            refuse("serial",
                   Error{fmt::format("{} looks like a number that a spreadsheet has shortened",
                                     tarebook::quoted(m_plate.serial)),
                         "format the column as text and type the whole serial, or confirm it if it is so"},
                   true);
        }
    }

    /// `1.23E+05`.
    static bool looksShortened(std::string_view serial) {
        const std::size_t exponent = serial.find("E+");
        return exponent != std::string_view::npos && exponent > 0 && exponent + 2 < serial.size() &&
               serial.find_first_not_of("0123456789.") == exponent &&
               serial.find_first_not_of("0123456789", exponent + 2) == std::string_view::npos;
    }

    std::optional<Mass> readTare() {
        if (cell("tare").empty()) {
            refuse("tare",
                   Error{"the tare is blank", "read TW on the collar, or weigh the cylinder evacuated"});
            return std::nullopt;
        }
        const auto tare = required<Mass>("tare", Mass::parse);
        if (tare && *tare <= Mass()) {
            refuse("tare",
                   Error{"the tare is zero", "read TW on the collar, or weigh the cylinder evacuated"});
            return std::nullopt;
        }
        return tare;
    }

    void checkTare() {
        if (auto absurd = impossibleTare(m_plate.waterCapacity, m_plate.tare)) {
            refuse("tare", std::move(*absurd));
        } else if (auto odd = unusualTare(m_plate.specification, m_plate.waterCapacity, m_plate.tare)) {
            refuse("tare", std::move(*odd), true);
        }
    }

    void checkPast(std::string_view field, MonthYear month) {
        if (month > m_context.today.month()) {
            refuse(field, Error{fmt::format("{} is still to come", month.text()),
                                "write the month that is stamped on the collar"});
        }
    }

    void readLastTest(const std::optional<MonthYear>& manufactured) {
        const std::string text = cell("last_test");
        if (text.empty()) {
            return;
        }
        const auto month = readMonth(text, m_context.dateOrder);
        if (!month) {
            refuse("last_test", month.error());
            return;
        }
        m_plate.lastTest = month.value();
        checkPast("last_test", month.value());
        if (manufactured && month.value() < *manufactured) {
            refuse("last_test", Error{fmt::format("the last test, {}, is before the manufacture, {}",
                                                  month.value().text(), manufactured->text()),
                                      "check both stamps; leave the last test blank where there was none"});
        }
    }

    void readServiceLife(const std::optional<MonthYear>& manufactured) {
        const std::string text = cell("service_until");
        if (text.empty()) {
            return;
        }
        const auto month = readMonth(text, m_context.dateOrder);
        if (!month) {
            refuse("service_until", month.error());
        } else if (manufactured && month.value() < *manufactured) {
            refuse("service_until",
                   Error{fmt::format("the service life to {} ends before the manufacture, {}",
                                     month.value().text(), manufactured->text()),
                         "check both stamps; leave it blank where there is none"});
        } else {
            m_plate.serviceUntil = month.value();
        }
    }

    void takeNote(std::string_view field, std::string& target) {
        target = m_fields.note(field, kMostNoteCharacters);
    }

    void readRest() {
        takeNote("test_method", m_plate.testMethod);
        takeNote("requalifier", m_plate.requalifier);
        takeNote("mark_suffix", m_plate.markSuffix);
        const auto owner = Owner::parse(cell("owner"));
        if (!owner) {
            refuse("owner", owner.error());
        } else {
            m_plate.owner = owner.value();
            if (characterCount(m_plate.owner.name) > 100 || hasUnprintable(m_plate.owner.name)) {
                refuse("owner", Error{"the owner's name is too long or cannot be printed",
                                      "write at most 100 characters"});
            }
        }
        m_plate.overfillSensor = readYes("overfill_sensor");
        m_plate.cleanService = readYes("clean_service");
        m_target.evacuated = readYes("evacuated");
        readRefrigerant();
    }

    bool readYes(std::string_view field) {
        static constexpr std::array<std::string_view, 5> kYes = {"yes", "y", "true", "1", "x"};
        static constexpr std::array<std::string_view, 6> kNo = {"", "no", "n", "false", "0", "-"};
        const std::string word = lowered(cell(field));
        const bool yes = std::find(kYes.begin(), kYes.end(), word) != kYes.end();
        if (!yes && std::find(kNo.begin(), kNo.end(), word) == kNo.end()) {
            refuse(field,
                   Error{fmt::format("{} is neither yes nor no", tarebook::quoted(word)), "write yes or no"});
        }
        return yes;
    }

    void readRefrigerant() {
        m_plate.refrigerant = cell("refrigerant");
        const std::string word = lowered(m_plate.refrigerant);
        if (word.empty() || word == "mixed" || word == "mixed only") {
            m_plate.refrigerant = word.empty() ? "" : "mixed";
            return;
        }
        if (m_context.catalogue == nullptr) {
            takeNote("refrigerant", m_plate.refrigerant);
        } else if (const auto contents = m_context.catalogue->contents(m_plate.refrigerant); !contents) {
            refuse("refrigerant", contents.error());
        }
    }

    SheetFields& m_fields;
    const CylinderRowsContext& m_context;
    CylinderRow& m_target;
    Nameplate m_plate;
};

/// A serial that stands twice names the other line; one that differs in letter case only is asked about.
void checkSerials(std::vector<CylinderRow>& rows, const std::vector<std::string>& serials,
                  const std::string& column, const CylinderRowsContext& context) {
    std::map<std::string, std::string> knownFolded;
    for (const std::string& known : context.knownSerials) {
        knownFolded.emplace(lowered(known), known);
    }
    std::map<std::string, std::size_t> seen; // folded serial -> row
    for (std::size_t place = 0; place < rows.size(); ++place) {
        const std::string& serial = serials[place];
        if (serial.empty()) {
            continue;
        }
        const auto object = [&](std::string wrong, std::string right, bool confirmable) {
            rows[place].problems.push_back(
                RowProblem{column, Error{std::move(wrong), std::move(right)}, confirmable});
            if (!confirmable) {
                rows[place].nameplate.reset();
            }
        };
        const std::string folded = lowered(serial);
        if (context.knownSerials.contains(serial)) {
            object(fmt::format("{} is already in the shop", tarebook::quoted(serial)),
                   "leave the row out, or mend the serial if it is another cylinder", false);
        } else if (const auto known = knownFolded.find(folded); known != knownFolded.end()) {
            object(fmt::format("{} differs from {} in the shop only in letter case", tarebook::quoted(serial),
                               tarebook::quoted(known->second)),
                   "mend the serial, or confirm that it is another cylinder", true);
        }
        const auto [first, fresh] = seen.emplace(folded, place);
        if (fresh) {
            continue;
        }
        const int line = rows[first->second].line;
        if (serials[first->second] == serial) {
            object(fmt::format("{} stands in line {} too", tarebook::quoted(serial), line),
                   "keep one of the two rows", false);
        } else {
            object(fmt::format("{} differs from {} in line {} only in letter case", tarebook::quoted(serial),
                               tarebook::quoted(serials[first->second]), line),
                   "mend the serial, or confirm that it is another cylinder", true);
        }
    }
}

} // namespace

Result<std::vector<CylinderRow>> readCylinderRows(const Sheet& sheet, const ColumnMap& map,
                                                  const CylinderRowsContext& context) {
    auto read = readRows<CylinderRow>(
        sheet, map, [&](SheetFields& fields, CylinderRow& row) { RowReader(fields, context, row).read(); });
    if (!read) {
        return read;
    }
    std::vector<CylinderRow> rows = std::move(read).value();
    const auto place = static_cast<std::size_t>(map.find("serial")->place);
    std::vector<std::string> serials; // one a row; empty where the sheet itself refuses the row
    serials.reserve(rows.size());
    for (const CylinderRow& row : rows) {
        const bool sound = sheet.problemAt(row.line) == nullptr && place < row.original.size();
        serials.push_back(sound ? tidied(row.original[place]) : std::string());
    }
    checkSerials(rows, serials, map.find("serial")->header, context);
    return rows;
}

} // namespace tarebook
