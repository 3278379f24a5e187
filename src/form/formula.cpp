#include "form/formula.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "base/assertion.h"
#include "numeric/angle.h"

namespace fettle {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kAlike = 45.0;
constexpr double kLeastSine = 1e-9;
constexpr double kBetween = 0.75;
/// Inside this file: no figure. It goes through every step and never leaves as a number.
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
/// Past this a sine of degrees is none of ours (numeric/angle.h), nor is it an angle that anybody read.
constexpr double kMostDegrees = 1e6;
/// A length in counts, or anything else in 1e-9, has to fit a whole number of 64 bits.
constexpr double kMostFigure = 9e9;

/// How far apart two angles lie, 0 to 180 degrees.
double apart_degrees(double a, double b) {
  const double turned = std::fmod(std::abs(a - b), 360.0);
  return turned > 180.0 ? 360.0 - turned : turned;
}

/// What doubles may put a cosine past 1 by rounding alone: far below what any reading moves.
constexpr double kRounding = 1e-12;

bool no_cosine(double value) { return std::abs(value) > 1.0 + kRounding; }

/// 0 to 180 degrees; none of a cosine beyond 1, which no triangle has.
double degrees_of_cosine(double cosine) {
  if (!(std::abs(cosine) <= 1.0 + kRounding)) return kNone;
  const double inside = std::clamp(cosine, -1.0, 1.0);
  return direction_in_degrees(std::sqrt(1.0 - inside * inside), inside);
}

double cosine_of(double degrees) { return std::abs(degrees) <= kMostDegrees ? cosine_of_degrees(degrees) : kNone; }

double value_of(const FormulaNode& node, std::span<const double> values);

/// Which part of a greatest or least it is; of equal ones the first.
std::size_t attained(const FormulaNode& node, std::span<const double> values) {
  std::size_t best = 0;
  double best_value = value_of(node.parts[0], values);
  for (std::size_t k = 1; k < node.parts.size(); ++k) {
    const double each = value_of(node.parts[k], values);
    if (node.step == FormulaStep::greatest ? each > best_value : each < best_value) {
      best = k;
      best_value = each;
    }
  }
  return best;
}

double value_of(const FormulaNode& node, std::span<const double> values) {
  const auto part = [&](std::size_t k) { return value_of(node.parts[k], values); };
  switch (node.step) {
    case FormulaStep::cell: return values[node.cell];
    case FormulaStep::constant: return node.value;
    case FormulaStep::sum: return part(0) + part(1);
    case FormulaStep::difference: return part(0) - part(1);
    case FormulaStep::product: return part(0) * part(1);
    case FormulaStep::quotient: {
      const double below = part(1);
      return below == 0.0 ? kNone : part(0) / below;
    }
    case FormulaStep::cosine: return cosine_of(part(0));
    case FormulaStep::arccosine: return degrees_of_cosine(part(0));
    case FormulaStep::greatest:
    case FormulaStep::least: {
      // One part without a figure may have been the one: then there is none.
      for (const FormulaNode& each : node.parts) {
        if (std::isnan(value_of(each, values))) return kNone;
      }
      return part(attained(node, values));
    }
    case FormulaStep::vector_difference: {
      const double a = part(0);
      const double b = part(2);
      const double square = a * a + b * b - 2.0 * a * b * cosine_of(part(1) - part(3));
      return std::isnan(square) ? kNone : std::sqrt(std::max(square, 0.0));
    }
    case FormulaStep::neighbour_rule: {
      const double apart = apart_degrees(part(1), part(3));
      if (apart <= kAlike) return std::abs(part(0) - part(2));
      return (apart >= 180.0 - kAlike ? 1.0 : kBetween) * (part(0) + part(2));
    }
  }
  return 0.0;
}

/// Adds `steepness` times the derivative by each cell.
void add_gradient(const FormulaNode& node, std::span<const double> values, double steepness, std::vector<double>& by_cell) {
  const auto part = [&](std::size_t k) { return value_of(node.parts[k], values); };
  const auto into = [&](std::size_t k, double derivative) { add_gradient(node.parts[k], values, steepness * derivative, by_cell); };
  switch (node.step) {
    case FormulaStep::cell: by_cell[node.cell] += steepness; return;
    case FormulaStep::constant: return;
    case FormulaStep::sum: into(0, 1.0); into(1, 1.0); return;
    case FormulaStep::difference: into(0, 1.0); into(1, -1.0); return;
    case FormulaStep::product: into(0, part(1)); into(1, part(0)); return;
    case FormulaStep::quotient: into(0, 1.0 / part(1)); into(1, -part(0) / (part(1) * part(1))); return;
    case FormulaStep::cosine: into(0, -sine_of_degrees(part(0)) * kDegree); return;
    case FormulaStep::arccosine: {
      // At 0° and 180° it is endlessly steep; nothing is added there, and formula_edges says how near that is.
      const double sine = sine_of_degrees(value_of(node, values));
      if (std::abs(sine) > kLeastSine) into(0, -1.0 / (sine * kDegree));
      return;
    }
    case FormulaStep::greatest:
    case FormulaStep::least: into(attained(node, values), 1.0); return;
    case FormulaStep::vector_difference: {
      const double a = part(0);
      const double b = part(2);
      const double angle = part(1) - part(3);
      const double value = value_of(node, values);
      if (value <= 0.0) {
        into(0, 1.0);
        into(2, -1.0);
        return;
      }
      into(0, (a - b * cosine_of_degrees(angle)) / value);
      into(2, (b - a * cosine_of_degrees(angle)) / value);
      const double by_degree = a * b * sine_of_degrees(angle) / value * kDegree;
      into(1, by_degree);
      into(3, -by_degree);
      return;
    }
    case FormulaStep::neighbour_rule: {
      const double apart = apart_degrees(part(1), part(3));
      if (apart <= kAlike) {
        const double sign = part(0) >= part(2) ? 1.0 : -1.0;
        into(0, sign);
        into(2, -sign);
        return;
      }
      const double share = apart >= 180.0 - kAlike ? 1.0 : kBetween;
      into(0, share);
      into(2, share);
      return;
    }
  }
}

/// What this step cannot make anything of, its parts having a figure.
std::optional<FormulaTrouble::Sort> trouble_of(const FormulaNode& node, std::span<const double> values) {
  const auto part = [&](std::size_t k) { return value_of(node.parts[k], values); };
  switch (node.step) {
    case FormulaStep::quotient: return part(1) == 0.0 ? std::optional(FormulaTrouble::Sort::divided_by_nothing) : std::nullopt;
    case FormulaStep::arccosine: return no_cosine(part(0)) ? std::optional(FormulaTrouble::Sort::no_triangle) : std::nullopt;
    case FormulaStep::cosine: return std::abs(part(0)) > kMostDegrees ? std::optional(FormulaTrouble::Sort::too_large) : std::nullopt;
    case FormulaStep::vector_difference:
      return std::abs(part(1) - part(3)) > kMostDegrees ? std::optional(FormulaTrouble::Sort::too_large) : std::nullopt;
    case FormulaStep::cell:
    case FormulaStep::constant:
    case FormulaStep::sum:
    case FormulaStep::difference:
    case FormulaStep::product:
    case FormulaStep::greatest:
    case FormulaStep::least:
    case FormulaStep::neighbour_rule: break;
  }
  return std::nullopt;
}

std::optional<FormulaTrouble> first_trouble(const FormulaNode& node, std::span<const double> values) {
  for (const FormulaNode& part : node.parts) {
    if (auto found = first_trouble(part, values)) return found;
  }
  if (const auto sort = trouble_of(node, values)) return FormulaTrouble{*sort, cells_of(node)};
  return std::nullopt;
}

void gather_edges(const FormulaNode& node, std::span<const double> values, const Formula& formula, std::vector<FormulaEdge>& out) {
  for (const FormulaNode& part : node.parts) gather_edges(part, values, formula, out);
  const bool divides = node.step == FormulaStep::quotient;
  if (!divides && node.step != FormulaStep::arccosine) return;
  const FormulaNode& of = node.parts[divides ? 1 : 0];
  const double value = value_of(of, values);
  const double away = value < 0.0 ? -1.0 : 1.0;
  std::vector<double> by_cell(values.size(), 0.0);
  add_gradient(of, values, divides ? away : -away, by_cell);
  FormulaEdge edge{{divides ? FormulaTrouble::Sort::divided_by_nothing : FormulaTrouble::Sort::no_triangle, cells_of(node)},
                   divides ? std::abs(value) : 1.0 - std::abs(value),
                   {}};
  for (const std::size_t cell : formula.cells) edge.gradient.push_back(by_cell[cell]);
  if (std::any_of(edge.gradient.begin(), edge.gradient.end(), [](double each) { return each != 0.0; })) out.push_back(std::move(edge));
}

}  // namespace

std::vector<std::size_t> cells_of(const FormulaNode& node) {
  std::vector<std::size_t> out;
  if (node.step == FormulaStep::cell) out.push_back(node.cell);
  for (const FormulaNode& part : node.parts) {
    const std::vector<std::size_t> more = cells_of(part);
    out.insert(out.end(), more.begin(), more.end());
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::optional<double> formula_value(const Formula& formula, std::span<const double> values) {
  const double value = value_of(formula.root, values);
  return std::abs(value) <= kMostFigure ? std::optional(value) : std::nullopt;
}

std::optional<FormulaTrouble> formula_trouble(const Formula& formula, std::span<const double> values) {
  if (auto found = first_trouble(formula.root, values)) return found;
  if (formula_value(formula, values)) return std::nullopt;
  return FormulaTrouble{FormulaTrouble::Sort::too_large, formula.cells};
}

std::vector<FormulaEdge> formula_edges(const Formula& formula, std::span<const double> values) {
  std::vector<FormulaEdge> out;
  gather_edges(formula.root, values, formula, out);
  return out;
}

std::vector<double> formula_gradient(const Formula& formula, std::span<const double> values) {
  std::vector<double> by_cell(values.size(), 0.0);
  add_gradient(formula.root, values, 1.0, by_cell);
  std::vector<double> out;
  for (const std::size_t cell : formula.cells) out.push_back(by_cell[cell]);
  return out;
}

}  // namespace fettle
