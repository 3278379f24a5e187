#include "pictures/thimble.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kThimbleWidth = 340.0;
constexpr double kSleeveLeft = 14.0;
constexpr double kSleeveLong = 212.0;  ///< one inch, or 25 mm
constexpr double kSleeveHalf = 34.0;
constexpr double kBevel = 16.0;
constexpr double kDrum = 56.0;  ///< radius of the thimble

std::int64_t lines_round(const ThimbleScale& scale) { return scale.unit == UnitId::inch ? 25 : 50; }
Length one_turn(const ThimbleScale& scale) {
  return scale.unit == UnitId::inch ? Length::counts(Length::kCountsPerInch / 40) : Length::counts(Length::kCountsPerMillimetre / 2);
}
Length whole_sleeve(const ThimbleScale& scale) {
  return scale.unit == UnitId::inch ? Length::counts(Length::kCountsPerInch) : Length::counts(25 * Length::kCountsPerMillimetre);
}

std::int64_t whole_of(const Ratio& value) { return static_cast<std::int64_t>(value.numerator() / value.denominator()); }

class ThimbleSketch {
 public:
  ThimbleSketch(const ThimblePlace& place, const ThimbleScale& scale, Length from, Language language)
      : place_(place), scale_(scale), from_(from), language_(language), above_(place.shown - from),
        lines_(thimble_lines(above_, scale)) {}

  [[nodiscard]] Drawing draw() && {
    add_sleeve();
    add_thimble();
    double y = kDatum + kDrum + 14.0;
    if (scale_.vernier) y = add_vernier(y);
    sketch_.text({kThimbleWidth / 2.0, y + 28.0}, typeset(place_.digits, language_) + " " + symbol_of(place_.unit),
                 {26.0, Ink::ink, Anchor::middle, Weight::bold});
    y = sketch_.box({8.0, y + 34.0}, kThimbleWidth - 16.0, sum(), {12.0, Ink::ink, Anchor::middle});
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.thimble.title", {verbatim("size", typeset(place_.digits, language_) + " " + symbol_of(place_.unit))}, language_),
                                   description());
  }

 private:
  static constexpr double kDatum = 66.0;

  [[nodiscard]] bool inch() const { return scale_.unit == UnitId::inch; }
  [[nodiscard]] double edge() const {
    return kSleeveLeft + kSleeveLong * (above_.ratio() / whole_sleeve(scale_).ratio()).to_double() + 2.0;
  }

  void add_sleeve() {
    const double right = edge();
    for (const double y : {kDatum - kSleeveHalf, kDatum + kSleeveHalf}) sketch_.line({2.0, y}, {right, y}, Ink::ink, 1.2);
    sketch_.line({2.0, kDatum}, {right, kDatum}, Ink::ink, 1.6);
    const double pitch = kSleeveLong / static_cast<double>(inch() ? 40 : 50);
    for (std::int64_t i = 0; i <= lines_.turns; ++i) {
      const double x = kSleeveLeft + pitch * static_cast<double>(i);
      if (inch()) {
        const double length = i % 4 == 0 ? 15.0 : 8.0;
        sketch_.line({x, kDatum - length}, {x, kDatum}, Ink::ink, 1.1);
        // A figure that the thimble would cover in part is covered in whole.
        if (i % 4 == 0 && x + 5.0 <= right) sketch_.text({x, kDatum + 14.0}, std::to_string(i / 4 % 10), kFigure);
      } else {
        const bool whole = i % 2 == 0;
        const double length = whole ? (i % 10 == 0 ? 15.0 : 9.0) : 8.0;
        sketch_.line({x, kDatum}, {x, whole ? kDatum - length : kDatum + length}, Ink::ink, 1.1);
        if (i % 10 == 0 && x + 8.0 <= right) sketch_.text({x, kDatum - 18.0}, std::to_string(i / 2), kFigure);
      }
    }
  }
  /// Lines of the drum as they are seen: closer together towards its edges, larger figures above.
  void add_thimble() {
    const double left = edge();
    const double bevel = left + kBevel;
    const double right = std::min(kThimbleWidth - 2.0, bevel + 84.0);
    sketch_.area({{left, kDatum - kSleeveHalf - 2.0}, {bevel, kDatum - kDrum}, {right, kDatum - kDrum}, {right, kDatum + kDrum},
                  {bevel, kDatum + kDrum}, {left, kDatum + kSleeveHalf + 2.0}},
                 Ink::paper, Ink::ink, 1.4);
    const double step = 2.0 * std::numbers::pi / static_cast<double>(lines_round(scale_));
    const double past = lines_.past.to_double();
    const std::int64_t round = lines_round(scale_);
    for (std::int64_t k = -round / 4 + 1; k <= round / 4; ++k) {
      const double angle = (static_cast<double>(k) - past) * step;
      if (std::fabs(angle) > 1.32) continue;
      const double y = kDatum - kDrum * std::sin(angle);
      const double rim = kDatum - (kSleeveHalf + 2.0) * std::sin(angle);
      const std::int64_t line = ((lines_.line + k) % round + round) % round;
      const bool named = line % 5 == 0;
      const double length = named ? 26.0 : 14.0;
      sketch_.open_line({{left, rim}, {bevel, y}, {bevel + length, y}}, Ink::ink, named ? 1.4 : 1.0);
      if (named && std::fabs(angle) < 1.0) {
        sketch_.text({bevel + 32.0, y + 5.0}, std::to_string(line), {14.0, Ink::ink, Anchor::start, Weight::bold});
      }
    }
  }

  /// The back of the sleeve, unrolled: its ten lines against those of the thimble. Gives the lower edge.
  double add_vernier(double top) {
    const double low = top + 126.0;  // vernier line 0
    const double space = 11.0;       // of thimble lines
    const double middle = 150.0;
    const double past = lines_.past.to_double();
    const int meets = lines_.coincides.value_or(0);
    sketch_.rect({middle, top + 4.0}, 74.0, 132.0, Ink::paper, Ink::ink, 1.2);
    for (int k = 0; k <= 10; ++k) {
      const double y = low - 0.9 * space * k;
      const bool this_one = k == meets || (k == 10 && meets == 0);
      sketch_.line({middle - 34.0, y}, {middle, y}, Ink::ink, this_one ? 3.0 : 1.0);
      const bool figure = k % 2 == 0 || this_one;
      const bool beside = k == meets - 1 || k == meets + 1;  // its figure would touch the one that counts
      if (figure && !beside) {
        sketch_.text({middle - 40.0, y + 4.0}, std::to_string(k % 10), {kPictureText, Ink::ink, Anchor::end, this_one ? Weight::bold : Weight::regular});
      }
    }
    const std::int64_t round = lines_round(scale_);
    for (std::int64_t j = 0; j <= 12; ++j) {
      const double y = low - (static_cast<double>(j) - past) * space;
      if (y < top + 8.0 || y > top + 132.0) continue;
      const bool met = j == meets;
      const std::int64_t line = (lines_.line + j) % round;
      sketch_.line({middle, y}, {middle + (line % 5 == 0 ? 30.0 : 20.0), y}, Ink::ink, met ? 3.0 : 1.0);
      if (line % 5 == 0) sketch_.text({middle + 36.0, y + 4.0}, std::to_string(line), kPlain);
    }
    const double side = sketch_.box({8.0, top + 40.0}, 84.0, say("pictures.thimble.vernier", {}, language_), kPlain);
    const double beside = sketch_.box({middle + 86.0, top + 40.0}, kThimbleWidth - middle - 92.0,
                                      say("pictures.thimble.meets", {count("line", meets)}, language_), kPlain);
    return std::max({top + 140.0, side, beside});
  }

  /// "0.275 + 0.011 + 0.0002": sleeve, thimble, vernier.
  [[nodiscard]] std::string sum() const {
    std::vector<std::string> parts;
    if (from_.counts() > 0) parts.push_back(say("pictures.thimble.from", {piece("size", from_.ratio(), 0)}, language_));
    parts.push_back(say("pictures.thimble.sleeve", {piece("size", one_turn(scale_).ratio() * Ratio(lines_.turns), inch() ? 3 : 1)}, language_));
    const Ratio line = one_turn(scale_).ratio() / Ratio(lines_round(scale_));
    parts.push_back(say("pictures.thimble.drum", {piece("size", line * Ratio(lines_.line), inch() ? 3 : 2), count("line", lines_.line)}, language_));
    if (lines_.coincides) {
      parts.push_back(say("pictures.thimble.tenths", {piece("size", line * Ratio::of(*lines_.coincides, 10), inch() ? 4 : 3)}, language_));
    }
    return sentences_joined(parts, " + ");
  }
  [[nodiscard]] Argument piece(const char* name, const Ratio& counts, int decimals) const {
    return verbatim(name, typeset(in_unit(counts, scale_.unit, decimals), language_));
  }
  [[nodiscard]] std::string description() const {
    std::vector<Argument> arguments = {
        verbatim("size", typeset(place_.digits, language_) + " " + symbol_of(place_.unit)),
        verbatim("sum", sum()),
    };
    return say("pictures.thimble.description", std::move(arguments), language_);
  }

  static constexpr Type kFigure = {kPictureText, Ink::ink, Anchor::middle, Weight::regular};
  static constexpr Type kPlain = {kPictureText, Ink::ink, Anchor::start, Weight::regular};

  const ThimblePlace& place_;
  ThimbleScale scale_;
  Length from_;
  Language language_;
  Length above_;
  ThimbleLines lines_;
  Sketch sketch_{kThimbleWidth, 200.0};
};

}  // namespace

std::optional<ThimbleScale> thimble_scale(Length division, UnitId unit) {
  const auto is = [&](std::int64_t counts) { return division.counts() == counts; };
  if (unit == UnitId::inch && is(Length::kCountsPerInch / 1000)) return ThimbleScale{unit, false};
  if (unit == UnitId::inch && is(Length::kCountsPerInch / 10000)) return ThimbleScale{unit, true};
  if (unit == UnitId::millimetre && is(Length::kCountsPerMillimetre / 100)) return ThimbleScale{unit, false};
  if (unit == UnitId::millimetre && is(Length::kCountsPerMillimetre / 1000)) return ThimbleScale{unit, true};
  return std::nullopt;
}

ThimbleLines thimble_lines(Length shown, const ThimbleScale& scale) {
  FETTLE_ASSERT(shown.counts() >= 0, std::to_string(shown.counts()));
  const Ratio turns = shown.ratio() / one_turn(scale).ratio();
  ThimbleLines out{whole_of(turns), 0, Ratio(0), std::nullopt};
  const Ratio lines = (turns - Ratio(out.turns)) * Ratio(lines_round(scale));
  out.line = whole_of(lines);
  out.past = lines - Ratio(out.line);
  if (scale.vernier) {
    const std::int64_t tenths = whole_of((out.past * Ratio(10)).rounded());
    // The last vernier line is the next thimble line.
    if (tenths == 10) {
      out.past = Ratio(0);
      out.line += 1;
      if (out.line == lines_round(scale)) {
        out.line = 0;
        out.turns += 1;
      }
    }
    out.coincides = static_cast<int>(tenths % 10);
  }
  return out;
}

Drawing thimble_picture(const ThimblePlace& place, const ThimbleScale& scale, std::optional<Length> from, Language language) {
  const std::int64_t sleeve = whole_sleeve(scale).counts();
  Length begins = Length::counts(place.shown.counts() / sleeve * sleeve);
  // A micrometer of 25 to 50 mm shows 50.000 with its thimble run out, one of 50 to 75 mm with it closed.
  if (from && *from <= place.shown && place.shown - *from <= whole_sleeve(scale)) begins = *from;
  return ThimbleSketch(place, scale, begins, language).draw();
}

}  // namespace fettle
