#pragma once

#include <string>

#include "units/ratio.h"

namespace fettle {

/// How far a figure of the catalogue can be trusted: seen in the named source, recomputed from a source's own inputs, from
/// memory, common practice without a source, worked out here.
enum class Mark { seen, recomputed, memory, common_practice, worked_out };

/// A material and how it grows. `expansion_per_celsius` is the relative growth per °C near 20 °C (10.8e-6 for grey iron).
struct Material {
  std::string id;  ///< text key "material." + id
  Ratio expansion_per_celsius;
  Mark mark;
  std::string origin;
  bool operator==(const Material&) const = default;
};

}  // namespace fettle
