#include "pictures/dial.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "drawing/extent.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kDialWidth = 320.0;
constexpr Point kDialCentre = {160.0, 134.0};
constexpr double kDialRadius = 94.0;
constexpr double kUnknownDivisions = 100.0;
constexpr std::string_view kClockwiseMark = "\xe2\x86\xbb";      // ↻
constexpr std::string_view kAnticlockwiseMark = "\xe2\x86\xba";  // ↺

std::string side_mark(const std::optional<NeedleSide>& side) {
  if (!side) return "";
  return " " + std::string(*side == NeedleSide::clockwise ? kClockwiseMark : kAnticlockwiseMark);
}

/// The least of 1, 2, 5, 10, 20, 50 ... that is not below `least`.
std::int64_t round_count_above(double least) {
  std::int64_t power = 1;
  while (true) {
    for (const std::int64_t digit : {1, 2, 5}) {
      if (static_cast<double>(digit * power) >= least) return digit * power;
    }
    power *= 10;
  }
}

class DialSketch {
 public:
  DialSketch(const DialToDraw& dial, Language language)
      : dial_(dial), language_(language), divisions_(divisions_of(dial)), one_way_(needs_one_way()) {}

  [[nodiscard]] Drawing draw() && {
    sketch_.circle(kDialCentre, kDialRadius, std::nullopt, Ink::ink, 2.0);
    add_divisions();
    add_numbers();
    if (dial_.turn) add_small_hand();
    for (const PointerToDraw& each : dial_.pointers) add_pointer(each);
    for (const PointerToDraw& each : dial_.pointers) add_pointer_names(each);
    add_needle();
    double y = kDialCentre.y + kDialRadius + 34.0;
    for (const std::string& each : lines()) y = sketch_.box({8.0, y}, kDialWidth - 16.0, each, {kPictureName}) + 2.0;
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.dial.title", {}, language_), description());
  }

 private:
  static double divisions_of(const DialToDraw& dial) {
    FETTLE_ASSERT(dial.division.counts() > 0, "a dial without divisions");
    if (!dial.turn) return kUnknownDivisions;
    FETTLE_ASSERT(dial.turn->counts() >= dial.division.counts(), "a turn of less than a division");
    return (dial.turn->ratio() / dial.division.ratio()).to_double();
  }

  [[nodiscard]] std::vector<NeedlePlace> places() const {
    std::vector<NeedlePlace> out;
    if (dial_.needle) out.push_back(*dial_.needle);
    for (const PointerToDraw& each : dial_.pointers) {
      out.push_back(each.at_limit);
      if (each.guarded) out.push_back(*each.guarded);
    }
    return out;
  }

  /// Which way the numbers run round the whole dial: that of the needles, where one stands past half a turn. Nothing: to both sides.
  [[nodiscard]] std::optional<NeedleSide> needs_one_way() const {
    for (const NeedlePlace& each : places()) {
      if (each.side && each.divisions.to_double() > divisions_ / 2.0) return each.side;
    }
    return std::nullopt;
  }

  [[nodiscard]] double degrees(double divisions, bool clockwise) const {
    const double turned = std::fmod(divisions, divisions_) * 360.0 / divisions_;
    return clockwise ? turned : -turned;
  }
  [[nodiscard]] double degrees(const NeedlePlace& place) const {
    return degrees(place.divisions.to_double(), place.side != NeedleSide::anticlockwise);
  }
  /// 1, 5 and 10 divisions, or more where they would be closer than 2.6 px.
  void add_divisions() {
    const std::int64_t step = round_count_above(2.6 * divisions_ / (2.0 * std::numbers::pi * kDialRadius));
    const std::int64_t middle = step * 5;
    const std::int64_t longest = step * 10;
    for (std::int64_t i = 0; static_cast<double>(i) < divisions_ - 1e-9; i += step) {
      const double length = i % longest == 0 ? 13.0 : i % middle == 0 ? 10.0 : 6.0;
      const double at = degrees(static_cast<double>(i), one_way_ != NeedleSide::anticlockwise);
      sketch_.line(circle_point(kDialCentre, kDialRadius - length, at), circle_point(kDialCentre, kDialRadius - 1.0, at), Ink::ink,
                   i % longest == 0 ? 1.5 : 0.8);
    }
  }

  void add_numbers() {
    const double radius = kDialRadius - 24.0;
    // Figures that are too wide for a dial are left to the list.
    const double widest = width_of(std::to_string(static_cast<std::int64_t>(divisions_)), {12.0});
    if (widest > 40.0) return add_number(0, radius, true);
    const std::int64_t step = round_count_above(std::max(30.0, widest + 6.0) * divisions_ / (2.0 * std::numbers::pi * radius));
    const double last = one_way_ ? divisions_ : divisions_ / 2.0 + 1e-9;
    for (std::int64_t i = 0; static_cast<double>(i) < last; i += step) {
      // The last number must not stand in the zero, or on its mirrored self.
      if (one_way_ && divisions_ - static_cast<double>(i) < 0.7 * static_cast<double>(step)) break;
      const bool once = i == 0 || std::fabs(static_cast<double>(i) - divisions_ / 2.0) < 1e-6;
      const bool crowded = !one_way_ && !once && divisions_ - 2.0 * static_cast<double>(i) < 0.7 * static_cast<double>(step);
      if (crowded) break;
      if (one_way_ != NeedleSide::anticlockwise) add_number(i, radius, true);
      if (one_way_ == NeedleSide::anticlockwise || (!one_way_ && !once)) add_number(i, radius, false);
    }
  }
  void add_number(std::int64_t number, double radius, bool clockwise) {
    const Point at = circle_point(kDialCentre, radius, degrees(static_cast<double>(number), clockwise));
    sketch_.text({at.x, at.y + 4.5}, std::to_string(number), {12.0, Ink::ink, Anchor::middle, number == 0 ? Weight::bold : Weight::regular});
  }

  void add_small_hand() {
    const Point centre = {kDialCentre.x, kDialCentre.y + 34.0};
    sketch_.circle(centre, 18.0, std::nullopt, Ink::faint, 1.2);
    for (int i = 0; i < 10; ++i) {
      sketch_.line(circle_point(centre, 14.0, 36.0 * i), circle_point(centre, 18.0, 36.0 * i), Ink::faint);
    }
    double turns = 0.0;
    if (dial_.needle) {
      turns = static_cast<double>(dial_.needle->turns) + dial_.needle->divisions.to_double() / divisions_;
      if (dial_.needle->side == NeedleSide::anticlockwise) turns = -turns;
    }
    sketch_.line(centre, circle_point(centre, 13.0, std::fmod(turns, 10.0) * 36.0), Ink::ink, 2.0);
    sketch_.circle(centre, 2.5, Ink::ink);
  }

  void add_pointer(const PointerToDraw& pointer) {
    if (pointer.guarded) add_wedge(*pointer.guarded, true);
    add_wedge(pointer.at_limit, false);
  }
  /// Outside the rim, its tip on it. Filled: with the guard band; hollow: the bare limit.
  void add_wedge(const NeedlePlace& place, bool filled) {
    const double at = degrees(place);
    const Point tip = circle_point(kDialCentre, kDialRadius + 1.5, at);
    const Point left = circle_point(kDialCentre, kDialRadius + 13.0, at - 3.0);
    const Point right = circle_point(kDialCentre, kDialRadius + 13.0, at + 3.0);
    const Extent wedge = {std::min({tip.x, left.x, right.x}), std::min({tip.y, left.y, right.y}), std::max({tip.x, left.x, right.x}),
                          std::max({tip.y, left.y, right.y})};
    named_.push_back(wedge);
    sketch_.area({tip, left, right}, filled ? Ink::beyond : Ink::paper, Ink::beyond, 1.4);
  }

  void add_pointer_names(const PointerToDraw& pointer) {
    // Each name on the side away from the other one, so that it is seen whose it is.
    const double apart_by = pointer.guarded ? std::remainder(degrees(pointer.at_limit) - degrees(*pointer.guarded), 360.0) : 0.0;
    const double side = apart_by < 0.0 ? -1.0 : 1.0;
    add_name(pointer.at_limit, side);
    if (pointer.guarded) add_name(*pointer.guarded, -side);
  }
  /// Where it hides no other; what finds no room stands in the list below all the same.
  void add_name(const NeedlePlace& place, double side) {
    const std::string words = needle_mark(place, language_);
    const Type type = {12.0, Ink::ink, Anchor::start, Weight::bold};
    const double wide = width_of(words, type);
    for (const double radius : {kDialRadius + 17.0, kDialRadius + 29.0}) {
      for (const double aside : {0.0, 5.0, 10.0, 15.0}) {
        const double at = degrees(place) + side * aside;
        const Point edge = circle_point(kDialCentre, radius, at);
        const double across = std::sin(at * std::numbers::pi / 180.0);
        const double up = std::cos(at * std::numbers::pi / 180.0);
        const double left = edge.x - wide * (1.0 - across) / 2.0;
        const double base = edge.y + 4.5 - 5.0 * up;
        const Extent extent = {left, base - 10.0, left + wide, base + 3.0};
        if (extent.left < 1.0 || extent.right > kDialWidth - 1.0 || extent.top < 1.0 || extent.bottom > kDialCentre.y + kDialRadius + 33.0) continue;
        const bool free = std::all_of(named_.begin(), named_.end(), [&](const Extent& each) { return apart(each, extent); });
        if (!free) continue;
        named_.push_back(extent);
        sketch_.text({left, base}, words, type);
        return;
      }
    }
  }

  void add_needle() {
    const double at = dial_.needle ? degrees(*dial_.needle) : 0.0;
    const double reach = kDialRadius - 15.0;
    if (dial_.needle) {
      const Point tip = circle_point(kDialCentre, reach, at);
      sketch_.area({tip, circle_point(kDialCentre, 4.0, at + 90.0), circle_point(kDialCentre, 18.0, at + 180.0),
                    circle_point(kDialCentre, 4.0, at - 90.0)},
                   Ink::ink);
    }
    sketch_.circle(kDialCentre, 5.0, dial_.needle ? Ink::ink : Ink::paper, Ink::ink, 1.5);
  }

  [[nodiscard]] std::string pointer_words(const PointerToDraw& pointer) const {
    const std::string at = needle_mark(pointer.at_limit, language_);
    std::string out = pointer.guarded ? say("pictures.dial.guarded", {verbatim("limit", pointer.name), verbatim("at", at),
                                                                       verbatim("guarded", needle_mark(*pointer.guarded, language_))},
                                            language_)
                                      : say("pictures.dial.bare", {verbatim("limit", pointer.name), verbatim("at", at)}, language_);
    return pointer.in_travel ? out : out + " " + say("pictures.dial.out_of_travel", {}, language_);
  }

  [[nodiscard]] std::vector<std::string> lines() const {
    std::vector<std::string> out;
    for (const PointerToDraw& each : dial_.pointers) out.push_back(pointer_words(each));
    const bool guarded = std::any_of(dial_.pointers.begin(), dial_.pointers.end(), [](const auto& each) { return each.guarded.has_value(); });
    if (guarded) out.push_back(say("pictures.dial.wedges", {}, language_));
    if (dial_.turn) {
      out.push_back(say("pictures.dial.scale", {length("division", dial_.division), length("turn", *dial_.turn)}, language_));
    } else {
      out.push_back(say("pictures.dial.turn_unknown", {length("division", dial_.division)}, language_));
    }
    return out;
  }
  [[nodiscard]] Argument length(const char* name, Length value) const {
    std::string digits = in_unit(value.ratio(), dial_.unit, 9);
    // A turn of 5.08 mm is typed ".2": no zeros at the end, but never less than the figure.
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
    return decimal(name, digits, symbol_of(dial_.unit));
  }

  [[nodiscard]] std::string description() const {
    std::vector<std::string> out;
    if (dial_.needle) out.push_back(say("pictures.dial.needle", {verbatim("at", needle_mark(*dial_.needle, language_))}, language_));
    for (const std::string& each : lines()) out.push_back(each);
    return sentences_joined(out, " ");
  }

  const DialToDraw& dial_;
  Language language_;
  double divisions_;
  std::optional<NeedleSide> one_way_;
  std::vector<Extent> named_;
  Sketch sketch_{kDialWidth, 300.0};
};

}  // namespace

std::string needle_mark(const NeedlePlace& place, Language language) {
  const Ratio halves = (place.divisions * Ratio(2)).rounded();
  const Ratio near = halves / Ratio(2);
  const std::string figure = typeset(near.decimal(near.is_whole() ? 0 : 1), language);
  const std::string turns = place.turns == 0 ? "" : say("pictures.dial.turns", {count("turns", place.turns)}, language) + " + ";
  return turns + figure + side_mark(place.side);
}

DialToDraw dial_of(const SettingUp& setting, const std::vector<std::string>& names, UnitId unit) {
  FETTLE_ASSERT(names.size() == setting.pointers.size(), "a limit pointer without a name");
  DialToDraw out{setting.division, setting.turn, unit, std::nullopt, {}};
  for (std::size_t i = 0; i < names.size(); ++i) {
    const LimitPointer& each = setting.pointers[i];
    out.pointers.push_back({names[i], each.at_limit, each.guarded, each.in_travel});
  }
  return out;
}

Drawing dial_picture(const DialToDraw& dial, Language language) { return DialSketch(dial, language).draw(); }

}  // namespace fettle
