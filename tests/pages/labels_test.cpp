// Tags and slips as they are printed, beside what was approved; see papers_test.cpp.
#include "tests/pages/support/approved_page.h"
#include "tests/pages/support/label_shop.h"

namespace tarebook::tests {
namespace {

using LabelPagesTest = LabelShop;

TEST_F(LabelPagesTest, TagOnALabel) {
    beginTags();
    expectApproved("tag-4x6", tagsPdf({"A102"}, LabelForm::inches4x6));
}

TEST_F(LabelPagesTest, TagOfWhatBurnsFromARoll) {
    beginTags();
    expectApproved("tag-62mm", tagsPdf({"F1"}, LabelForm::mm62));
}

TEST_F(LabelPagesTest, TagOfAMixtureThatIsTooMuch) {
    beginTags();
    expectApproved("tag-mixed", tagsPdf({"A103"}, LabelForm::inches4x6));
}

TEST_F(LabelPagesTest, SheetsOfTags) {
    beginTags();
    expectApproved("tags-letter", tagsPdf({"A101", "A102", "A103", "A104", "A105", "A107", "D001", "F1"},
                                          LabelForm::letter));
    expectApproved("tags-a4", tagsPdf({"A101", "F1"}, LabelForm::a4));
}

TEST_F(LabelPagesTest, SlipOnLabels) {
    beginSlip();
    expectApproved("slip-4x6", slipPdf(LabelForm::inches4x6));
}

TEST_F(LabelPagesTest, SlipFromARoll) {
    beginSlip();
    expectApproved("slip-62mm", slipPdf(LabelForm::mm62));
}

TEST_F(LabelPagesTest, SlipOnASheet) {
    beginSlip();
    expectApproved("slip-letter", slipPdf(LabelForm::letter));
    expectApproved("slip-a4", slipPdf(LabelForm::a4));
}

} // namespace
} // namespace tarebook::tests
