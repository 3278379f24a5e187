#pragma once

#include <optional>
#include <vector>

#include "advice/asked_again.h"
#include "catalogue/mistakes.h"
#include "entry/typed_quantity.h"
#include "gauging/known_setting.h"
#include "gauging/sizes.h"
#include "job/job.h"

namespace fettle {

/// One way in which a hand may have come to a reading, as a size.
struct SupposedSize {
  const MistakeKind* kind;
  double prior;                    ///< share of readings; of a kind with several ways, each its part
  std::optional<double> shift_mm;  ///< definite: how much larger the size would be, had the hand not slipped
};

/// A reading at its place, with what its texts are read by.
struct ReadingOnGauge {
  const TypedQuantity& typed;
  const KnownSetting& setting;
  const TypingContext& context;  ///< of the text
  const PartOnBench& part;
  std::size_t cell;
  double size_mm;
  bool has_ports;  ///< the place may lie at a port
};

/// Everything that a hand may have done at this one reading, in the order of the catalogue: kinds of reach "reading" alone, those that can
/// happen there alone. A text whose digits, exchanged, cannot be read is left out.
[[nodiscard]] std::vector<SupposedSize> supposed_sizes(const ReadingOnGauge& reading);

/// As `asked_again` takes them: the slips that say what was meant, but for a decimal mark read off a dial.
[[nodiscard]] std::vector<Supposed> clear_slips(const std::vector<SupposedSize>& supposed, double size_mm, bool on_a_dial);

[[nodiscard]] bool is_on_a_dial(const KnownSetting& setting);

/// How much more was read than really is: +1 where the kind of mistake makes a size larger, −1 smaller, 0 either.
[[nodiscard]] int toward_of(const MistakeKind& kind);

}  // namespace fettle
