#include "verdict/doubt.h"

#include <algorithm>
#include <map>

#include "base/assertion.h"
#include "form/lobe_gradient.h"
#include "numeric/student_t.h"
#include "numeric/uncertainty.h"
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
  std::vector<std::size_t> sources;  ///< as `combined.shares` has them
  CombinedUncertainty combined;
  double margin;  ///< in the unit of the figure, + on the good side
};

double scale_of(const Expansion& expansion) { return scale_to_counts(expansion.dimension); }

Linear linear_of(const LinearForm& form, const Question& question) {
  const double scale = scale_of(question.expansion);
  Linear linear{constant_in_unit(form.constant, question.expansion.dimension), {}, form.where};
  for (const Term& term : form.terms) {
    const double coefficient = term.coefficient.to_double() * scale;
    linear.value += coefficient * question.part.places[term.cell]->estimate;
    linear.place_gradient[term.cell] += coefficient;
  }
  return linear;
}

/// 2·√(a² + b²) of the two-lobe fit, linearised at the estimate; where the ovality is nil every direction is as steep, and the
/// first is taken.
Linear linear_of(const LobeStation& lobe, const Question& question) {
  std::vector<double> values;
  for (std::size_t cell : lobe.cells) values.push_back(question.part.places[cell]->estimate);
  const LobeGradient gradient = lobe_gradient(lobe, values);
  Linear linear{gradient.ovality, {}, {{lobe.station}, lobe.directions}};
  for (std::size_t i = 0; i < lobe.cells.size(); ++i) linear.place_gradient[lobe.cells[i]] += gradient.by_direction[i];
  return linear;
}

std::vector<double> estimates(const Formula& formula, const Question& question) {
  std::vector<double> values(question.part.places.size(), 0.0);
  for (const std::size_t cell : formula.cells) values[cell] = question.part.places[cell]->estimate;
  return values;
}

/// A formula, linearised at the estimate.
Linear linear_of(const Formula& formula, const Question& question) {
  const std::vector<double> values = estimates(formula, question);
  const auto value = formula_value(formula, values);
  FETTLE_ASSERT(value.has_value(), "weigh() looks first");
  Linear linear{*value, {}, formula.where};
  const std::vector<double> gradient = formula_gradient(formula, values);
  for (std::size_t k = 0; k < formula.cells.size(); ++k) linear.place_gradient[formula.cells[k]] += gradient[k];
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
  std::vector<UncertaintyTerm> terms;
  std::vector<std::size_t> sources;
  for (const auto& [source, gradient] : by_source(linear, question.part)) {
    const ErrorSource& each = question.sources[source];
    terms.push_back({gradient, each.standard_uncertainty, each.degrees_of_freedom});
    sources.push_back(source);
  }
  const double above = question.bound - linear.value;
  return {std::move(linear), std::move(sources), combine_uncertainty(terms), question.side == LimitSide::at_most ? above : -above};
}

/// Beyond so many standard uncertainties one draw in 740 of a normal error comes: what is left over is counted as not kept.
constexpr double kClear = 3.0;

std::optional<FormulaTrouble> near_trouble(const Question& question) {
  for (const Formula& formula : question.expansion.formulas) {
    for (const FormulaEdge& edge : formula_edges(formula, estimates(formula, question))) {
      Linear linear{edge.distance, {}, formula.where};
      for (std::size_t k = 0; k < formula.cells.size(); ++k) linear.place_gradient[formula.cells[k]] += edge.gradient[k];
      const Weighed weighed = weigh_linear(std::move(linear), question);
      if (edge.distance <= kClear * weighed.combined.standard_uncertainty) return edge.beyond;
    }
  }
  return std::nullopt;
}

double in_u(const Weighed& weighed) {
  if (weighed.combined.standard_uncertainty > 0.0) return weighed.margin / weighed.combined.standard_uncertainty;
  // No doubt at all: the sign decides.
  constexpr double kCertain = 1e6;
  return weighed.margin >= 0.0 ? kCertain : -kCertain;
}

double guard_of(const Weighed& weighed, double level) {
  return student_t_quantile(level, weighed.combined.effective_degrees_of_freedom);
}

/// By component and scope, largest first.
std::vector<Share> shares_of(const Weighed& weighed, const Question& question) {
  std::map<std::pair<std::string, ErrorScope>, double> share;
  for (std::size_t i = 0; i < weighed.sources.size(); ++i) {
    const ErrorSource& each = question.sources[weighed.sources[i]];
    share[{each.component, each.scope}] += weighed.combined.shares[i];
  }
  std::vector<Share> shares;
  for (const auto& [key, part] : share) {
    if (part > 0.0) shares.push_back({key.first, key.second, part});
  }
  std::stable_sort(shares.begin(), shares.end(), [](const Share& a, const Share& b) { return a.share > b.share; });
  return shares;
}

/// Whether the figure is the greatest (true) or the least of its forms.
bool is_greatest(Sense sense) {
  switch (sense) {
    case Sense::greatest:
    case Sense::amplitude:
    case Sense::formula:
    case Sense::linear: return true;
    case Sense::least:
    case Sense::least_formula: return false;
  }
  return true;
}

}  // namespace

Weighing weigh(const Question& question, double level) {
  // Readings that were weighed may lie where their plain mean does not.
  for (const Formula& formula : question.expansion.formulas) {
    if (auto trouble = formula_trouble(formula, estimates(formula, question))) return {VerdictWord::not_judged, {}, std::move(trouble)};
  }
  std::vector<Weighed> all;
  for (const LinearForm& form : question.expansion.forms) all.push_back(weigh_linear(linear_of(form, question), question));
  for (const LobeStation& lobe : question.expansion.lobes) all.push_back(weigh_linear(linear_of(lobe, question), question));
  for (const Formula& formula : question.expansion.formulas) all.push_back(weigh_linear(linear_of(formula, question), question));
  FETTLE_ASSERT(!all.empty(), "a characteristic without forms");
  // "At most" on a greatest and "at least" on a least need every form on the good side; the other two need one. Guards differ with
  // the degrees of freedom, so what decides is the form that is worst (or best) against its own guard.
  const bool every = is_greatest(question.expansion.sense) == (question.side == LimitSide::at_most);
  const auto against_guard = [&](const Weighed& each) { return in_u(each) / guard_of(each, level); };
  const auto less = [&](const Weighed& a_form, const Weighed& b_form) { return against_guard(a_form) < against_guard(b_form); };
  const Weighed& decides = every ? *std::min_element(all.begin(), all.end(), less) : *std::max_element(all.begin(), all.end(), less);
  const double guard = guard_of(decides, level);
  const double margin = in_u(decides);
  const VerdictWord word = margin >= guard    ? VerdictWord::within
                           : margin <= -guard ? VerdictWord::beyond
                                              : VerdictWord::too_close;
  return {word, Doubt{decides.linear.value, decides.combined.standard_uncertainty,
                      decides.combined.effective_degrees_of_freedom, margin, guard, decides.linear.where,
                      shares_of(decides, question)},
          near_trouble(question)};
}

}  // namespace fettle
