#pragma once

#include <optional>

#include "core/base/result.h"

class QWidget;

namespace tarebook {

/// Asks whether a tare that is odd is so (core/shop/usual_tare.h); true when nothing is odd about it. The
/// weight at which filling stops follows the tare, so that it is never entered without a yes.
[[nodiscard]] bool tareConfirmed(QWidget* parent, const std::optional<Error>& question);

} // namespace tarebook
