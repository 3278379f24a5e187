#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/expression.h"

namespace fettle {

enum class Family { size, out_of_round, taper, shape, wear, clearance, figure };

/// What a definition is fed with. `sizes` are those of one part.
enum class Input { sizes, standard, nominal, depths };

/// The least reading that may carry a verdict. Out-of-round: so many heights with so many directions each. Taper and shape: so
/// many directions with so many heights each. Size and wear: the first station. Clearance and figure: what they are made of.
struct Minimum {
  int heights;
  int directions;
  bool operator==(const Minimum&) const = default;
};

/// How one feature is reckoned under a definition.
struct Reckoning {
  Feature feature;
  Expression expression;
  Sense sense;
  bool operator==(const Reckoning&) const = default;
};

/// What to say where readings are such that there is no figure: a sentence of its own and the lengths it names.
struct Unfit {
  struct Named {
    std::string name;  ///< argument of the sentence
    Expression of;     ///< a length
    bool operator==(const Named&) const = default;
  };
  std::string say;  ///< text key "unfit." + say
  std::vector<Named> lengths;
  bool operator==(const Unfit&) const = default;
};

/// A derived characteristic with an identity: "taper" alone means ten different things in the books.
struct Definition {
  std::string id;  ///< text key "definition." + id
  Family family;
  ResultDimension dimension;
  std::vector<Feature> applies_to;
  std::vector<Input> inputs;
  Minimum minimum;
  bool whole_directions;           ///< only directions read at every station that the definition touches enter
  std::vector<std::string> needs;  ///< what diameters cannot give; then there is no reckoning. Text keys "need." + word
  std::vector<Reckoning> reckonings;
  std::string origin;
  std::vector<std::string> kinds = {};  ///< ids of the only kinds it is made for; empty: every kind with such a feature
  std::optional<Unfit> unfit = {};       ///< of a formula; nothing: a general sentence

  [[nodiscard]] bool judged() const { return needs.empty(); }
  [[nodiscard]] bool applies(Feature feature) const;
  [[nodiscard]] bool is_for(std::string_view kind) const;
  [[nodiscard]] bool uses(Input input) const;
  /// Nothing if the definition is not judged or does not apply to the feature.
  [[nodiscard]] const Reckoning* reckoning(Feature feature) const;
  bool operator==(const Definition&) const = default;
};

[[nodiscard]] std::string_view family_name(Family family);

}  // namespace fettle
