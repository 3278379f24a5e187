#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "catalogue/gauge_preset.h"
#include "form/expansion.h"
#include "limits/limit.h"
#include "numeric/mixture_chance.h"
#include "verdict/finding.h"
#include "verdict/rule.h"

namespace fettle {

enum class VerdictWord { within, beyond, too_close, not_judged };

/// How much of the variance behind a verdict comes from one source, or from all sources of one component and scope.
struct Share {
  std::string component;            ///< "unseen-shape": texture, and shape between what was read
  std::optional<ErrorScope> scope;  ///< nothing for what is no error of a gauge
  double share;                     ///< 0 to 1
};

/// How far the figure is from its limit and how sure that is. Lengths in mm, ratios plain; margins positive on the good side.
struct Doubt {
  double estimate;              ///< of the form that decides
  double standard_uncertainty;
  std::optional<double> degrees_of_freedom;  ///< effective; nothing: as good as infinite
  double margin_in_u;           ///< distance to the limit in standard uncertainties
  double guard_in_u;            ///< what the rule asks for
  Where decides;                ///< the form that decides
  std::vector<Share> shares;    ///< largest first
};

/// The flat-prior figure of JCGM 101: kept for comparison and never called a chance (a flat prior adds the noise of the readings a
/// second time).
struct PlainFigure {
  double value;
  double standard_error;
  std::size_t draws;
};

/// What the characteristic is by the shape model. mm or ratio.
struct BestEstimate {
  double plain;  ///< of the form that decides as measured, from the readings alone
  double median;
  double low;   ///< 5 %
  double high;  ///< 95 %
  double moved_by_errors;  ///< of the move from the plain value: what the gauges are taken to have read wrong
  double moved_by_shape;   ///< the rest: what the other places and parts say
};

/// One characteristic of one part against one limit.
struct Verdict {
  std::string part;
  std::string limit;
  VerdictWord word;
  Problems reasons;                    ///< of not_judged: what is missing and what to do
  std::vector<Message> remarks;
  Ratio bound;                         ///< counts or ratio, moved by the part's step where the definition is a size
  std::optional<Ratio> as_measured;    ///< exact; nothing if it could not be reckoned
  Where measured_where;
  std::optional<bool> reading_keeps;   ///< as measured against the limit under the tie rule, no doubt counted
  std::optional<Doubt> doubt;
  std::optional<PlainFigure> plain;
  std::optional<Chance> chance = {};   ///< that the limit is kept, by the shape model
  std::optional<Chance> forecast = {}; ///< the same over every place of the plan, where some were not read: no verdict rests on it
  std::optional<BestEstimate> best = {};
  std::vector<Share> chance_shares = {};  ///< of the doubt behind `chance`
};

enum class StateWord { as_new, serviceable, beyond, too_close, not_judged };

struct PartState {
  std::string part;
  StateWord word;
  std::vector<Message> reasons;
  /// What it would be by the limits of books alone; only where that is another word: rules of thumb decided.
  std::optional<StateWord> without_thumb = {};
};

/// A limit that a part was to be held against.
struct LimitOfPart {
  std::string part;
  std::string limit;
  bool operator==(const LimitOfPart&) const = default;
};

/// Whether all judged parts keep all their service limits together; parts share gauge errors, so this is no product.
struct JointVerdict {
  VerdictWord word;
  std::optional<PlainFigure> plain;
  std::vector<std::string> left_out;  ///< parts that were not judged
  std::optional<Chance> chance = {};    ///< of the parts that went through the shape model
  std::optional<Chance> forecast = {};  ///< the same over every place of the plan, where some were not read
  /// Service limits of parts of the shape model that could not be weighed, and so do not count in `chance`, or in `forecast`.
  std::vector<LimitOfPart> chance_leaves_out = {};
  std::vector<LimitOfPart> forecast_leaves_out = {};
};

/// As new and serviceable are within.
[[nodiscard]] VerdictWord word_of(StateWord word);

[[nodiscard]] std::string_view verdict_word_name(VerdictWord word);
[[nodiscard]] std::string_view state_word_name(StateWord word);

}  // namespace fettle
