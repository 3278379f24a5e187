#pragma once

#include <vector>

#include "form/expansion.h"
#include "form/formula.h"
#include "form/group_estimate.h"
#include "verdict/verdict.h"

namespace fettle {

/// A characteristic ready for judging: its forms over the places of one part, and its bound.
struct Question {
  const Expansion& expansion;
  const PartEstimate& part;
  const std::vector<ErrorSource>& sources;
  double bound;      ///< mm or ratio
  LimitSide side;
};

/// The law of propagation (JCGM 100, 5.1.2 and G.4.1) for each form, and the guard band of JCGM 106, 8.3: every form of a greatest
/// must clear an upper limit by guard·u to be within, one that lies beyond it by guard·u is enough for beyond. The form with the
/// least margin decides. An amplitude or a formula is linearised at the estimate (JCGM 100, 5.1.3). Needs every used place filled.
struct Weighing {
  VerdictWord word;
  Doubt doubt;
  /// A formula that three standard uncertainties could carry to where it has no figure: what it would be there. No word can rest on it,
  /// and if the estimates are there already, there is no doubt either.
  std::optional<FormulaTrouble> near = {};
};
[[nodiscard]] Weighing weigh(const Question& question, double level);

}  // namespace fettle
