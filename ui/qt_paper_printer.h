#pragma once

#include "core/papers/paper_printer.h"

namespace tarebook {

/// Draws papers with Qt, as the window prints them. Needs a QGuiApplication, not a display. The same paper,
/// sheet and version of Qt and of the face make the same bytes.
class QtPaperPrinter final : public PaperPrinter {
public:
    [[nodiscard]] std::string pdfOf(const Manifest& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const ShippingPaper& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const ConsignmentSheet& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const StocktakePaper& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const DayPaper& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const EvidencePaper& paper, const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const std::vector<CylinderTag>& tags, LabelForm form,
                                    const Sheet& sheet) const override;
    [[nodiscard]] std::string pdfOf(const CheckOutSlip& slip, LabelForm form,
                                    const Sheet& sheet) const override;
};

} // namespace tarebook
