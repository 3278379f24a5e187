#pragma once

#include <nlohmann/json.hpp>

#include "base/problem.h"
#include "catalogue/layout.h"
#include "entry/typed_quantity.h"
#include "form/expansion.h"
#include "verdict/verdict.h"

// Inside `wire` only: the pieces that several JSON forms share.
namespace fettle::json {

using Json = nlohmann::ordered_json;
inline constexpr int kIndent = 2;

/// {"value": "84.0978", "unit": "mm"} of an exact length in counts; 7 decimals would show every count, 4 are asked for here.
[[nodiscard]] Json length(const Ratio& counts, UnitId unit);
/// The same of an estimate in mm, or of a plain ratio ("unit": "1").
[[nodiscard]] Json estimate(double value, ResultDimension dimension, UnitId unit);
/// What was read at a place, exact or estimated, and its doubt, in the unit of its quantity.
[[nodiscard]] Json read(const Ratio& exact, Dimension quantity, UnitId unit);
[[nodiscard]] Json read(double estimate, Dimension quantity, UnitId unit);
[[nodiscard]] Json chance(const Chance& chance);
[[nodiscard]] Json figure(const Ratio& value, ResultDimension dimension, UnitId unit);
[[nodiscard]] Json where(const Where& where, const Layout& layout);
[[nodiscard]] Json message(const Message& message);
[[nodiscard]] Json messages(const std::vector<Message>& messages);
[[nodiscard]] Json problem(const Problem& problem);
[[nodiscard]] Json problems(const Problems& problems);
[[nodiscard]] Json typed(const TypedQuantity& typed);
/// "side" words of the needle.
[[nodiscard]] std::string side(NeedleSide side);

}  // namespace fettle::json
