#include "drawing/pdf.h"

#include <cairo-pdf.h>

#include <memory>

#include "base/assertion.h"
#include "drawing/painter.h"
#include "drawing/xml_text.h"

namespace fettle {
namespace {

struct ReleasePdf {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* target) const { cairo_destroy(target); }
};

cairo_status_t append_to_pdf(void* out, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(out)->append(data, data + length);
  return CAIRO_STATUS_SUCCESS;
}

double points_per_unit(DrawingUnit unit) {
  switch (unit) {
    case DrawingUnit::pixel: return 72.0 / 96.0;
    case DrawingUnit::millimetre: return 72.0 / 25.4;
  }
  FETTLE_ASSERT(false, "a drawing without a unit");
}

}  // namespace

std::string pdf(const std::vector<Drawing>& pages, const PdfAbout& about) {
  FETTLE_ASSERT(!pages.empty(), "a document without pages");
  std::string out;
  const std::unique_ptr<cairo_surface_t, ReleasePdf> surface(
      cairo_pdf_surface_create_for_stream(&append_to_pdf, &out, 1.0, 1.0));
  const auto about_it = [&](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(surface.get(), what, clean_text(text).c_str());
  };
  about_it(CAIRO_PDF_METADATA_TITLE, about.title);
  about_it(CAIRO_PDF_METADATA_SUBJECT, about.description);
  about_it(CAIRO_PDF_METADATA_CREATOR, "fettle");
  about_it(CAIRO_PDF_METADATA_CREATE_DATE, about.made_at);
  about_it(CAIRO_PDF_METADATA_MOD_DATE, about.made_at);
  for (const Drawing& page : pages) {
    const double scale = points_per_unit(page.unit);
    cairo_pdf_surface_set_size(surface.get(), page.width * scale, page.height * scale);
    const std::unique_ptr<cairo_t, ReleasePdf> target(cairo_create(surface.get()));
    cairo_scale(target.get(), scale, scale);
    paint_drawing(target.get(), page, Palette::paper);
    cairo_show_page(target.get());
    FETTLE_ASSERT(cairo_status(target.get()) == CAIRO_STATUS_SUCCESS, cairo_status_to_string(cairo_status(target.get())));
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  FETTLE_ASSERT(status == CAIRO_STATUS_SUCCESS, cairo_status_to_string(status));
  return out;
}

}  // namespace fettle
