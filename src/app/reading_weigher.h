#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/asked_again.h"
#include "app/place_sizes.h"
#include "app/reading_slips.h"
#include "job/job.h"

namespace fettle {

/// What is asked about a reading, and how sure that is.
struct QuestionOfReading {
  std::string code;  ///< of a mistake: "needle-side", "port-edge" ...
  Message sentence;
  double chance;     ///< that the reading is a mistake, of whatever kind
};

/// Weighs single readings of one part against what is known at their place: by a wide band, whose sentences are clear, and where the part has a
/// model of wear by all that was read of its group.
class ReadingWeigher {
 public:
  /// Holds on to all three.
  ReadingWeigher(const Job& job, const PlaceSizes& sizes, const Part& part) : job_(job), sizes_(sizes), part_(part) {}

  /// Whether anything is asked of this place: a length, in a direction that counts, of a part that is not read as a figure.
  [[nodiscard]] bool weighs(std::size_t cell) const;

  /// `reading` is in the job or not yet; what stands under its event, and under `without`, is no witness. Needs weighs(its cell).
  [[nodiscard]] std::optional<QuestionOfReading> ask(const Kept<Reading>& reading, const SizeThere& size, const KnownSetting& setting,
                                                     const std::optional<std::string>& without) const;

 private:
  [[nodiscard]] std::vector<Kept<Reading>> witnesses(const std::string& event, const std::optional<std::string>& without) const;
  [[nodiscard]] bool is_like(const std::string& part) const;
  [[nodiscard]] PlaceKnown place_known(const Reading& reading, const SizeThere& size, const std::vector<SizeThere>& others) const;
  void add_limits(PlaceKnown& out) const;
  [[nodiscard]] std::optional<QuestionOfReading> by_model(const Kept<Reading>& reading, const std::vector<Kept<Reading>>& all, const SizeSet& set,
                                                          const KnownSetting& setting) const;

  const Job& job_;
  const PlaceSizes& sizes_;
  const Part& part_;
};

}  // namespace fettle
