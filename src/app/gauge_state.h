#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/recorded_job.h"
#include "catalogue/catalogue.h"
#include "gauging/gauge.h"
#include "gauging/sizes.h"

namespace fettle {

/// Who asks, and when.
struct Asking {
  std::string who;  ///< may be empty
  std::string now;  ///< as Clock has it
};

/// A setting as it stands now.
struct SettingNow {
  const Kept<Setting>* setting;
  std::optional<std::int64_t> age_minutes;  ///< since it was made, or its zero last looked at: by the device's clock or by its acceptance, what was earlier; nothing: the clocks do not tell
  bool closed;                              ///< its zero was looked at at the end of the round: nothing more is read under it
  std::vector<Message> why_stale;           ///< empty: it can be trusted as it is
  std::string round;                        ///< under way, or the next that was not used yet
};

/// Stale: a setting that is older than this, or that another person took over.
inline constexpr std::int64_t kStaleAfterMinutes = 60;

[[nodiscard]] SettingNow setting_now(const RecordedJob& recorded, const Kept<Setting>& setting, const Asking& asking);

/// What a gauge is used for: set on a master; read as it stands; only lends its size to others.
enum class GaugeSort { comparison, direct, master };
[[nodiscard]] GaugeSort sort_of(const GaugePreset& preset);

/// Whether any gauge of the catalogue that the page can read measures such parts; the others are measured with the program at a desk.
[[nodiscard]] bool read_with_the_page(const Catalogue& known, const Kind& kind);

/// In which people read such a quantity off a gauge, the usual one first.
[[nodiscard]] std::vector<UnitId> usual_units(Dimension quantity);

/// A gauge of the job, beside what it is to read.
struct GaugeNow {
  const Gauge* gauge;
  const GaugePreset* preset;
  std::optional<KnownGauge> known;     ///< nothing: what was entered of it is not sound
  GaugeSort sort;
  UnitId unit;                         ///< in which it is read: divisions, mm, in
  std::optional<Message> why_not;      ///< why it cannot read this kind
  std::optional<SettingNow> setting;   ///< the last one of it
};

/// All gauges of the job, the last used first. `part`: the part, or one that stands for its kind; null: why_not says nothing.
[[nodiscard]] std::vector<GaugeNow> gauges_now(const RecordedJob& recorded, const PartOnBench* part, const Asking& asking);

/// What new parts of the kind measure, at the part's step; nothing where no limit says.
[[nodiscard]] std::optional<Length> size_of_part(const Job& job, const PartOnBench& part);

/// One past the highest round that has a number.
[[nodiscard]] std::string next_round(const Job& job);

/// Place of an event in the log; nothing if it is not there.
[[nodiscard]] std::optional<std::size_t> place_in_log(const RecordedJob& recorded, const std::string& event);

/// "just now", "20 minutes ago", "3 weeks ago".
[[nodiscard]] Message ago(std::int64_t minutes);

}  // namespace fettle
