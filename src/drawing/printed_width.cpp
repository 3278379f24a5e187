#include "drawing/printed_width.h"

#include <cairo.h>

#include <memory>

#include "drawing/painter.h"

namespace fettle {
namespace {

struct ReleaseScratch {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* target) const { cairo_destroy(target); }
};

/// A text on a target that nobody sees.
PrintedText scratch_text(std::string_view words, double size, Weight weight) {
  const std::unique_ptr<cairo_surface_t, ReleaseScratch> surface(cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1));
  const std::unique_ptr<cairo_t, ReleaseScratch> target(cairo_create(surface.get()));
  return PrintedText(target.get(), {{0.0, 0.0}, std::string(words), size, Ink::ink, Anchor::start, weight});
}

}  // namespace

double printed_width(std::string_view words, double size, Weight weight) {
  return scratch_text(words, size, weight).width();
}

int letters_not_in_print(std::string_view words) { return scratch_text(words, 12.0, Weight::regular).unknown_letters(); }

}  // namespace fettle
