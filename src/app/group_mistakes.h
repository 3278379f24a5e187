#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "advice/mistakes.h"
#include "app/place_sizes.h"
#include "app/reading_slips.h"
#include "form/shape_known.h"
#include "job/job.h"

namespace fettle {

/// A mistake that readings may have come of. Lengths in mm.
struct AskedReading {
  std::vector<std::string> readings;  ///< event ids: one; or those that seem exchanged, or all under a setting
  std::string part;
  std::size_t cell;                   ///< of the first
  std::string setting;
  const MistakeKind* kind;            ///< the likeliest
  double chance;                      ///< that it is a mistake, of whatever kind
  std::optional<double> shown_mm;     ///< of one reading
  std::optional<double> expected_mm;  ///< from all others
  std::optional<double> expected_sd_mm;
  std::vector<std::pair<const MistakeKind*, double>> by_kind;  ///< share of each among mistakes
};

/// A group of like parts whose readings are asked whether they are mistakes of a hand. Every reading is a row of its own, as of repeats one
/// may be wrong.
class GroupMistakes {
 public:
  /// `parts` that go through the shape model, each read once at least; `set`: what was read on them. Holds on to `job`, `readings`, `parts`.
  GroupMistakes(const Job& job, const std::vector<Kept<Reading>>& readings, const std::vector<const PartOnBench*>& parts, const SizeSet& set,
                const KnownGroup& known, ShapeFreedom freedom);

  /// All of them together, likeliest first. `stand`: events of readings that a person said stand.
  [[nodiscard]] std::vector<AskedReading> finished(const std::set<std::string>& stand) const;

  /// One as it arrives. `open`: events that were asked about and not answered.
  [[nodiscard]] std::optional<AskedReading> arriving(const std::string& event, const std::set<std::string>& open) const;

 private:
  [[nodiscard]] std::vector<RowInQuestion> rows_in_question(const std::set<std::string>& stand) const;
  [[nodiscard]] std::vector<SupposedMistake> mistakes_of(std::size_t block, std::size_t row) const;
  [[nodiscard]] std::vector<RowsExchanged> exchanges() const;
  void add_exchanges_of(std::size_t block, std::vector<RowsExchanged>& out) const;
  void add_wrong_masters(std::vector<RowsExchanged>& out) const;
  [[nodiscard]] AskedReading of(const AskedRows& asked) const;

  const Job& job_;
  std::map<std::string, const Reading*> readings_;  ///< by event
  std::map<std::string, SettingAtHand> settings_;
  const std::vector<const PartOnBench*> parts_;
  KnownGroup known_;
  ShapeFreedom freedom_;
  ShapeRows rows_;
  std::map<std::string, double> as_measured_mm_;    ///< by event
};

}  // namespace fettle
