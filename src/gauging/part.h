#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entry/typed_quantity.h"

namespace fettle {

/// The step a part stands at now: standard, an oversize or undersize, or not known.
enum class StepKind { standard, offset, unknown };

struct Step {
  StepKind kind;
  std::optional<TypedQuantity> offset;  ///< with its sign; only for `offset`
  std::string seen_where;               ///< crown, pan rail, web, shell back; may be empty
  bool operator==(const Step&) const = default;
};

/// How a part came to its present surface. Only worn parts may ever go through a model of wear.
enum class Condition { worn, machined, fresh, sleeved };

/// Which part takes which place in an assembly.
struct Member {
  std::string role;  ///< of KindMember
  std::string part;
  bool operator==(const Member&) const = default;
};

/// One physical thing: bore 2, crankpin 3; or an assembly of them: bore 2 with its piston.
struct Part {
  std::string id;
  std::string kind;                     ///< id in the catalogue
  std::string position;                 ///< as people say it: "2", "A3"
  std::optional<std::string> material;  ///< id in the catalogue; nothing: the kind's own
  Step step;
  Condition condition;
  std::optional<std::vector<Member>> members = {};  ///< of an assembly, in the order of the kind
  bool operator==(const Part&) const = default;
};

[[nodiscard]] std::string_view condition_name(Condition condition);
[[nodiscard]] std::string_view step_kind_name(StepKind kind);

}  // namespace fettle
