#pragma once

#include <QString>

#include "core/papers/evidence_report.h"

class QPagedPaintDevice;

namespace tarebook {

/// Draws the report of evidence on pages, which lie on their long side. Number of pages.
int drawEvidence(const EvidencePaper& paper, QPagedPaintDevice& device);
/// Writes it as a PDF in landscape (A4, or letter where the shop counts in pounds), every
/// page with its number and the books' head; columns are as wide as what they hold asks for. False when the
/// file cannot be written.
[[nodiscard]] bool evidencePdf(const EvidencePaper& paper, const QString& path, bool letter);

} // namespace tarebook
