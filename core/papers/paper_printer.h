#pragma once

#include <string>
#include <vector>

#include "core/papers/consignment.h"
#include "core/papers/day_paper.h"
#include "core/papers/evidence_report.h"
#include "core/papers/label_form.h"
#include "core/papers/manifest.h"
#include "core/papers/shipping_paper.h"
#include "core/papers/slip.h"
#include "core/papers/stocktake_paper.h"
#include "core/papers/tag.h"
#include "core/papers/zip_file.h"

namespace tarebook {

/// Draws papers as PDF, for a program that has something to draw with. The bytes say that they were made at
/// the time given (timeOfBooks()); `letter` is the sheet: letter, else A4.
class PaperPrinter {
public:
    PaperPrinter() = default;
    PaperPrinter(const PaperPrinter&) = delete;
    PaperPrinter& operator=(const PaperPrinter&) = delete;
    virtual ~PaperPrinter() = default;

    struct Sheet {
        bool letter = false;
        ZipTime when;
    };
    [[nodiscard]] virtual std::string pdfOf(const Manifest& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const ShippingPaper& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const ConsignmentSheet& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const StocktakePaper& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const DayPaper& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const EvidencePaper& paper, const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const std::vector<CylinderTag>& tags, LabelForm form,
                                            const Sheet& sheet) const = 0;
    [[nodiscard]] virtual std::string pdfOf(const CheckOutSlip& slip, LabelForm form,
                                            const Sheet& sheet) const = 0;
};

/// The sheet of a shop, and the time of its books.
[[nodiscard]] PaperPrinter::Sheet paperSheetOf(Shop& books);

} // namespace tarebook
