#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "job/job.h"
#include "limits/thumb_limits.h"

namespace fettle {

/// A size that a rule of thumb reckons from, and where the job says it.
struct ThumbSizeFrom {
  ThumbSize size;
  TypedQuantity value;
  Message from;
};

/// A rule of thumb that could stand where a job has no limit. It counts only once a person has accepted it.
struct ThumbOffer {
  std::string id;                      ///< by which it is picked, one at a time: the rule's, with the kind where a rule is about several
  const ThumbRule* rule;
  std::string kind;
  const Definition* definition;
  std::optional<ThumbFigure> figure;   ///< with a point as decimal mark; nothing where a size is missing
  std::optional<Limit> limit;          ///< as the job would have typed it, accepted by nobody; nothing without `figure`
  std::optional<ThumbSize> missing;    ///< what the job does not say and the rule needs
  std::vector<ThumbSizeFrom> from;     ///< sizes it reckons from
  std::vector<std::string> beside;     ///< ids of limits that bound the same by another definition: then it is hardly missed
};

/// For each kind that has parts in the job, and each definition that its places are enough for and that no limit of the job names: the rules that
/// give a limit by it. In the order of the parts, then the catalogue's, then that of the rules. Sizes come from the new size limits of books: of
/// the kind on the side where nothing wears, else of the other side or of the one kind it mates with, where only a share of the size is taken; the
/// length from the depths of the layout. No size is taken from a rule of thumb. Needs kinds that the catalogue knows. The pointers point into
/// `known` and the rules.
[[nodiscard]] std::vector<ThumbOffer> thumb_offers(const Job& job, const Catalogue& known);

/// What becomes of it when `who` accepts it. Needs an offer with a figure.
[[nodiscard]] Limit accepted_by(const ThumbOffer& offer, const std::string& who);

/// What the job has no limit for at all, while rules of thumb would give one: "taper", of each kind. `kind` empty: of all kinds.
struct UnlimitedByBooks {
  std::string kind;
  const Definition* definition;
};
[[nodiscard]] std::vector<UnlimitedByBooks> unlimited(const std::vector<ThumbOffer>& offers, const std::string& kind);

}  // namespace fettle
