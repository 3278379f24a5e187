#pragma once

#include <vector>

#include "catalogue/definition.h"
#include "catalogue/kind.h"

namespace fettle {

/// The definitions by which parts of a kind may be judged, in the order of the catalogue.
struct KindDefinitions {
  std::vector<const Definition*> usual;             ///< the kind's own places are enough
  std::vector<const Definition*> with_more_places;  ///< the job's layout must give more heights or directions, depths or lengths of lines
};

/// Leaves out what diameters cannot give. The places of an assembly are those of its members and are taken as enough. The pointers point
/// into `definitions`.
[[nodiscard]] KindDefinitions definitions_for(const Kind& kind, const std::vector<Definition>& definitions);

}  // namespace fettle
