#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "pictures/place_marks.h"
#include "pictures/section_plan.h"

namespace fettle {
namespace {

/// How much of the gauge is seen across the picture: 0 end on, 1 whole.
double seen_across(const PartToDraw& part, std::size_t direction) {
  const double angle = part.layout.directions[direction].angle_degrees.to_double() * std::numbers::pi / 180.0;
  switch (shape_of(part)) {
    case PartShapeSeen::bore: return std::fabs(std::sin(angle));  // 0° points at the person
    case PartShapeSeen::piston:
    case PartShapeSeen::journal: return std::fabs(std::cos(angle));
    case PartShapeSeen::table: return 1.0;
  }
  FETTLE_ASSERT(false, "an outline without a view");
}

/// Bore and piston: the axis stands upright.
class UprightSection {
 public:
  UprightSection(const PartToDraw& part, Language language)
      : part_(part), language_(language), piston_(shape_of(part) == PartShapeSeen::piston),
        places_(station_places(part.layout, piston_ ? 62.0 : 24.0, piston_ ? 98.0 : 106.0, kLeastPitch)),
        shown_(names_shown(places_, kLeastPitch)) {}

  [[nodiscard]] Drawing draw(std::string title) && {
    if (piston_) {
      add_piston();
    } else {
      add_bore();
    }
    for (std::size_t s = 0; s < places_.size(); ++s) {
      sketch_.line({left(), places_[s]}, {right(), places_[s]}, Ink::faint, 1.0, Dash::dashed);
      if (!shown_[s]) continue;
      Type name = kPlaceName;
      name.anchor = Anchor::end;
      sketch_.text_within({kNameRight, places_[s] + 4.0}, station_words(part_.layout.stations[s], language_), name, kNameRight - 2.0);
      Type depth = {kPictureText, Ink::faint};
      (void)sketch_.figure_within({kDepthLeft, places_[s] + 4.0}, depth_words(part_.layout.stations[s], part_.unit, language_), depth,
                                  kSectionWidth - kDepthLeft - 1.0);
    }
    add_places(
        sketch_, part_, [&](std::size_t s, std::size_t d) { add_target(s, d); },
        [&](std::size_t s, std::size_t d) { add_lit(s, d); });
    return std::move(sketch_).done(std::move(title), places_description(part_, language_));
  }

 private:
  static constexpr double kLeft = 72.0;
  static constexpr double kRight = 116.0;
  static constexpr double kWall = 8.0;
  static constexpr double kNameRight = kLeft - kWall - 6.0;
  static constexpr double kDepthLeft = kRight + kWall + 4.0;
  static constexpr double kTop = 12.0;
  static constexpr double kBottom = 116.0;

  /// A piston is drawn narrower: the faces of the micrometer need room beside it.
  [[nodiscard]] double left() const { return piston_ ? kLeft + 6.0 : kLeft; }
  [[nodiscard]] double right() const { return piston_ ? kRight - 6.0 : kRight; }

  void add_bore() {
    for (const double wall : {kLeft - kWall, kRight}) {
      sketch_.hatch({wall, kTop}, kWall, kBottom - kTop, Ink::faint, 5.0);
      sketch_.rect({wall, kTop}, kWall, kBottom - kTop, std::nullopt, Ink::ink, 1.2);
    }
    sketch_.line({kLeft - kWall - 4.0, kTop}, {kRight + kWall + 4.0, kTop}, Ink::ink, 2.0);  // the face
  }

  void add_piston() {
    sketch_.rect({left(), 14.0}, right() - left(), 90.0, std::nullopt, Ink::ink, 1.4);
    for (const double y : {22.0, 30.0, 38.0}) sketch_.line({left(), y}, {right(), y}, Ink::ink, 2.4);
    sketch_.circle({(kLeft + kRight) / 2.0, 54.0}, 7.0, std::nullopt, Ink::ink, 1.2);
  }

  void add_target(std::size_t s, std::size_t d) {
    const double above = s == 0 ? 0.0 : (places_[s - 1] + places_[s]) / 2.0;
    const double below = s + 1 == places_.size() ? 120.0 : (places_[s] + places_[s + 1]) / 2.0;
    const double share = kSectionWidth / static_cast<double>(part_.layout.directions.size());
    sketch_.rect({share * static_cast<double>(d), above}, share, below - above, std::nullopt);
  }

  void add_lit(std::size_t s, std::size_t d) {
    const double y = places_[s];
    const double middle = (kLeft + kRight) / 2.0;
    const double half = (right() - left()) / 2.0;
    if (!piston_) sketch_.line({middle, 2.0}, {middle, y}, Ink::here, 2.0);
    const double seen = half * seen_across(part_, d);
    sketch_.line({left(), y}, {right(), y}, Ink::here, 1.0);
    add_gauge(sketch_, {middle, y}, seen, 90.0, piston_ && seen >= half - 1.0);
    const Band band = band_to_clear(places_, shown_, y);
    sketch_.rect({0.0, band.high}, kNameRight + 2.0, band.low - band.high, Ink::paper);
    Type name = kLitName;
    name.anchor = Anchor::end;
    sketch_.text_within({kNameRight - 5.0, y + 4.0}, station_words(part_.layout.stations[s], language_), name, kNameRight - 6.0);
    sketch_.arrow_head({kLeft - kWall - 1.0, y}, 90.0, 9.0, Ink::here);
  }

  const PartToDraw& part_;
  Language language_;
  bool piston_;
  std::vector<double> places_;
  std::vector<bool> shown_;
  Sketch sketch_{kSectionWidth, kPlanHeight};
};

/// A shaft, lying.
class LyingSection {
 public:
  LyingSection(const PartToDraw& part, Language language)
      : part_(part), language_(language), places_(station_places(part.layout, 40.0, 140.0, kLeastStep)) {}

  [[nodiscard]] Drawing draw(std::string title) && {
    for (const double left : {12.0, kSectionWidth - 26.0}) {  // the webs
      sketch_.hatch({left, kHigh - 14.0}, 14.0, kLow - kHigh + 28.0, Ink::faint, 5.0);
      sketch_.rect({left, kHigh - 14.0}, 14.0, kLow - kHigh + 28.0, std::nullopt, Ink::ink, 1.2);
    }
    for (const double y : {kHigh, kLow}) sketch_.line({26.0, y}, {kSectionWidth - 26.0, y}, Ink::ink, 1.4);
    const std::vector<bool> shown = names_shown(places_, widest([&](const Station& each) { return station_words(each, language_); }));
    const std::vector<bool> deep = names_shown(places_, widest([&](const Station& each) { return depth_words(each, part_.unit, language_); }));
    for (std::size_t s = 0; s < places_.size(); ++s) {
      sketch_.line({places_[s], kHigh}, {places_[s], kLow}, Ink::faint, 1.0, Dash::dashed);
      Type name = kPlaceName;
      name.anchor = Anchor::middle;
      const double room = 2.0 * std::min(places_[s], kSectionWidth - places_[s]) - 2.0;
      if (shown[s]) sketch_.text_within({places_[s], 11.0}, station_words(part_.layout.stations[s], language_), name, room);
      const Type depth = {kPictureText, Ink::faint, Anchor::middle};
      if (deep[s]) (void)sketch_.figure_within({places_[s], 116.0}, depth_words(part_.layout.stations[s], part_.unit, language_), depth, room);
    }
    add_places(
        sketch_, part_, [&](std::size_t s, std::size_t d) { add_target(s, d); },
        [&](std::size_t s, std::size_t d) { add_lit(s, d); });
    return std::move(sketch_).done(std::move(title), places_description(part_, language_));
  }

 private:
  static constexpr double kHigh = 42.0;
  static constexpr double kLow = 82.0;

  static constexpr double kLeastStep = 8.0;

  /// How far apart names of this sort must stand.
  template <class Words>
  [[nodiscard]] double widest(const Words& words) const {
    double out = 0.0;
    for (const Station& each : part_.layout.stations) out = std::max(out, width_of(words(each), kPlaceName));
    return std::min(out, 2.0 * places_.front()) + 4.0;
  }

  void add_target(std::size_t s, std::size_t d) {
    const double before = s == 0 ? 0.0 : (places_[s - 1] + places_[s]) / 2.0;
    const double after = s + 1 == places_.size() ? kSectionWidth : (places_[s] + places_[s + 1]) / 2.0;
    const double share = kPlanHeight / static_cast<double>(part_.layout.directions.size());
    sketch_.rect({before, share * static_cast<double>(d)}, after - before, share, std::nullopt);
  }

  void add_lit(std::size_t s, std::size_t d) {
    const double x = places_[s];
    const double half = (kLow - kHigh) / 2.0;
    const double seen = half * seen_across(part_, d);
    sketch_.line({x, kHigh}, {x, kLow}, Ink::here, 1.0);
    add_gauge(sketch_, {x, (kHigh + kLow) / 2.0}, seen, 0.0, true);
    const std::string words = station_words(part_.layout.stations[s], language_);
    const double wide = std::min(kSectionWidth - 4.0, width_of(words, kLitName) + 6.0);
    const double left = std::clamp(x - wide / 2.0, 1.0, kSectionWidth - 1.0 - wide);
    sketch_.rect({0.0, 0.0}, kSectionWidth, 15.0, Ink::paper);
    Type name = kLitName;
    name.anchor = Anchor::middle;
    sketch_.text_within({left + wide / 2.0, 11.0}, words, name, wide);
    sketch_.arrow_head({x, 24.0}, 180.0, 9.0, Ink::here);
  }

  const PartToDraw& part_;
  Language language_;
  std::vector<double> places_;
  Sketch sketch_{kSectionWidth, kPlanHeight};
};

/// What has no round shape: a box for each place, named by its row.
Drawing table_section(const PartToDraw& part, std::string title, Language language) {
  const std::size_t rows = part.layout.stations.size();
  const std::size_t columns = part.layout.directions.size();
  const double step = std::min(24.0, 116.0 / static_cast<double>(rows));
  const double wide = std::min(30.0, 72.0 / static_cast<double>(columns));
  const auto left_of = [&](std::size_t d) { return 180.0 - 2.0 - wide * static_cast<double>(columns - d); };
  Sketch sketch(kSectionWidth, kPlanHeight);
  std::vector<double> middles;
  for (std::size_t s = 0; s < rows; ++s) middles.push_back(2.0 + step * (static_cast<double>(s) + 0.5));
  const std::vector<bool> shown = names_shown(middles, kLeastPitch);
  for (std::size_t s = 0; s < rows; ++s) {
    for (std::size_t d = 0; d < columns; ++d) {
      if (part.layout.there(part.layout.cell(s, d))) {
        sketch.rect({left_of(d) + 1.0, middles[s] - step / 2.0 + 1.0}, wide - 2.0, step - 2.0, std::nullopt, Ink::faint);
      }
    }
    if (shown[s]) {
      sketch.text_within({2.0, middles[s] + 4.0}, station_words(part.layout.stations[s], language), kPlaceName, left_of(0) - 6.0);
    }
  }
  const auto target = [&](std::size_t s, std::size_t d) {
    const double left = d == 0 ? 0.0 : left_of(d);
    sketch.rect({left, middles[s] - step / 2.0}, left_of(d) + wide - left, step, std::nullopt);
  };
  const auto lit = [&](std::size_t s, std::size_t d) {
    sketch.rect({left_of(d) + 1.0, middles[s] - step / 2.0 + 1.0}, wide - 2.0, step - 2.0, Ink::here);
    const double y = std::clamp(middles[s], 7.5, kPlanHeight - 7.5);
    const Band band = band_to_clear(middles, shown, y);
    sketch.rect({0.0, band.high}, left_of(0) - 2.0, band.low - band.high, Ink::paper);
    sketch.text_within({2.0, y + 4.0}, station_words(part.layout.stations[s], language), kLitName, left_of(0) - 6.0);
  };
  add_places(sketch, part, target, lit);
  return std::move(sketch).done(std::move(title), places_description(part, language));
}

}  // namespace

Drawing section_picture(const PartToDraw& part, Language language) {
  std::string title = say("pictures.section.title", {verbatim("part", part.name)}, language);
  switch (shape_of(part)) {
    case PartShapeSeen::bore:
    case PartShapeSeen::piston: return UprightSection(part, language).draw(std::move(title));
    case PartShapeSeen::journal: return LyingSection(part, language).draw(std::move(title));
    case PartShapeSeen::table: return table_section(part, std::move(title), language);
  }
  FETTLE_ASSERT(false, "an outline without a section");
}

}  // namespace fettle
