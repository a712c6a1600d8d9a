#pragma once

#include <string>

#include "core/base/result.h"

class QFormLayout;
class QLineEdit;
class QLabel;
class QString;
class QWidget;

namespace tarebook {

/// A field that is read while one types: below it stands what was understood, or what is wrong and what would
/// be right.
struct ReadField {
    QLineEdit* line = nullptr;
    QLabel* told = nullptr;

    /// Adds it to the form. The line is named `PREFIX:NAME`, what it says `PREFIXTold:NAME`.
    [[nodiscard]] static ReadField in(QFormLayout& form, QWidget* parent, const QString& prefix,
                                      const char* name, const QString& caption, const QString& placeholder);
    /// Trimmed.
    [[nodiscard]] std::string text() const;
    /// Shows the error, or what was understood where it differs from what was typed. A blank field is told
    /// off only when `evenBlank`.
    void tell(const std::string& understood, const Error* error, bool evenBlank = false) const;
};

} // namespace tarebook
