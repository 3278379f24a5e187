#include "pictures/run_out.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "pictures/sketch.h"
#include "units/length.h"

namespace fettle {
namespace {

constexpr double kRunOutWidth = 328.0;
constexpr Point kClockCentre = {164.0, 134.0};
constexpr double kClockRadius = 62.0;
constexpr double kClockBulge = 20.0;
constexpr double kClockFace = 92.0;

class RunOutSketch {
 public:
  RunOutSketch(const RunOutToDraw& run_out, Language language) : run_out_(run_out), language_(language) {
    order_ = run_out.readings;
    std::stable_sort(order_.begin(), order_.end(), [](const auto& a, const auto& b) { return a.degrees < b.degrees; });
    for (const ClockReading& each : order_) {
      if (!each.shows) {
        whole_ = false;
        continue;
      }
      if (!high_ || *each.shows > *high_->shows) high_ = each;
      if (!low_ || *each.shows < *low_->shows) low_ = each;
    }
    if (high_) {
      const double most = std::max(std::fabs(*high_->shows), std::fabs(*low_->shows));
      // The outer ring is a round figure in the unit that is shown.
      const double mm_per_unit = unit_definition(run_out.unit).factor.to_double() / static_cast<double>(Length::kCountsPerMillimetre);
      if (most > 0.0) ring_mm_ = round_step_above(most / mm_per_unit) * mm_per_unit;
    }
  }

  [[nodiscard]] Drawing draw() && {
    for (int i = 0; i < 12; ++i) {
      sketch_.line(circle_point(kClockCentre, kClockFace - 4.0, 30.0 * i), circle_point(kClockCentre, kClockFace, 30.0 * i), Ink::faint);
    }
    sketch_.mark(Circle{kClockCentre, kClockRadius, std::nullopt, Stroke{Ink::faint, 1.0, Dash::dashed}});
    sketch_.circle(kClockCentre, kClockRadius + kClockBulge, std::nullopt, Ink::wash, 1.0);
    add_curve();
    for (const ClockReading& each : order_) add_reading(each);
    double y = kClockCentre.y + kClockFace + 40.0;
    for (const std::string& each : below_) y = sketch_.box({8.0, y}, kRunOutWidth - 16.0, each, {kPictureText}) + 2.0;
    for (const std::string& each : summary()) y = sketch_.box({8.0, y}, kRunOutWidth - 16.0, each, {kPictureName}) + 2.0;
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.run_out.title", {verbatim("part", run_out_.name)}, language_), description());
  }

 private:
  [[nodiscard]] double pixels_per_mm() const { return ring_mm_ ? kClockBulge / *ring_mm_ : 0.0; }
  [[nodiscard]] Point place(const ClockReading& reading) const {
    const double bulge = reading.shows ? *reading.shows * pixels_per_mm() : 0.0;
    return circle_point(kClockCentre, kClockRadius + bulge, reading.degrees);
  }

  /// From reading to reading in a fair curve: radius goes evenly with the angle. Not past what was not read.
  void add_curve() {
    const std::size_t n = order_.size();
    for (std::size_t i = 0; i < n && n > 1; ++i) {
      const ClockReading& a = order_[i];
      const ClockReading& b = order_[(i + 1) % n];
      if (!a.shows || !b.shows) continue;
      const double turn = i + 1 == n ? b.degrees + 360.0 - a.degrees : b.degrees - a.degrees;
      const double scale = pixels_per_mm();
      std::vector<Point> points;
      const int steps = std::max(1, static_cast<int>(turn / 5.0));
      for (int k = 0; k <= steps; ++k) {
        const double t = static_cast<double>(k) / steps;
        const double value = *a.shows + (*b.shows - *a.shows) * t;
        points.push_back(circle_point(kClockCentre, kClockRadius + scale * value, a.degrees + turn * t));
      }
      sketch_.open_line(std::move(points), Ink::ink, 2.0);
    }
  }

  void add_reading(const ClockReading& reading) {
    const Point at = place(reading);
    if (reading.shows) {
      sketch_.circle(at, 3.4, Ink::ink);
    } else {
      sketch_.circle(at, 6.0, Ink::paper, Ink::faint, 1.4);
      sketch_.line({at.x - 3.0, at.y}, {at.x + 3.0, at.y}, Ink::faint, 1.4);
    }
    const double angle = reading.degrees * std::numbers::pi / 180.0;
    const double across = std::sin(angle);
    const bool many = order_.size() > 6;
    const std::string figure = reading.shows ? signed_figure_of(*reading.shows, run_out_.unit, language_) : "\xe2\x80\x93";
    const Type bold = {12.0, Ink::ink, across > 0.3 ? Anchor::start : across < -0.3 ? Anchor::end : Anchor::middle, Weight::bold};
    Type plain = bold;
    plain.size = kPictureText;
    plain.weight = Weight::regular;
    const Point edge = circle_point(kClockCentre, kClockFace + 6.0, reading.degrees);
    const double down = edge.y - std::cos(angle) * 6.0;
    const double room = std::fabs(across) > 0.3 ? (across > 0.0 ? kRunOutWidth - edge.x : edge.x) - 2.0 : 120.0;
    if (many) {
      if (!sketch_.figure_within({edge.x, down + 4.5}, figure, bold, room)) below_.push_back(words_of(reading));
      return;
    }
    const double base = std::cos(angle) > 0.3 ? down - 4.0 : std::cos(angle) < -0.3 ? down + 18.0 - 5.0 : down + 12.0;
    sketch_.text_within({edge.x, base - 13.0}, reading.name, plain, room);
    if (!sketch_.figure_within({edge.x, base}, figure, bold, room)) below_.push_back(words_of(reading));
  }

  [[nodiscard]] std::string words_of(const ClockReading& reading) const {
    if (!reading.shows) return reading.name + " " + say("pictures.not_read", {}, language_);
    return reading.name + " " + signed_figure_of(*reading.shows, run_out_.unit, language_) + " " + symbol_of(run_out_.unit);
  }
  [[nodiscard]] std::string length(double value) const { return figure_of(value, run_out_.unit, language_) + " " + symbol_of(run_out_.unit); }
  [[nodiscard]] std::vector<std::string> summary() const {
    std::vector<std::string> out;
    if (!high_) return {say("pictures.run_out.nothing", {}, language_)};
    if (whole_ && *high_->shows == *low_->shows) return {say("pictures.run_out.none", {}, language_)};
    std::vector<Argument> arguments = {verbatim("high", high_->name), verbatim("low", low_->name), verbatim("travel", length(*high_->shows - *low_->shows))};
    out.push_back(say(whole_ ? "pictures.run_out.travel" : "pictures.run_out.so_far", std::move(arguments), language_));
    if (ring_mm_) out.push_back(say("pictures.run_out.times", {verbatim("bulge", length(*ring_mm_))}, language_));
    return out;
  }
  [[nodiscard]] std::string description() const {
    std::vector<std::string> places;
    for (const ClockReading& each : order_) {
      places.push_back(words_of(each));
    }
    return sentences_joined(places, ", ") + ". " + sentences_joined(summary(), " ");
  }

  const RunOutToDraw& run_out_;
  Language language_;
  std::vector<ClockReading> order_;
  std::optional<ClockReading> high_;
  std::optional<ClockReading> low_;
  bool whole_ = true;
  std::vector<std::string> below_;  ///< readings whose figures found no room
  std::optional<double> ring_mm_;  ///< what the outer ring stands for
  Sketch sketch_{kRunOutWidth, 300.0};
};

}  // namespace

Drawing run_out_picture(const RunOutToDraw& run_out, Language language) {
  FETTLE_ASSERT(!run_out.readings.empty(), "a clock without places");
  return RunOutSketch(run_out, language).draw();
}

}  // namespace fettle
