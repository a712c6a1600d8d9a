#pragma once

#include <QDialog>

#include "core/shop/compose.h"

namespace tarebook {

/// How the credit of a proposed batch comes about: the price of every cylinder, the fees, the sum.
class WorkingDialog : public QDialog {
    Q_OBJECT
public:
    WorkingDialog(const BatchProposal& proposal, const Display& display, QWidget* parent = nullptr);
};

} // namespace tarebook
