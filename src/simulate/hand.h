#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "gauging/gauge.h"
#include "gauging/reading.h"
#include "gauging/setting.h"
#include "simulate/truth.h"

namespace fettle {

/// How well a person reads: a dial bore gauge, for shafts a dial snap gauge, set on a micrometer. Standard deviations in µm, all errors normal but for
/// the rounding to the nearest division. The job says all of them.
struct Hand {
  std::string id;
  std::string about;     ///< a line on what it is
  double setting_sd_um;  ///< finding the zero: anew at each setting
  double repeat_sd_um;   ///< anew at each reading
  Length division;
  double master_sd_um;  ///< the micrometer's own: common to all settings of a job; 0: it is right
  /// How far part and gauge differ, in °C, anew in each round. 0: both recorded as 20 °C, and the thermometer's ± 0.5
  /// °C is drawn. Else nothing is recorded, and the program takes its catalogue's 2 °C, whatever stands here.
  double temperature_sd_celsius;
  /// How far the zero has moved at the end of a round, as a drift or as a knock at a random reading, one as likely as
  /// the other. 0: it does not move, and nobody checks. Else the closing zero is read like any place and recorded.
  double drift_sd_um;
  std::size_t repeats;   ///< readings of each place under one setting
  std::size_t settings;  ///< fresh settings, all places read under each
};

/// Readings of one engine and the settings they were taken under. All numbers went through typed text and back.
struct HandWork {
  std::vector<Setting> settings;
  std::vector<Reading> readings;  ///< in the order in which they were taken
};

/// The two gauges of a hand, with its errors stated in them: "gauge", the dial gauge, and "mic", its master. Needs a
/// family that the reader accepted (a micrometer of the catalogue reaches its standard size).
[[nodiscard]] std::vector<Gauge> gauges_of(const Hand& hand, const EngineFamily& family);

/// Reads every place of the truth that the family does not leave unread. Draws from `generator` alone. Part ids as
/// part_id gives.
[[nodiscard]] HandWork read_engine(const Hand& hand, const EngineFamily& family, const EngineTruth& truth,
                                   Generator& generator);

/// A place that is read once more.
struct PlaceAgain {
  std::size_t part;
  std::size_t cell;  ///< of the family's layout
  std::size_t times;
};

/// The same hand at the same engine once more: a fresh setting on the same master, these places read in this order. `visit` counts from 1
/// over the visits after `read_engine`; each has a stream of its own.
[[nodiscard]] HandWork read_again(const Hand& hand, const EngineFamily& family, const EngineTruth& truth, std::uint64_t seed, std::uint64_t number,
                                  std::size_t visit, const std::vector<PlaceAgain>& places);

/// "bore-1" for part 0 of a family of bores, "valve-guide-1" of another kind.
[[nodiscard]] std::string part_id(const EngineFamily& family, std::size_t part);

/// A length as a person types it, with all its decimals and no more: "84.000 mm" with at least `decimals`.
[[nodiscard]] TypedQuantity typed_length(Length length, int decimals);

/// What our own code writes must be readable by the door that persons use; if not, an InternalError.
[[nodiscard]] TypedQuantity typed_back(const std::string& text, const TypingContext& context);

/// The catalogue's metric micrometer that reaches this size; null if there is none.
[[nodiscard]] const GaugePreset* micrometer_for(Length size);

}  // namespace fettle
