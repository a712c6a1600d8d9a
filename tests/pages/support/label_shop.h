#pragma once

#include "tests/pages/support/page_shop.h"
#include "ui/label_papers.h"

namespace tarebook::tests {

/// Tags and slips as the window writes them into a PDF.
class LabelShop : public PageShop {
protected:
    /// A102 recovered from a school; A103 a mixture of two owners and too full; F1 gas that burns; A104 of
    /// too low a class; A107 not known; A101 empty; A105 of the grocers; D001 that is filled once.
    void beginTags();
    /// Two to recover, one to charge and one only to carry, out with MORGAN VALE.
    void beginSlip();
    [[nodiscard]] CylinderTag tag(const std::string& serial);
    [[nodiscard]] CheckOutSlip slip();
    [[nodiscard]] std::string tagsPdf(const std::vector<std::string>& serials, LabelForm form);
    [[nodiscard]] std::string slipPdf(LabelForm form);
};

} // namespace tarebook::tests
