#include "pictures/wear_map.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/assertion.h"
#include "pictures/layout_places.h"
#include "pictures/sketch.h"
#include "units/length.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr double kWearWidth = 328.0;
constexpr double kWearNames = 72.0;  ///< room for the stations' names
constexpr double kLeastRow = 24.0;
constexpr double kUsualRow = 34.0;
constexpr std::size_t kManyStations = 6;
constexpr double kMostBulge = 20.0;
constexpr double kLinesWanted = 4.0;

/// Figures of wear are short: whole micrometres, or thousandths of an inch with one decimal.
UnitId wear_unit(UnitId unit) { return unit == UnitId::inch || unit == UnitId::thou ? UnitId::thou : UnitId::micrometre; }

double in_wear_unit(double millimetres, UnitId unit) {
  return millimetres * static_cast<double>(Length::kCountsPerMillimetre) / unit_definition(wear_unit(unit)).factor.to_double();
}

std::string wear_figure(double millimetres, UnitId unit, Language language) {
  return typeset(print_fixed(in_wear_unit(millimetres, unit), wear_unit(unit) == UnitId::thou ? 1 : 0), language);
}

/// Wear by cell, positive where metal is gone. mm.
struct Wear {
  std::vector<std::optional<double>> at;
  std::optional<double> unworn;
  double most = 0.0;   ///< of either sign
  double least = 0.0;  ///< for lines of equal wear
  double greatest = 0.0;
};

Wear wear_by_cell(const WearToDraw& wear) {
  Wear out{std::vector<std::optional<double>>(wear.sizes.size()), wear.unworn};
  const double metal_gone = wear.feature == Feature::outside ? -1.0 : 1.0;
  std::optional<double> smallest;
  for (const std::optional<double>& each : wear.sizes) {
    if (each && (!smallest || metal_gone * *each < metal_gone * *smallest)) smallest = each;
  }
  if (!smallest) return out;
  if (!out.unworn) out.unworn = smallest;
  bool first = true;
  for (std::size_t i = 0; i < wear.sizes.size(); ++i) {
    if (!wear.sizes[i]) continue;
    const double gone = metal_gone * (*wear.sizes[i] - *out.unworn);
    out.at[i] = gone;
    out.most = std::max(out.most, std::fabs(gone));
    out.least = first ? gone : std::min(out.least, gone);
    out.greatest = first ? gone : std::max(out.greatest, gone);
    first = false;
  }
  return out;
}

class WearSketch {
 public:
  WearSketch(const WearToDraw& wear, Language language)
      : wear_(wear), language_(language), gone_(wear_by_cell(wear)), layout_(wear.layout) {}

  [[nodiscard]] Drawing draw() && {
    double y = 4.0;
    y = sketch_.box({6.0, y}, kWearWidth - 12.0, from_words(), {kPictureText}) + 6.0;
    y = add_cuts(y) + 10.0;
    y = add_map(y) + 6.0;
    for (std::size_t s = 0; figures_left_out_ && s < layout_.stations.size(); ++s) {
      y = sketch_.box({6.0, y}, kWearWidth - 12.0, station_line(s), {kPictureText}) + 2.0;
    }
    for (const std::string& each : notes()) y = sketch_.box({6.0, y}, kWearWidth - 12.0, each, {kPictureText}) + 2.0;
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.wear.title", {verbatim("part", wear_.name)}, language_), description());
  }

 private:
  /// The first direction and the one most nearly square to it.
  [[nodiscard]] std::vector<std::size_t> cut_directions() const {
    const std::size_t n = layout_.directions.size();
    if (n == 1) return {0};
    std::size_t second = 1;
    double best = 1e9;
    for (std::size_t d = 1; d < n; ++d) {
      const double off = std::fabs(layout_.directions[d].angle_degrees.to_double() - layout_.directions[0].angle_degrees.to_double() - 90.0);
      if (off < best - 1e-9) {
        best = off;
        second = d;
      }
    }
    return {0, second};
  }

  [[nodiscard]] std::optional<double> at(std::size_t station, std::size_t direction) const {
    return gone_.at[layout_.cell(station, direction)];
  }

  [[nodiscard]] double rows_height() const { const double row = layout_.stations.size() > kManyStations ? kLeastRow : kUsualRow;
    return row * static_cast<double>(std::max<std::size_t>(layout_.stations.size(), 2) - 1); }

  void add_station_names(const std::vector<double>& rows) {
    for (std::size_t s = 0; s < rows.size(); ++s) {
      sketch_.text_within({kWearNames - 8.0, rows[s] + 4.0}, station_words(layout_.stations[s], language_),
                          {kPictureText, Ink::ink, Anchor::end}, kWearNames - 10.0);
    }
  }

  /// How many times larger wear is drawn than the part; nothing where there is none.
  [[nodiscard]] std::optional<double> exaggeration(double half_pixels) const {
    if (!gone_.unworn || *gone_.unworn <= 0.0 || gone_.most <= 0.0) return std::nullopt;
    const double pixels_per_mm = 2.0 * half_pixels / *gone_.unworn;
    return round_step_below(kMostBulge / (gone_.most / 2.0 * pixels_per_mm));
  }

  double add_cuts(double top) {
    const std::vector<std::size_t> cuts = cut_directions();
    const double wide = (kWearWidth - kWearNames) / static_cast<double>(cuts.size());
    const double half = 34.0;
    const std::optional<double> times = exaggeration(half);
    times_ = times;
    const double first = top + 28.0;
    const std::vector<double> rows = station_places(layout_, first, first + rows_height(), kLeastRow - 1.0);
    add_station_names(rows);
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      const double middle = kWearNames + wide * (static_cast<double>(i) + 0.5);
      sketch_.text_within({middle, top + 12.0}, direction_words(layout_.directions[cuts[i]], language_),
                          {kPictureText, Ink::ink, Anchor::middle, Weight::bold}, wide - 6.0);
      const double bulge = times ? *times * 2.0 * half / *gone_.unworn / 2.0 : 0.0;  // px for a mm of wear
      for (const double side : {-1.0, 1.0}) add_wall(rows, cuts[i], {middle, side * half, bulge});
    }
    return (rows.empty() ? first : rows.back()) + 14.0;
  }

  struct Wall {
    double middle;
    double half;   ///< signed: to the left or to the right
    double bulge;  ///< px for a mm of wear
  };
  /// The unworn wall dashed, the worn one drawn through what was read, broken where something was not.
  void add_wall(const std::vector<double>& rows, std::size_t direction, const Wall& wall) {
    const double nominal = wall.middle + wall.half;
    // The metal: outside a bore's wall, inside a journal's.
    const bool outward = (wall.half > 0.0) == (wear_.feature != Feature::outside);
    const double metal = kMostBulge + 4.0;
    sketch_.rect({outward ? nominal : nominal - metal, rows.front() - 10.0}, metal, rows.back() - rows.front() + 20.0, Ink::wash);
    sketch_.line({nominal, rows.front() - 10.0}, {nominal, rows.back() + 10.0}, Ink::faint, 1.0, Dash::dashed);
    // A bore grows outward; a journal goes inward.
    const double way = (wall.half < 0.0 ? -1.0 : 1.0) * (wear_.feature == Feature::outside ? -1.0 : 1.0);
    std::vector<Point> run;
    for (std::size_t s = 0; s < rows.size(); ++s) {
      const std::optional<double> gone = at(s, direction);
      if (gone) {
        run.push_back({nominal + way * wall.bulge * *gone, rows[s]});
        sketch_.circle(run.back(), 2.4, Ink::ink);
      }
      if (!gone || s + 1 == rows.size()) {
        sketch_.open_line(run, Ink::ink, 2.0);
        run.clear();
      }
      if (!gone && layout_.there(layout_.cell(s, direction))) add_unread({nominal, rows[s]});
    }
  }
  void add_unread(Point at) {
    sketch_.circle(at, 6.0, Ink::paper, Ink::faint, 1.4);
    sketch_.line({at.x - 3.0, at.y}, {at.x + 3.0, at.y}, Ink::faint, 1.4);
  }

  /// Unrolled over half a turn: the first direction comes again at its end, since a diameter has two.
  double add_map(double top) {
    const std::size_t n = layout_.directions.size();
    const std::size_t columns = n == 1 ? 1 : n + 1;
    const double wide = (kWearWidth - kWearNames - 4.0) / static_cast<double>(columns);
    std::vector<double> across;
    for (std::size_t i = 0; i < columns; ++i) across.push_back(kWearNames + wide * (static_cast<double>(i) + 0.5));
    // Names under each other where they would not fit side by side.
    double y = top;
    double lowest = y + 12.0;
    if (n <= 4) {
      for (std::size_t i = 0; i < columns; ++i) {
        double base = y + 12.0;
        for (const std::string& line : narrow_direction_words(layout_.directions[i % n], language_)) {
          sketch_.text_within({across[i], base}, line, {kPictureText, Ink::ink, Anchor::middle}, wide - 4.0);
          lowest = std::max(lowest, base);
          base += 14.0;
        }
      }
      y = lowest + 6.0;
    } else {
      for (std::size_t i = 0; i < columns; ++i) {
        // Every second one: they are wider than their columns.
        if (i % 2 == 1) continue;
        const std::string words = layout_.directions[i % n].angle_degrees.decimal(0) + "\xc2\xb0";
        (void)sketch_.figure_within({across[i], y + 12.0}, words, {kPictureText, Ink::ink, Anchor::middle}, 2.0 * wide - 2.0);
      }
      y += 18.0;
    }
    const double first = y + 12.0;
    const std::vector<double> rows = station_places(layout_, first, first + rows_height(), kLeastRow - 1.0);
    add_station_names(rows);
    if (columns > 1) {
      sketch_.rect({across.front(), rows.front() - 10.0}, across.back() - across.front(), rows.back() - rows.front() + 20.0, std::nullopt,
                   Ink::faint);
      add_contours(rows, across);
    }
    for (std::size_t s = 0; s < rows.size(); ++s) {
      for (std::size_t i = 0; i < columns; ++i) add_figure({across[i], rows[s]}, s, i % n, wide);
    }
    return rows.back() + 14.0;
  }

  void add_figure(Point place, std::size_t s, std::size_t d, double room) {
    if (!layout_.there(layout_.cell(s, d))) return;
    const std::optional<double> gone = at(s, d);
    if (!gone) return add_unread(place);
    Type type = {kPictureText, Ink::ink, Anchor::middle, Weight::bold};
    const std::string words = wear_figure(*gone, wear_.unit, language_);
    const double wide = std::min(width_of(words, type) + 4.0, room - 1.0);
    if (width_of(words, type) > room - 1.0) {
      sketch_.circle(place, 3.0, Ink::ink);
      figures_left_out_ = true;
      return;
    }
    sketch_.rect({place.x - wide / 2.0, place.y - 7.0}, wide, 14.0, Ink::paper);
    sketch_.text({place.x, place.y + 4.0}, words, type);
  }

  /// Lines of equal wear in each field whose four corners were read, straight from edge to edge.
  void add_contours(const std::vector<double>& rows, const std::vector<double>& across) {
    step_ = contour_step();
    if (!step_) return;
    const std::size_t n = layout_.directions.size();
    for (std::size_t s = 0; s + 1 < rows.size(); ++s) {
      for (std::size_t i = 0; i + 1 < across.size(); ++i) {
        const std::array<std::optional<double>, 4> corners = {at(s, i % n), at(s, (i + 1) % n), at(s + 1, (i + 1) % n), at(s + 1, i % n)};
        if (!std::all_of(corners.begin(), corners.end(), [](const auto& each) { return each.has_value(); })) continue;
        const std::array<Point, 4> points = {Point{across[i], rows[s]}, Point{across[i + 1], rows[s]}, Point{across[i + 1], rows[s + 1]},
                                             Point{across[i], rows[s + 1]}};
        const auto low = static_cast<std::int64_t>(std::ceil(gone_.least / *step_));
        const auto high = static_cast<std::int64_t>(std::floor(gone_.greatest / *step_));
        for (std::int64_t level = low; level <= high; ++level) {
          add_level(static_cast<double>(level) * *step_, points, corners, level % 5 == 0 ? 1.6 : 0.8);
        }
      }
    }
  }
  void add_level(double level, const std::array<Point, 4>& points, const std::array<std::optional<double>, 4>& corners, double pen) {
    std::vector<Point> cuts;
    for (std::size_t i = 0; i < 4; ++i) {
      const double a = *corners[i];
      const double b = *corners[(i + 1) % 4];
      // An end that lies on the level belongs to the side below it, so that each edge is cut once or not.
      if ((a < level) == (b < level)) continue;
      const double t = (level - a) / (b - a);
      cuts.push_back({points[i].x + t * (points[(i + 1) % 4].x - points[i].x), points[i].y + t * (points[(i + 1) % 4].y - points[i].y)});
    }
    lines_drawn_ = lines_drawn_ || cuts.size() >= 2;
    for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) sketch_.line(cuts[i], cuts[i + 1], Ink::ink, pen);
  }
  /// Round in the unit that the figures have.
  [[nodiscard]] std::optional<double> contour_step() const {
    const double range = in_wear_unit(gone_.greatest - gone_.least, wear_.unit);
    if (range < 1e-3) return std::nullopt;
    return round_step_below(range / kLinesWanted) / in_wear_unit(1.0, wear_.unit);
  }

  [[nodiscard]] std::string from_words() const {
    if (!gone_.unworn) return say("pictures.wear.nothing", {}, language_);
    const std::string size = figure_of(*gone_.unworn, wear_.unit, language_) + " " + symbol_of(wear_.unit);
    std::vector<Argument> arguments = {verbatim("size", size), verbatim("unit", symbol_of(wear_unit(wear_.unit)))};
    const std::string from = wear_.unworn ? "given" : wear_.feature == Feature::outside ? "greatest" : "smallest";
    return say("pictures.wear." + from, std::move(arguments), language_) + " " +
           say(wear_.estimated ? "pictures.wear.estimated" : "pictures.wear.measured", {}, language_);
  }
  [[nodiscard]] std::string times_words() const {
    // Less than once only where the wear is as large as the part.
    std::string digits = print_fixed(*times_, *times_ < 1.0 ? 9 : 0);
    if (digits.find('.') != std::string::npos) digits.erase(digits.find_last_not_of('0') + 1);
    return typeset(digits, language_);
  }
  [[nodiscard]] std::string station_line(std::size_t s) const {
    std::vector<std::string> places;
    for (std::size_t d = 0; d < layout_.directions.size(); ++d) {
      if (!layout_.there(layout_.cell(s, d))) continue;
      const std::optional<double> gone = at(s, d);
      const std::string figure = gone ? wear_figure(*gone, wear_.unit, language_) : say("pictures.not_read", {}, language_);
      places.push_back(direction_words(layout_.directions[d], language_) + " " + figure);
    }
    return station_words(layout_.stations[s], language_) + ": " + sentences_joined(places, ", ") + ".";
  }
  [[nodiscard]] std::vector<std::string> notes() const {
    std::vector<std::string> out;
    if (times_) out.push_back(say("pictures.wear.times", {verbatim("times", times_words())}, language_));
    if (step_ && lines_drawn_) {
      const double step = in_wear_unit(*step_, wear_.unit);
      const std::string words = typeset(print_fixed(step, step < 0.1 ? 3 : step < 1.0 ? 1 : 0), language_) + " " + symbol_of(wear_unit(wear_.unit));
      out.push_back(say("pictures.wear.lines", {verbatim("step", words)}, language_));
    }
    bool unread = false;
    for (std::size_t i = 0; i < gone_.at.size(); ++i) unread = unread || (layout_.there(i) && !gone_.at[i]);
    if (unread) out.push_back(say("pictures.wear.unread", {}, language_));
    return out;
  }

  [[nodiscard]] std::string description() const {
    std::vector<std::string> out = {from_words()};
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      out.push_back(station_line(s));
    }
    for (const std::string& each : notes()) out.push_back(each);
    return sentences_joined(out, " ");
  }

  const WearToDraw& wear_;
  Language language_;
  Wear gone_;
  const Layout& layout_;
  std::optional<double> times_;
  std::optional<double> step_;
  bool lines_drawn_ = false;
  bool figures_left_out_ = false;  ///< they then stand in lines below
  Sketch sketch_{kWearWidth, 300.0};
};

}  // namespace

WearToDraw wear_of(const std::string& name, Feature feature, const Layout& layout, const PartEstimate& estimate, UnitId unit) {
  WearToDraw out{name, feature, layout, std::vector<std::optional<double>>(layout.cells()), std::nullopt, unit, false};
  for (std::size_t i = 0; i < estimate.places.size() && i < out.sizes.size(); ++i) {
    if (estimate.places[i]) {
      out.sizes[i] = estimate.places[i]->as_measured.to_double() / static_cast<double>(Length::kCountsPerMillimetre);
    }
  }
  return out;
}

Drawing wear_map_picture(const WearToDraw& wear, Language language) {
  FETTLE_ASSERT(wear.sizes.size() == wear.layout.cells() && !wear.sizes.empty(), "a wear drawing without its places");
  FETTLE_ASSERT(wear.feature != Feature::figure, "wear of what has no diameter");
  return WearSketch(wear, language).draw();
}

}  // namespace fettle
