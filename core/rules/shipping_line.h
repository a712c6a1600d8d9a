#pragma once

#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// What is wrong with a description as somebody wrote it, by the order of 49 CFR 172.202(a): number, proper
/// shipping name, class, with nothing between them; behind an n.o.s. name, or at the end, the technical names
/// in parentheses (172.202(d), 172.203(k)). Case does not matter (172.101(c)). What follows the class is left
/// alone. Nothing where it stands. Whether it fits the contents is not asked here.
[[nodiscard]] std::optional<Error> shippingLineProblem(const Rulebook& book, const std::string& line);

} // namespace tarebook
