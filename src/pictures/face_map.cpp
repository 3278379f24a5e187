#include "pictures/face_map.h"

#include <algorithm>

#include "base/assertion.h"
#include "pictures/layout_places.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kFaceWidth = 328.0;
constexpr double kFaceLeft = 24.0;
constexpr double kFaceRight = 250.0;
constexpr double kFaceTop = 34.0;
constexpr double kFaceBottom = 144.0;

/// How a line lies on the face, and where its figure stands.
struct FaceLine {
  Point from;
  Point to;
  Point figure;
  Anchor anchor;
};

enum class FaceGroup { along, across, diagonal };

FaceGroup group_of(const Station& station) {
  if (station.group == "cross") return FaceGroup::across;
  if (station.group == "diagonal") return FaceGroup::diagonal;
  return FaceGroup::along;
}

/// The `i`-th of `n` places between two edges, none on an edge.
double spread(double from, double to, std::size_t i, std::size_t n) {
  return from + (to - from) * (static_cast<double>(i) + 0.5) / static_cast<double>(n);
}

class FaceSketch {
 public:
  FaceSketch(const FaceToDraw& face, Language language) : face_(face), language_(language) {
    // Many lines of one sort need room for their figures.
    bottom_ = std::max(kFaceBottom, kFaceTop + 17.0 * static_cast<double>(count_of(FaceGroup::along)));
  }

  [[nodiscard]] Drawing draw() && {
    sketch_.rect({kFaceLeft, kFaceTop}, kFaceRight - kFaceLeft, bottom_ - kFaceTop, std::nullopt, Ink::ink, 1.8);
    for (std::size_t s = 0; s < face_.layout.stations.size(); ++s) add_line(s);
    double y = bottom_ + 26.0;
    for (std::size_t s = 0; s < face_.layout.stations.size(); ++s) {
      const bool worst = s == worst_station();
      y = sketch_.box({8.0, y}, kFaceWidth - 16.0, "(" + std::to_string(s + 1) + ") " + line_words(s), {kPictureText, Ink::ink, Anchor::start, worst ? Weight::bold : Weight::regular});
    }
    y = sketch_.box({8.0, y + 2.0}, kFaceWidth - 16.0, summary(), {kPictureName, Ink::ink, Anchor::start, Weight::bold});
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.face.title", {verbatim("part", face_.name)}, language_), description());
  }

 private:
  [[nodiscard]] std::size_t count_of(FaceGroup group) const {
    const auto& all = face_.layout.stations;
    return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](const Station& each) { return group_of(each) == group; }));
  }
  [[nodiscard]] std::size_t place_in_group(std::size_t station) const {
    std::size_t out = 0;
    for (std::size_t s = 0; s < station; ++s) out += group_of(face_.layout.stations[s]) == group_of(face_.layout.stations[station]) ? 1U : 0U;
    return out;
  }

  [[nodiscard]] FaceLine line_of(std::size_t station) const {
    const FaceGroup group = group_of(face_.layout.stations[station]);
    const std::size_t i = place_in_group(station);
    const std::size_t n = count_of(group);
    switch (group) {
      case FaceGroup::along: {
        const double y = spread(kFaceTop, bottom_, i, n);
        return {{kFaceLeft, y}, {kFaceRight, y}, {kFaceRight + 5.0, y + 4.0}, Anchor::start};
      }
      case FaceGroup::across: {
        const double x = spread(kFaceLeft, kFaceRight, i, n);
        // Above the face, in two rows where there are many.
        const double up = n > 4 && i % 2 == 1 ? 21.0 : 7.0;
        return {{x, kFaceTop}, {x, bottom_}, {x, kFaceTop - up}, Anchor::middle};
      }
      case FaceGroup::diagonal: {
        const bool falls = i % 2 == 0;
        const double inset = 6.0 * static_cast<double>(i / 2);
        const Point from = {kFaceLeft + inset, falls ? kFaceTop : bottom_};
        const Point to = {kFaceRight - inset, falls ? bottom_ : kFaceTop};
        return {from, to, {falls ? kFaceRight : kFaceLeft, bottom_ + 15.0 }, falls ? Anchor::end : Anchor::start};
      }
    }
    FETTLE_ASSERT(false, "a line that lies nowhere");
  }

  void add_line(std::size_t s) {
    const FaceLine line = line_of(s);
    const std::optional<double> gap = greatest(s);
    const bool worst = s == worst_station();
    sketch_.line(line.from, line.to, worst ? Ink::ink : Ink::faint, worst ? 2.6 : 1.2, gap ? Dash::solid : Dash::dashed);
    // Third and further diagonals have no corner of their own; the list below has their figures.
    if (group_of(face_.layout.stations[s]) == FaceGroup::diagonal && place_in_group(s) > 1) return;
    const std::string figure = gap ? figure_of(*gap, face_.unit, language_) : "\xe2\x80\x93";
    const std::string words = "(" + std::to_string(s + 1) + ") " + figure;
    const double room = line.anchor == Anchor::middle ? std::max(24.0, across_room()) : group_of(face_.layout.stations[s]) == FaceGroup::diagonal ? 105.0 : kFaceWidth - kFaceRight - 6.0;
    const Type type = {kPictureText, Ink::ink, line.anchor, worst ? Weight::bold : Weight::regular};
    // What has no room stands in the list below all the same.
    (void)sketch_.figure_within(line.figure, width_of(words, type) <= room ? words : figure, type, room);
  }
  [[nodiscard]] double across_room() const {
    const std::size_t n = count_of(FaceGroup::across);
    const double pitch = (kFaceRight - kFaceLeft) / static_cast<double>(std::max<std::size_t>(n, 1));
    return (n > 4 ? 2.0 * pitch : pitch) - 4.0;
  }

  [[nodiscard]] std::optional<double> gap(std::size_t station, std::size_t direction) const {
    return face_.gaps[face_.layout.cell(station, direction)];
  }
  [[nodiscard]] std::optional<double> greatest(std::size_t station) const {
    std::optional<double> out;
    for (std::size_t d = 0; d < face_.layout.directions.size(); ++d) {
      if (const auto each = gap(station, d); each && (!out || *each > *out)) out = each;
    }
    return out;
  }
  [[nodiscard]] std::optional<std::size_t> worst_station() const {
    std::optional<std::size_t> out;
    for (std::size_t s = 0; s < face_.layout.stations.size(); ++s) {
      if (greatest(s) && (!out || *greatest(s) > *greatest(*out))) out = s;
    }
    return out;
  }

  [[nodiscard]] std::string line_words(std::size_t s) const {
    std::vector<std::string> figures;
    for (std::size_t d = 0; d < face_.layout.directions.size(); ++d) {
      if (!face_.layout.there(face_.layout.cell(s, d))) continue;
      const std::string name = face_.layout.directions.size() == 1 ? "" : direction_words(face_.layout.directions[d], language_) + " ";
      figures.push_back(name + (gap(s, d) ? figure_of(*gap(s, d), face_.unit, language_) + " " + symbol_of(face_.unit)
                                          : say("pictures.not_read", {}, language_)));
    }
    return station_words(face_.layout.stations[s], language_) + ": " + sentences_joined(figures, ", ");
  }
  [[nodiscard]] std::string summary() const {
    const std::optional<std::size_t> worst = worst_station();
    if (!worst) return say("pictures.face.nothing", {}, language_);
    bool whole = true;
    for (std::size_t i = 0; i < face_.gaps.size(); ++i) whole = whole && (!face_.layout.there(i) || face_.gaps[i]);
    std::vector<Argument> arguments = {verbatim("gap", figure_of(*greatest(*worst), face_.unit, language_) + " " + symbol_of(face_.unit)),
                                       verbatim("line", station_words(face_.layout.stations[*worst], language_))};
    return say(whole ? "pictures.face.greatest" : "pictures.face.greatest_so_far", std::move(arguments), language_);
  }
  [[nodiscard]] std::string description() const {
    std::vector<std::string> out;
    for (std::size_t s = 0; s < face_.layout.stations.size(); ++s) out.push_back(line_words(s) + ".");
    out.push_back(summary());
    return sentences_joined(out, " ");
  }

  const FaceToDraw& face_;
  Language language_;
  double bottom_;
  Sketch sketch_{kFaceWidth, 240.0};
};

}  // namespace

Drawing face_map_picture(const FaceToDraw& face, Language language) {
  FETTLE_ASSERT(face.gaps.size() == face.layout.cells() && !face.gaps.empty(), "a face without its places");
  return FaceSketch(face, language).draw();
}

}  // namespace fettle
