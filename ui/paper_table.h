#pragma once

#include <QSet>
#include <QStringList>
#include <QVector>

#include <string>
#include <vector>

#include "core/papers/stocktake_paper.h"

namespace tarebook {

class PaperSheet;

[[nodiscard]] QStringList textsOf(const std::vector<std::string>& cells);
/// A table with its heading, which it is not parted from; `shares` of the width, `numbers` the columns that
/// hold numbers. One without rows is left out.
void drawTable(PaperSheet& sheet, const PaperTable& table, const QVector<qreal>& shares,
               const QSet<int>& numbers);

} // namespace tarebook
