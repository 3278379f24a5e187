#include "form/exact_value.h"

#include "base/assertion.h"

namespace fettle {

ExactValue exact_value(const Expansion& expansion, const std::vector<Ratio>& sizes) {
  FETTLE_ASSERT(!expansion.forms.empty(), "no linear forms");
  ExactValue best;
  bool first = true;
  for (const LinearForm& form : expansion.forms) {
    Ratio value = form.constant;
    for (const Term& term : form.terms) value = value + term.coefficient * sizes[term.cell];
    const bool better = expansion.sense == Sense::least ? value < best.value : value > best.value;
    if (first || better) best = {value, form.where};
    first = false;
  }
  return best;
}

}  // namespace fettle
