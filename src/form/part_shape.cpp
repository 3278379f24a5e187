#include "form/part_shape.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fettle {
namespace {

class ShapeOfPart {
 public:
  ShapeOfPart(const PartOnBench& part, const PartEstimate& estimate, const std::vector<ErrorSource>& sources, UnitId unit)
      : part_(part), layout_(part.layout), estimate_(estimate), sources_(sources), unit_(unit) {}

  PartShape describe() {
    PartShape out{estimate_.part, {}, {}};
    for (std::size_t direction = 0; direction < layout_.directions.size(); ++direction) describe_along(direction, out);
    for (std::size_t station = 0; station < layout_.stations.size(); ++station) describe_across(station, out);
    return out;
  }

 private:
  [[nodiscard]] const PlaceEstimate* place(std::size_t station, std::size_t direction) const {
    const auto& found = estimate_.places[layout_.cell(station, direction)];
    return found ? &*found : nullptr;
  }

  void describe_along(std::size_t direction, PartShape& out) const {
    ShapeQuestion question{{}, layout_.directions[direction].id, 0.0, part_.feature, unit_};
    const PlaceEstimate* first = nullptr;
    for (std::size_t station = 0; station < layout_.stations.size(); ++station) {
      const PlaceEstimate* here = place(station, direction);
      if (here == nullptr || !layout_.stations[station].counted) continue;
      question.stations.push_back({layout_.stations[station].id, here->estimate});
      if (first != nullptr) {
        question.difference_uncertainty_mm =
            std::max(question.difference_uncertainty_mm, difference_uncertainty(*first, *here, sources_));
      }
      if (first == nullptr) first = here;
    }
    if (question.stations.size() >= 2) out.along.push_back(shape_word(question));
  }

  void describe_across(std::size_t station, PartShape& out) const {
    StationOval oval{station, {}, {}};
    std::vector<Ratio> angles;
    std::vector<double> sizes;
    const PlaceEstimate* first = nullptr;
    double doubt = 0.0;
    for (std::size_t direction = 0; direction < layout_.directions.size(); ++direction) {
      const PlaceEstimate* here = place(station, direction);
      if (here == nullptr || !layout_.directions[direction].counted) continue;
      oval.directions.push_back(direction);
      angles.push_back(layout_.directions[direction].angle_degrees);
      sizes.push_back(here->estimate);
      // The difference of two readings has twice the variance of one reading's own doubt.
      if (first != nullptr) doubt = std::max(doubt, difference_uncertainty(*first, *here, sources_) / std::sqrt(2.0));
      if (first == nullptr) first = here;
    }
    if (sizes.size() < 3 || doubt <= 0.0) return;
    auto check = check_lobe(angles, sizes, doubt);
    if (!check.ok()) return;
    oval.check = std::move(check).value();
    out.ovals.push_back(std::move(oval));
  }

  const PartOnBench& part_;
  const Layout& layout_;
  const PartEstimate& estimate_;
  const std::vector<ErrorSource>& sources_;
  UnitId unit_;
};

}  // namespace

std::string_view lobe_word_name(LobeWord word) {
  switch (word) {
    case LobeWord::not_possible: return "not-possible";
    case LobeWord::fits: return "fits";
    case LobeWord::one_stands_out: return "one-stands-out";
    case LobeWord::does_not_fit: return "does-not-fit";
  }
  return "";
}

double difference_uncertainty(const PlaceEstimate& a, const PlaceEstimate& b, const std::vector<ErrorSource>& sources) {
  std::map<std::size_t, double> gradient;
  for (const ErrorTerm& term : a.terms) gradient[term.source] += term.coefficient;
  for (const ErrorTerm& term : b.terms) gradient[term.source] -= term.coefficient;
  double variance = 0.0;
  for (const auto& [source, coefficient] : gradient) {
    const double each = coefficient * sources[source].standard_uncertainty;
    variance += each * each;
  }
  return std::sqrt(variance);
}

PartShape part_shape(const PartOnBench& part, const PartEstimate& estimate, const std::vector<ErrorSource>& sources, UnitId unit) {
  return ShapeOfPart(part, estimate, sources, unit).describe();
}

}  // namespace fettle
