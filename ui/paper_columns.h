#pragma once

#include <QStringList>
#include <QVector>

namespace tarebook {

class PaperSheet;

/// Shares of the width for a table on a sheet: each column has room for its longest word, a short cell
/// being one, and what is left goes to those whose cells are longest. Words are broken only where all of them
/// together are wider than the page.
[[nodiscard]] QVector<qreal> columnShares(const PaperSheet& sheet, const QStringList& titles,
                                          const QVector<QStringList>& rows);

} // namespace tarebook
