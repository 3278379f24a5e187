#pragma once

#include <memory>
#include <string>

#include "drawing/drawing.h"
#include "drawing/palette.h"

// Of cairo and pango, whose headers stay in this room's sources.
struct _cairo;
struct _PangoLayout;

namespace fettle {

/// The face that drawings are printed in. No other is ever mixed in, so that a print looks the same on every machine that has it.
inline constexpr const char* kPrintedFace = "DejaVu Sans";

/// A line of text as it is printed: laid out in the printed face, `size` in the unit of the target.
class PrintedText {
 public:
  PrintedText(_cairo* target, const Text& text);

  [[nodiscard]] double width() const;
  [[nodiscard]] int unknown_letters() const;
  /// On the target, where the text says, in the colour that is set.
  void show(_cairo* target) const;

 private:
  struct Release {
    void operator()(_PangoLayout* layout) const;
  };
  std::unique_ptr<_PangoLayout, Release> layout_;
  Text text_;
};

/// Paints a drawing, its paper first, on a cairo target whose unit is that of the drawing. Needs what svg() needs.
void paint_drawing(_cairo* target, const Drawing& drawing, Palette palette);

}  // namespace fettle
