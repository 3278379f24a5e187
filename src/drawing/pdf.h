#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.h"

namespace fettle {

struct PdfAbout {
  std::string title;
  std::string description;
  /// When it was made, as ISO 8601 text ("2031-05-04T10:12:05Z"), given by whoever has a clock: the same input is the same file.
  std::string made_at;
};

/// Drawings as one PDF, a page each of the drawing's own size, dark on pale paper. A pixel is 1/96 in. Text stays text that can be
/// searched and copied, in DejaVu Sans, which is put into the file as far as it is used. Groups for pages are left out. Needs a page
/// at least, and what svg() needs, else InternalError. Kept by Pdf.*.
[[nodiscard]] std::string pdf(const std::vector<Drawing>& pages, const PdfAbout& about);

}  // namespace fettle
