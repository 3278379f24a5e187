#include "catalogue/definition.h"

#include <algorithm>

namespace fettle {

bool Definition::applies(Feature feature) const {
  return std::find(applies_to.begin(), applies_to.end(), feature) != applies_to.end();
}

bool Definition::is_for(std::string_view kind) const {
  return kinds.empty() || std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

bool Definition::uses(Input input) const { return std::find(inputs.begin(), inputs.end(), input) != inputs.end(); }

const Reckoning* Definition::reckoning(Feature feature) const {
  const auto found = std::find_if(reckonings.begin(), reckonings.end(),
                                  [&](const Reckoning& each) { return each.feature == feature; });
  return found == reckonings.end() ? nullptr : &*found;
}

std::string_view family_name(Family family) {
  switch (family) {
    case Family::size: return "size";
    case Family::out_of_round: return "out-of-round";
    case Family::taper: return "taper";
    case Family::shape: return "shape";
    case Family::wear: return "wear";
    case Family::clearance: return "clearance";
    case Family::figure: return "figure";
  }
  return "";
}

}  // namespace fettle
