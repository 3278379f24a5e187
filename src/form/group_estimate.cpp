#include "form/group_estimate.h"

#include <map>

#include "numeric/weights.h"

namespace fettle {
namespace {

using SizesOfPlace = std::vector<const Size*>;

double covariance_of(const Size& a, const Size& b, const std::vector<ErrorSource>& sources) {
  double sum = 0.0;
  auto right = b.terms.begin();
  for (const ErrorTerm& left : a.terms) {
    while (right != b.terms.end() && right->source < left.source) ++right;
    if (right == b.terms.end()) break;
    if (right->source != left.source) continue;
    const double sd = sources[left.source].standard_uncertainty;
    sum += left.coefficient * right->coefficient * sd * sd;
  }
  return sum;
}

std::vector<double> weights_of(const SizesOfPlace& sizes, const std::vector<ErrorSource>& sources) {
  const std::size_t n = sizes.size();
  if (n == 1) return {1.0};
  std::vector<double> covariance(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) covariance[i * n + k] = covariance_of(*sizes[i], *sizes[k], sources);
  }
  return best_linear_unbiased_weights(covariance, n).weights;
}

PlaceEstimate combine(const SizesOfPlace& sizes, const std::vector<ErrorSource>& sources) {
  PlaceEstimate out{sizes.front()->cell, {}, Ratio(), 0.0, {}};
  const std::vector<double> weights = weights_of(sizes, sources);
  std::map<std::size_t, double> terms;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    out.readings.push_back(sizes[i]->reading);
    out.as_measured = out.as_measured + sizes[i]->as_measured;
    out.estimate += weights[i] * sizes[i]->estimate;
    for (const ErrorTerm& term : sizes[i]->terms) terms[term.source] += weights[i] * term.coefficient;
  }
  out.as_measured = out.as_measured / Ratio(static_cast<std::int64_t>(sizes.size()));
  for (const auto& [source, coefficient] : terms) out.terms.push_back({source, coefficient});
  return out;
}

}  // namespace

GroupEstimate plain_estimate(const std::string& kind, const std::vector<PartOnBench>& parts, const SizeSet& all) {
  std::vector<std::string> ids;
  for (const PartOnBench& part : parts) {
    if (part.part.kind == kind) ids.push_back(part.part.id);
  }
  SizeSet set = sizes_of(all, ids);
  GroupEstimate group{kind, EstimateModel::plain, {"why.plain_model", {}}, {}};
  std::map<std::string, std::map<std::size_t, SizesOfPlace>> by_place;
  for (const Size& size : set.sizes) by_place[size.part][size.cell].push_back(&size);
  for (const PartOnBench& part : parts) {
    if (part.part.kind != kind) continue;
    PartEstimate estimate{part.part.id, std::vector<std::optional<PlaceEstimate>>(part.layout.cells())};
    for (const auto& [cell, sizes] : by_place[part.part.id]) estimate.places[cell] = combine(sizes, set.sources);
    group.parts.push_back(std::move(estimate));
  }
  group.sources = std::move(set.sources);
  return group;
}

std::vector<std::optional<Ratio>> measured_sizes(const PartEstimate& estimate) {
  std::vector<std::optional<Ratio>> sizes;
  for (const auto& place : estimate.places) sizes.push_back(place ? std::optional(place->as_measured) : std::nullopt);
  return sizes;
}

std::string_view model_name(EstimateModel model) {
  switch (model) {
    case EstimateModel::plain: return "plain";
    case EstimateModel::shape: return "shape";
  }
  return "";
}

}  // namespace fettle
