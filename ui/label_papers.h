#pragma once

#include "ui/label_items.h"

#include <vector>

#include "core/papers/label_form.h"
#include "core/papers/slip.h"
#include "core/papers/tag.h"

namespace tarebook {

/// A label each; on a sheet six, in frames to cut along.
[[nodiscard]] QVector<LabelPage> tagPages(const std::vector<CylinderTag>& tags, LabelForm form, qreal dots);
/// The cylinders under each other, each whole on its page, with lines to sign on at the end.
[[nodiscard]] QVector<LabelPage> slipPages(const CheckOutSlip& slip, LabelForm form, qreal dots);
/// Width and height in millimetres; a height of 0 is as long as it needs.
[[nodiscard]] QSizeF sizeOf(LabelForm form);

} // namespace tarebook
