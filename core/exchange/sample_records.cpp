#include "core/exchange/sample_records.h"

#include <array>

#include <fmt/format.h>

#include "core/exchange/sample_world.h"

namespace tarebook {

namespace {

constexpr std::size_t kTechniciansAMachine = 3;
constexpr int kOldestMachine = 900; // days before the books begin
constexpr int kMachinesApart = 210; // days
constexpr std::int64_t kMixedFromPpm = 20'000;
constexpr int kSampleBatchMinimum = 200; // tenths of a pound
constexpr Hundredths kBatchFee = 45'00;
constexpr int kImpure = 4;       // per cent of the cylinders
constexpr int kContaminated = 2; // per cent
constexpr int kOily = 12;        // per cent
constexpr int kOil = 2;          // tenths of a pound
constexpr int kTop = 780;        // of the first line, in points from the foot of the page
constexpr int kLineHeight = 18;  // points

/// In the parentheses of a string of PDF.
std::string pdfText(const std::string& line) {
    std::string text;
    for (const char letter : line) {
        if (letter < ' ' || letter > '~') {
            continue;
        }
        if (letter == '(' || letter == ')' || letter == '\\') {
            text += '\\';
        }
        text += letter;
    }
    return text;
}

} // namespace

std::vector<Machine> sampleMachines(std::size_t technicians, Date firstDay) {
    std::vector<Machine> machines(technicians / kTechniciansAMachine + 2);
    for (std::size_t place = 0; place < machines.size(); ++place) {
        const int number = static_cast<int>(place) + 1;
        Machine& machine = machines[place];
        machine.name = fmt::format("RM-{}", number);
        machine.makerSerial = fmt::format("{}", 30'417 + 211 * number);
        machine.made = firstDay.plusDays(-kOldestMachine + kMachinesApart * (number % 4));
        machine.flammableRated = place % 2 == 0;
        machine.certification = "AHRI 740, by an invented laboratory";
        machine.certifiedFor = {"medium", "high", "very-high", "small"};
    }
    return machines;
}

AcceptanceTerms sampleTerms(std::size_t number) {
    AcceptanceTerms terms;
    terms.currency = "USD";
    terms.mixedFrom = kMixedFromPpm;
    terms.fee = kBatchFee;
    terms.feeEach = 0;
    terms.accepts = {{GasKind::clean, Acceptance::taken},
                     {GasKind::mixed, Acceptance::apart},
                     {GasKind::burnOut, Acceptance::apart},
                     {GasKind::flammable, Acceptance::apart},
                     {GasKind::unknown, Acceptance::apart}};
    terms.prices = {{GasKind::clean, {3'20, false}},
                    {GasKind::mixed, {-1'80, false}},
                    {GasKind::burnOut, {-1'40, false}},
                    {GasKind::flammable, {-2'50, false}},
                    {GasKind::unknown, {-4'00, false}}};
    if (number % 2 == 0) {
        terms.exchange.given = false; // the same cylinders come back, emptied
        terms.minimum = tenthsOfPound(kSampleBatchMinimum);
        terms.accepts[GasKind::unknown] = Acceptance::refused;
        terms.prices.erase(GasKind::unknown);
    }
    return terms;
}

void addSampleAnalysis(SampleRandom& random, const BatchLine& shipped, ReceiptLine& line) {
    if (shipped.empty()) {
        return;
    }
    const int water = random.between(3, 9);
    const int purity = random.between(6, 9);
    const bool oily = random.chance(kOily);
    const int found = random.between(1, 100);
    if (found <= kImpure) {
        line.result = AnalysisResult::impure;
        line.analysis = fmt::format("98.{} %, the rest other refrigerants", purity);
    } else if (found <= kImpure + kContaminated) {
        line.result = AnalysisResult::contaminated;
        line.analysis = "acid number above what they take";
    } else {
        line.result = AnalysisResult::passed;
        line.analysis = fmt::format("99.{} %, water {} ppm by mass", purity, water);
    }
    if (oily && line.net() > tenthsOfPound(kOil)) {
        line.deductions.push_back({"oil", tenthsOfPound(kOil)});
    }
}

std::string samplePaper(const std::vector<std::string>& lines) {
    std::string drawn = fmt::format("BT /F1 12 Tf {} TL 60 {} Td", kLineHeight, kTop);
    for (const std::string& line : lines) {
        drawn += fmt::format(" ({}) Tj T*", pdfText(line));
    }
    drawn += " ET";
    const std::array<std::string, 5> objects = {
        "<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources "
        "<< /Font << /F1 5 0 R >> >> >>",
        fmt::format("<< /Length {} >>\nstream\n{}\nendstream", drawn.size(), drawn),
        "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"};
    std::string page = "%PDF-1.4\n";
    std::string places = "0000000000 65535 f \n";
    for (std::size_t number = 0; number < objects.size(); ++number) {
        places += fmt::format("{:010} 00000 n \n", page.size());
        page += fmt::format("{} 0 obj\n{}\nendobj\n", number + 1, objects[number]);
    }
    const std::size_t table = page.size();
    page += fmt::format("xref\n0 {}\n{}trailer\n<< /Size {} /Root 1 0 R >>\nstartxref\n{}\n%%EOF\n",
                        objects.size() + 1, places, objects.size() + 1, table);
    return page;
}

std::string sampleCertificate(const Batch& batch, Date day) {
    std::vector<std::string> lines = {
        batch.reclaimer + " (an invented firm)", "",
        fmt::format("Certificate {} of {}", batch.certificate, day.text()),
        fmt::format("for batch {}, our receipt {}", batch.name, batch.reference), ""};
    for (const BatchLine& line : batch.lines) {
        if (line.receipt) {
            lines.push_back(fmt::format("{}: {}; net {:.2f} kg; {}", line.serial, line.content,
                                        line.receipt->net().kilograms(), line.receipt->analysis));
        }
    }
    return samplePaper(lines);
}

} // namespace tarebook
