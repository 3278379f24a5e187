#include "verdict/doubt.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "base/assertion.h"
#include "form/lobe_gradient.h"
#include "numeric/student_t.h"
#include "verdict/place_values.h"

namespace fettle {
namespace {

/// A value linear in the places of the part: value + Σ gradient · error.
struct Linear {
  double value;
  std::map<std::size_t, double> place_gradient;  ///< by cell
  Where where;
};

struct Weighed {
  Linear linear;
  double u;
  std::optional<double> freedom;
  double margin;  ///< in the unit of the figure, + on the good side
};

double scale_of(const Expansion& expansion) { return scale_to_counts(expansion.dimension); }

Linear linear_of(const LinearForm& form, const Question& question) {
  const double scale = scale_of(question.expansion);
  Linear linear{constant_in_unit(form.constant, question.expansion.dimension), {}, form.where};
  for (const Term& term : form.terms) {
    const double coefficient = term.coefficient.to_double() * scale;
    linear.value += coefficient * question.part.places[term.cell]->estimate_mm;
    linear.place_gradient[term.cell] += coefficient;
  }
  return linear;
}

/// 2·√(a² + b²) of the two-lobe fit, linearised at the estimate; where the ovality is nil every direction is as steep, and the
/// first is taken.
Linear linear_of(const LobeStation& lobe, const Question& question) {
  std::vector<double> values;
  for (std::size_t cell : lobe.cells) values.push_back(question.part.places[cell]->estimate_mm);
  const LobeGradient gradient = lobe_gradient(lobe, values);
  Linear linear{gradient.ovality, {}, {{lobe.station}, lobe.directions}};
  for (std::size_t i = 0; i < lobe.cells.size(); ++i) linear.place_gradient[lobe.cells[i]] += gradient.by_direction[i];
  return linear;
}

std::map<std::size_t, double> by_source(const Linear& linear, const PartEstimate& part) {
  std::map<std::size_t, double> gradient;
  for (const auto& [cell, coefficient] : linear.place_gradient) {
    for (const ErrorTerm& term : part.places[cell]->terms) gradient[term.source] += coefficient * term.coefficient;
  }
  return gradient;
}

Weighed weigh_linear(Linear linear, const Question& question) {
  double variance = 0.0;
  double fourth = 0.0;  // Σ u_i⁴/ν_i of Welch and Satterthwaite
  for (const auto& [source, gradient] : by_source(linear, question.part)) {
    const double part = gradient * question.sources[source].standard_uncertainty;
    variance += part * part;
    if (const auto& freedom = question.sources[source].degrees_of_freedom) fourth += part * part * part * part / *freedom;
  }
  std::optional<double> freedom;
  if (fourth > 0.0) freedom = variance * variance / fourth;
  const double above = question.bound - linear.value;
  return {std::move(linear), std::sqrt(variance), freedom, question.side == LimitSide::at_most ? above : -above};
}

double in_u(const Weighed& weighed) {
  if (weighed.u > 0.0) return weighed.margin / weighed.u;
  // No doubt at all: the sign decides.
  constexpr double kCertain = 1e6;
  return weighed.margin >= 0.0 ? kCertain : -kCertain;
}

double guard_of(const Weighed& weighed, double level) {
  return weighed.freedom ? student_t_quantile(level, *weighed.freedom) : student_t_quantile_infinite(level);
}

std::vector<Share> shares_of(const Weighed& weighed, const Question& question) {
  std::map<std::pair<std::string, ErrorScope>, double> variance;
  double total = 0.0;
  for (const auto& [source, gradient] : by_source(weighed.linear, question.part)) {
    const ErrorSource& each = question.sources[source];
    const double part = gradient * each.standard_uncertainty;
    variance[{each.component, each.scope}] += part * part;
    total += part * part;
  }
  std::vector<Share> shares;
  for (const auto& [key, part] : variance) {
    if (total > 0.0 && part > 0.0) shares.push_back({key.first, key.second, part / total});
  }
  std::stable_sort(shares.begin(), shares.end(), [](const Share& a, const Share& b) { return a.share > b.share; });
  return shares;
}

/// Whether the figure is the greatest (true) or the least of its forms.
bool is_greatest(Sense sense) {
  switch (sense) {
    case Sense::greatest:
    case Sense::amplitude:
    case Sense::linear: return true;
    case Sense::least: return false;
  }
  return true;
}

}  // namespace

Weighing weigh(const Question& question, double level) {
  std::vector<Weighed> all;
  for (const LinearForm& form : question.expansion.forms) all.push_back(weigh_linear(linear_of(form, question), question));
  for (const LobeStation& lobe : question.expansion.lobes) all.push_back(weigh_linear(linear_of(lobe, question), question));
  FETTLE_ASSERT(!all.empty(), "a characteristic without forms");
  // "At most" on a greatest and "at least" on a least need every form on the good side; the other two need one.
  const bool every = is_greatest(question.expansion.sense) == (question.side == LimitSide::at_most);
  const auto less = [](const Weighed& a, const Weighed& b) { return in_u(a) < in_u(b); };
  const Weighed& decides = every || all.size() == 1 ? *std::min_element(all.begin(), all.end(), less)
                                                    : *std::max_element(all.begin(), all.end(), less);
  const double guard = guard_of(decides, level);
  const double margin = in_u(decides);
  const VerdictWord word = margin >= guard    ? VerdictWord::within
                           : margin <= -guard ? VerdictWord::beyond
                                              : VerdictWord::too_close;
  return {word, Doubt{decides.linear.value, decides.u, decides.freedom, margin, guard, decides.linear.where,
                      shares_of(decides, question)}};
}

}  // namespace fettle
