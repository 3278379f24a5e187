#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/material.h"
#include "limits/limit.h"

namespace fettle {

/// Which size of a part a rule reckons from.
enum class ThumbSize { diameter, length, radius, growth, new_size };

/// factor: so many times the size. pi: π times it. added: so much more than it. slope: a length per length. fixed: the figure itself.
enum class ThumbReckoning { factor, pi, added, slope, fixed };

/// A figure that goes round in the trade. None is a maker's.
struct ThumbRule {
  std::string id;                         ///< text key "thumb.rule." + id
  std::vector<std::string> about;         ///< kinds of the catalogue ("kind." + id), or other things ("thumb.about." + id)
  std::optional<std::string> definition;  ///< how the figure is reckoned on a part of that kind
  LimitRole role;
  std::optional<LimitSide> side;          ///< nothing: a figure to go by, which is no limit
  ThumbReckoning reckoning;
  std::optional<ThumbSize> of;
  Ratio factor;                           ///< of `factor` only
  std::optional<Quantity> figure;
  std::optional<Quantity> per;            ///< of `slope` only
  std::optional<Length> over;             ///< the sizes `of` that the rule is for
  std::optional<Length> up_to;
  std::optional<ThumbSize> standard;      ///< the size that the definition counts from
  Mark mark;
  std::string origin;
};

/// Gives the rules of a file, or every problem of it: as those of the catalogue's files (catalogue.*), and limits.thumb_makers_figure for a
/// rule that does not say that it is none.
[[nodiscard]] Result<std::vector<ThumbRule>> read_thumb_rules(std::string_view text);

/// The built-in ones, read once. A problem in them is an InternalError.
[[nodiscard]] const std::vector<ThumbRule>& thumb_rules();

/// Those about a kind or thing, in the order of the file; all if `about` is empty.
[[nodiscard]] std::vector<const ThumbRule*> thumb_rules_about(std::string_view about);

/// "new-size": the text key is "thumb.of." + this.
[[nodiscard]] std::string_view thumb_size_name(ThumbSize size);
/// "worked-out": the text key is "thumb.mark." + this.
[[nodiscard]] std::string_view thumb_mark_name(Mark mark);

}  // namespace fettle
