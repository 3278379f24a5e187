#include "gauging/said_repeatability.h"

#include "catalogue/figure_style.h"
#include "units/print.h"

namespace fettle {
namespace {

/// A spread of mm in µm, all else in its usual unit.
Argument spread(const char* name, double value, Dimension dimension) {
  constexpr double kMicrometres = 1000.0;
  if (dimension == Dimension::length) return decimal(name, print_fixed(kMicrometres * value, 1), "µm");
  const FigureStyle style = style_read(dimension, UnitId::millimetre);
  return decimal(name, shown(value, style), style.unit);
}

}  // namespace

Message said(const LearnedRepeatability& learned) {
  Message out{learned.person.empty() ? "notice.repeatability" : "notice.repeatability_of", {verbatim("gauge", learned.gauge)}};
  if (!learned.person.empty()) out.arguments.push_back(verbatim("person", learned.person));
  out.arguments.push_back(count("repeats", static_cast<std::int64_t>(learned.degrees_of_freedom)));
  out.arguments.push_back(spread("spread", learned.spread, learned.dimension));
  out.arguments.push_back(spread("stated", learned.stated, learned.dimension));
  out.arguments.push_back(decimal("counts", print_fixed(learned.counts, 0)));
  out.arguments.push_back(spread("learned", learned.learned, learned.dimension));
  return out;
}

Message said(const UsedStudy& used) {
  const StudiedGauge& study = *used.study;
  Message out{study.person ? "notice.studied_of" : "notice.studied", {verbatim("gauge", study.gauge)}};
  if (study.person) out.arguments.push_back(verbatim("person", *study.person));
  out.arguments.push_back(count("readings", static_cast<std::int64_t>(used.sizes)));
  out.arguments.push_back(spread("studied", used.studied, used.dimension));
  out.arguments.push_back(count("freedom", study.degrees_of_freedom));
  out.arguments.push_back(spread("stated", used.stated, used.dimension));
  return out;
}

}  // namespace fettle
