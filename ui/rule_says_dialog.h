#pragma once

#include <QDialog>

#include <vector>

#include "core/rules/finding.h"

namespace tarebook {

class Desk;

/// What the rules say of the rows of an answer: each finding with its working, its source and the way to the
/// row of the rulebook behind it.
class RuleSaysDialog : public QDialog {
    Q_OBJECT
public:
    RuleSaysDialog(Desk& desk, const QString& title, const std::vector<Finding>& findings, QWidget* parent);
};

} // namespace tarebook
