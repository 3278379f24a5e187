#pragma once

#include <string>
#include <vector>

#include "limits/proof_desk.h"

namespace fettle {

/// How the steps of a series are read: in the unit of the figures where they are printed in it; in the other one where they are printed in both;
/// or as the round step of the other unit from which what is printed was rounded (0.25 mm for .010 in, .010 in for 0.25 mm). Only for the rules.
enum class StepReading { own_unit, other_unit, rounded };

/// The step that is read, as it is printed; nothing for the standard row.
[[nodiscard]] const TypedQuantity* step_as_read(const SheetRow& row, UnitFamily family, StepReading reading);
/// Its value in the base unit; 0 for the standard row.
[[nodiscard]] Ratio step_read(const SheetRow& row, UnitFamily family, StepReading reading);
/// A step that was read as `rounded`, in the unit it was rounded from.
[[nodiscard]] std::string step_text(const Ratio& meant, const TypedQuantity& printed);

/// How many things speak for the slip in the step, and how many for one in the figures.
struct StepVotes {
  int step;
  int figures;
};
/// What the other steps of the series say: whether each of the two, the printed step and the one that the figures stand for, is a multiple of what they go up by
/// (this counts twice), is not taken by another row, and stands in their order.
[[nodiscard]] StepVotes vote_by_steps(const Ratio& printed, const Ratio& meant, const std::vector<Ratio>& before, const std::vector<Ratio>& after, const Ratio& room);

}  // namespace fettle
