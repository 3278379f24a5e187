#include "drawing/png.h"

#include <cairo.h>

#include <cmath>
#include <memory>

#include "base/assertion.h"
#include "drawing/painter.h"

namespace fettle {
namespace {

struct ReleasePng {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* target) const { cairo_destroy(target); }
};

cairo_status_t append_to_png(void* out, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(out)->append(data, data + length);
  return CAIRO_STATUS_SUCCESS;
}

int whole_pixels(double length) {
  const double pixels = std::ceil(length - 1e-9);
  FETTLE_ASSERT(pixels >= 1.0 && pixels <= 32767.0, "a picture too large or without a size");
  return static_cast<int>(pixels);
}

}  // namespace

std::string png(const Drawing& drawing, const PngStyle& style) {
  const int width = whole_pixels(drawing.width * style.pixels_per_unit);
  const int height = whole_pixels(drawing.height * style.pixels_per_unit);
  const std::unique_ptr<cairo_surface_t, ReleasePng> surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  {
    const std::unique_ptr<cairo_t, ReleasePng> target(cairo_create(surface.get()));
    cairo_scale(target.get(), width / drawing.width, height / drawing.height);
    paint_drawing(target.get(), drawing, style.palette);
    FETTLE_ASSERT(cairo_status(target.get()) == CAIRO_STATUS_SUCCESS, cairo_status_to_string(cairo_status(target.get())));
  }
  std::string out;
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), &append_to_png, &out);
  FETTLE_ASSERT(status == CAIRO_STATUS_SUCCESS, cairo_status_to_string(status));
  return out;
}

}  // namespace fettle
