#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "simulate/family_scores.h"
#include "text/sentence.h"

namespace fettle {

/// The scores as tables, one for each hand, with what the columns mean.
[[nodiscard]] std::string simulation_text(const SimulateRecord& record, Language language);

/// A picture with the name of its file.
struct NamedChart {
  std::string name;
  Drawing drawing;
};

/// For each hand: the losses of every family, and how far chances can be taken at their word.
[[nodiscard]] std::vector<NamedChart> simulation_charts(const SimulateRecord& record, Language language, double width);

}  // namespace fettle
