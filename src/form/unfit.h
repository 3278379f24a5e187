#pragma once

#include "catalogue/definition.h"
#include "form/expand.h"
#include "form/formula.h"

namespace fettle {

/// Why the sizes that were read (exact, by cell: counts or base units) give no figure under a formula: form.no_figure, with what to look
/// at. Empty if they give one; what is greatest or least of linear forms always does. Needs every cell of `expansion.used`.
[[nodiscard]] Problems unfit_problems(const Definition& definition, const PartGrid& grid, const Expansion& expansion,
                                      const std::vector<std::optional<Ratio>>& sizes);

/// What `cells` were read as and why they go together in no figure, as arguments: definition, why, read.
[[nodiscard]] std::vector<Argument> unfit_arguments(const Definition& definition, const PartGrid& grid, FormulaTrouble::Sort sort,
                                                    const std::vector<std::size_t>& cells, const std::vector<std::optional<Ratio>>& sizes);

/// The sizes in the formula's units, by cell; 0 where none is asked for.
[[nodiscard]] std::vector<double> formula_inputs(const Formula& formula, const std::vector<std::optional<Ratio>>& sizes);

}  // namespace fettle
