#include "drawing/text_lines.h"

#include "drawing/text_width.h"

namespace fettle {

std::vector<Text> lines_of(const TextBox& box) {
  std::vector<Text> out;
  const double x = box.anchor == Anchor::start ? box.corner.x
                   : box.anchor == Anchor::end ? box.corner.x + box.width
                                               : box.corner.x + box.width / 2.0;
  double bottom = box.corner.y;
  for (std::string& line : broken_lines(box.words, box.size, box.weight, box.width)) {
    bottom += kTextLineStep * box.size;
    out.push_back({{x, bottom - 0.35 * box.size}, std::move(line), box.size, box.ink, box.anchor, box.weight});
  }
  return out;
}

double height_of(const TextBox& box) { return static_cast<double>(lines_of(box).size()) * kTextLineStep * box.size; }

}  // namespace fettle
