#include "pictures/doubt_bar.h"

#include <algorithm>
#include <cmath>

#include "catalogue/figure_style.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kBarWidth = 330.0;
constexpr double kBarHeight = 44.0;
constexpr double kBarLeft = 8.0;
constexpr double kBarRight = 322.0;
constexpr double kBarMiddle = 14.0;
/// A scale that is so many whiskers long shows a whisker of ten pixels.
constexpr double kWhiskersOnScale = 30.0;

Ink ink_of(VerdictWord word) {
  switch (word) {
    case VerdictWord::within: return Ink::within;
    case VerdictWord::beyond: return Ink::beyond;
    case VerdictWord::too_close: return Ink::close;
    case VerdictWord::not_judged: return Ink::faint;
  }
  return Ink::faint;
}

struct BarScale {
  double from;
  double to;
  [[nodiscard]] double x(double value) const {
    return kBarLeft + (kBarRight - kBarLeft) * std::clamp((value - from) / (to - from), 0.0, 1.0);
  }
  [[nodiscard]] bool holds(double value) const { return value >= from && value <= to; }
};

/// From the limit to what was found and a little beyond; where that is too far off for the whisker to be seen, about the limit only.
BarScale scale_of(const DoubtBar& bar) {
  std::vector<double> all;
  if (bar.limit) all.push_back(*bar.limit);
  if (bar.as_measured) all.push_back(*bar.as_measured);
  if (bar.estimate) all.insert(all.end(), {bar.estimate->low, bar.estimate->middle, bar.estimate->high});
  if (all.empty()) return {0.0, 1.0};
  double low = *std::min_element(all.begin(), all.end());
  double high = *std::max_element(all.begin(), all.end());
  const double whisker = bar.estimate ? bar.estimate->high - bar.estimate->low : 0.0;
  if (bar.limit && whisker > 0.0 && high - low > kWhiskersOnScale * whisker) {
    low = *bar.limit - kWhiskersOnScale * whisker / 2.0;
    high = *bar.limit + kWhiskersOnScale * whisker / 2.0;
  }
  if (high <= low) {
    const double room = std::max(std::fabs(low) * 1e-4, bar.dimension == ResultDimension::length ? 0.005 : 1e-4);
    return {low - room, low + room};
  }
  const double room = 0.12 * (high - low);
  return {low - room, high + room};
}

class BarSketch {
 public:
  BarSketch(const DoubtBar& bar, Language language) : bar_(bar), language_(language), scale_(scale_of(bar)) {}

  [[nodiscard]] Drawing draw() && {
    if (bar_.limit) add_good_side();
    sketch_.line({kBarLeft, kBarMiddle}, {kBarRight, kBarMiddle}, Ink::faint);
    for (const double x : {kBarLeft, kBarRight}) sketch_.line({x, kBarMiddle - 4.0}, {x, kBarMiddle + 4.0}, Ink::faint);
    if (bar_.as_measured) add_measured(*bar_.as_measured);
    if (bar_.estimate) add_estimate(*bar_.estimate);
    if (bar_.limit) add_post(*bar_.limit);
    add_words();
    return std::move(sketch_).done(bar_.name, description());
  }

 private:
  void add_good_side() {
    const double post = scale_.x(*bar_.limit);
    const double from = bar_.side == LimitSide::at_most ? kBarLeft : post;
    const double to = bar_.side == LimitSide::at_most ? post : kBarRight;
    sketch_.rect({from, kBarMiddle - 9.0}, to - from, 18.0, Ink::wash);
  }
  void add_post(double limit) {
    const double x = scale_.x(limit);
    sketch_.rect({x - 2.0, 1.0}, 4.0, 26.0, Ink::ink);
  }
  void add_estimate(const BarEstimate& estimate) {
    const Ink ink = ink_of(bar_.word);
    if (!scale_.holds(estimate.middle)) return add_far(estimate.middle, ink, true);
    const double low = scale_.x(estimate.low);
    const double high = scale_.x(estimate.high);
    sketch_.line({low, kBarMiddle}, {high, kBarMiddle}, ink, 3.0);
    for (const double x : {low, high}) sketch_.line({x, kBarMiddle - 5.0}, {x, kBarMiddle + 5.0}, ink, 2.0);
    const double x = scale_.x(estimate.middle);
    sketch_.area({{x, kBarMiddle - 8.0}, {x + 7.0, kBarMiddle}, {x, kBarMiddle + 8.0}, {x - 7.0, kBarMiddle}}, ink, Ink::paper, 1.0);
  }
  void add_measured(double value) {
    if (!scale_.holds(value)) {
      if (!bar_.estimate) add_far(value, Ink::ink, false);
      return;
    }
    const double x = scale_.x(value);
    sketch_.rect({x - 2.5, kBarMiddle - 11.0}, 5.0, 22.0, Ink::paper, Ink::ink, 1.3);
  }
  /// What lies off the scale: an arrow at its end.
  void add_far(double value, Ink ink, bool filled) {
    const bool right = value > scale_.to;
    const double tip = right ? kBarRight + 5.0 : kBarLeft - 5.0;
    const double back = right ? tip - 15.0 : tip + 15.0;
    sketch_.area({{tip, kBarMiddle}, {back, kBarMiddle - 8.0}, {back, kBarMiddle + 8.0}}, filled ? ink : Ink::paper, ink, 1.4);
  }

  /// Ends of the scale, and the limit between them where it has room. An end that a value runs off is that value's, with an arrow.
  void add_words() {
    const double base = kBarHeight - 4.0;
    if (!bar_.limit && !bar_.as_measured && !bar_.estimate) {
      const std::string words = say("pictures.bar.no_limit", {}, language_) + " " + say("pictures.bar.not_measured", {}, language_);
      return sketch_.text_within({kBarWidth / 2.0, base}, words, {kPictureText, Ink::faint, Anchor::middle}, kBarWidth - 8.0);
    }
    const Type ends = {kPictureText, Ink::faint};
    Type right = ends;
    right.anchor = Anchor::end;
    const std::string low_words = end_words(scale_.from, true);
    const std::string high_words = end_words(scale_.to, false);
    sketch_.text({kBarLeft - 4.0, base}, low_words, ends);
    sketch_.text({kBarRight + 4.0, base}, high_words, right);
    if (!bar_.limit) return;
    Type bold = {kPictureText, Ink::ink, Anchor::middle, Weight::bold};
    const std::string words = whole_figure(*bar_.limit) + unit();
    const double half = width_of(words, bold) / 2.0;
    const double from = kBarLeft - 4.0 + width_of(low_words, ends) + 6.0 + half;
    const double to = kBarRight + 4.0 - width_of(high_words, ends) - 6.0 - half;
    if (from > to) return;
    sketch_.text({std::clamp(scale_.x(*bar_.limit), from, to), base}, words, bold);
  }
  [[nodiscard]] std::string end_words(double end, bool low) const {
    const std::optional<double> far = bar_.estimate ? std::optional(bar_.estimate->middle) : bar_.as_measured;
    if (far && low && *far < scale_.from) return "\xe2\x86\x90 " + figure(*far) + unit();   // ←
    if (far && !low && *far > scale_.to) return figure(*far) + unit() + " \xe2\x86\x92";  // →
    return figure(end) + (low || bar_.limit ? "" : unit());  // the limit's figure has the unit
  }

  /// With as many decimals as the scale needs, so that its ends never read the same.
  [[nodiscard]] std::string figure(double value) const {
    return with_decimals(value, scale_decimals());
  }
  [[nodiscard]] std::string with_decimals(double value, int decimals) const {
    FigureStyle style = usual_style(bar_.dimension, bar_.unit);
    style.decimals = decimals;
    return typeset(shown(value, style), language_);
  }
  [[nodiscard]] int scale_decimals() const {
    const FigureStyle style = usual_style(bar_.dimension, bar_.unit);
    const double across = std::fabs((scale_.to - scale_.from) * style.estimate_factor);
    int decimals = 0;
    double step = 1.0;
    while (decimals < 7 && step * 6.0 > across) {
      step /= 10.0;
      ++decimals;
    }
    return decimals;
  }
  /// A limit as it stands in its book: no digit less, whatever the scale.
  [[nodiscard]] std::string whole_figure(double value) const {
    const FigureStyle style = usual_style(bar_.dimension, bar_.unit);
    std::string digits = shown(value, style);
    int decimals = style.decimals;
    while (decimals > scale_decimals() && digits.back() == '0') {
      digits.pop_back();
      --decimals;
    }
    return with_decimals(value, std::max(decimals, scale_decimals()));
  }
  [[nodiscard]] std::string unit() const {
    const FigureStyle style = usual_style(bar_.dimension, bar_.unit);
    return style.unit == "1" ? "" : " " + style.unit;
  }
  [[nodiscard]] Argument argument(const char* name, double value) const { return verbatim(name, whole_figure(value) + unit()); }

  [[nodiscard]] std::string description() const {
    std::vector<std::string> out;
    if (bar_.limit) {
      out.push_back(say(bar_.side == LimitSide::at_most ? "pictures.bar.at_most" : "pictures.bar.at_least", {argument("limit", *bar_.limit)}, language_));
    } else {
      out.push_back(say("pictures.bar.no_limit", {}, language_));
    }
    out.push_back(bar_.as_measured ? say("pictures.bar.measured", {argument("value", *bar_.as_measured)}, language_)
                                   : say("pictures.bar.not_measured", {}, language_));
    out.push_back(bar_.estimate ? say("pictures.bar.estimate", {argument("value", bar_.estimate->middle), argument("low", bar_.estimate->low), argument("high", bar_.estimate->high)}, language_)
                                : say("pictures.bar.no_estimate", {}, language_));
    out.push_back(say("pictures.bar.word", {word("word", "verdict." + std::string(verdict_word_name(bar_.word)))}, language_));
    return sentences_joined(out, " ");
  }

  const DoubtBar& bar_;
  Language language_;
  BarScale scale_;
  Sketch sketch_{kBarWidth, kBarHeight};
};

}  // namespace

DoubtBar bar_of(const Verdict& verdict, LimitSide side, ResultDimension dimension, const std::string& name, UnitId unit) {
  // Exact values are counts of 0.1 nm where they are lengths, estimates mm; others are the same in both.
  const FigureStyle style = usual_style(dimension, unit);
  const double factor = style.exact_factor.to_double() / style.estimate_factor;
  DoubtBar out{name, dimension, unit, std::nullopt, side, std::nullopt, std::nullopt, verdict.word};
  if (verdict.bound.sign() != 0) out.limit = verdict.bound.to_double() * factor;
  if (verdict.as_measured) out.as_measured = verdict.as_measured->to_double() * factor;
  if (verdict.best) out.estimate = BarEstimate{verdict.best->low, verdict.best->median, verdict.best->high};
  return out;
}

Drawing doubt_bar_picture(const DoubtBar& bar, Language language) { return BarSketch(bar, language).draw(); }

Drawing state_mark_picture(VerdictWord judged, Language language) {
  Sketch sketch(24.0, 16.0);
  const Ink ink = ink_of(judged);
  const auto post = [&](double x) { sketch.rect({x - 1.0, 1.0}, 2.0, 14.0, Ink::ink); };
  switch (judged) {
    case VerdictWord::within:
      sketch.rect({5.0, 4.0}, 14.0, 8.0, ink);
      post(2.5);
      post(21.5);
      break;
    case VerdictWord::too_close:
      sketch.rect({4.0, 4.0}, 8.0, 8.0, ink);
      sketch.rect({4.0, 4.0}, 16.0, 8.0, std::nullopt, ink, 1.4);
      post(12.0);
      break;
    case VerdictWord::beyond:
      post(5.0);
      sketch.rect({8.0, 4.0}, 8.0, 8.0, ink);
      // Its far end is open: it goes on.
      sketch.open_line({{16.0, 4.0}, {23.0, 4.0}}, ink, 1.6);
      sketch.open_line({{16.0, 12.0}, {23.0, 12.0}}, ink, 1.6);
      break;
    case VerdictWord::not_judged:
      sketch.rect({5.0, 2.0}, 14.0, 12.0, std::nullopt, Ink::faint, 1.6);
      break;
  }
  const std::string words = word_for("verdict." + std::string(verdict_word_name(judged)), language);
  return std::move(sketch).done(words, say("pictures.mark", {verbatim("word", words)}, language));
}

}  // namespace fettle
