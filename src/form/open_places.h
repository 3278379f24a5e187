#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "catalogue/expression.h"

namespace fettle {

/// The stations and directions that are still open while an expression is walked from the outside in.
struct OpenPlaces {
  std::vector<std::size_t> stations;
  std::vector<std::size_t> directions;
};

/// All counted stations and directions: the part's own, or those of one member of an assembly.
[[nodiscard]] OpenPlaces counted_places(const Layout& layout, std::string_view member = {});

/// What `at` leaves of `open`.
[[nodiscard]] OpenPlaces narrowed(const OpenPlaces& open, const Expression& at, const Layout& layout);

/// The parts that a reduction takes one by one: heights first to last, directions as listed, or every place station by station.
[[nodiscard]] std::vector<OpenPlaces> split(const OpenPlaces& open, Over over);

/// Calls `visit` at everything that looks at places, and at every `slope`, with what is open there.
void walk(const Expression& expression, const OpenPlaces& open, const Layout& layout,
          const std::function<void(const Expression&, const OpenPlaces&)>& visit);

}  // namespace fettle
