#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "simulate/planted.h"

namespace fettle {

/// What became of mistakes of one kind, one in each engine.
struct KindFound {
  PlantedKind kind;
  std::size_t planted = 0;
  std::size_t asked = 0;      ///< of the finished job: about the very reading (or one of the two)
  std::size_t named = 0;      ///< and as what it was; a reading off by some µm as any kind of unknown amount
  std::size_t arriving = 0;   ///< asked at once, as the (later) reading came in
  std::size_t beside = 0;     ///< honest readings of the finished job that were asked about
  std::size_t honest = 0;     ///< honest readings of these engines
  std::size_t far = 0;        ///< of the planted, those that moved a figure by 25 µm or more ...
  std::size_t far_asked = 0;  ///< ... and were asked about
  KindFound& operator+=(const KindFound& other);
  bool operator==(const KindFound&) const = default;
};

/// How one family fared under one hand.
struct MistakeRates {
  std::string family;
  std::string hand;
  std::size_t engines = 0;
  std::size_t honest = 0;          ///< readings of the engines without any mistake
  std::size_t falsely = 0;         ///< of these, asked about once the job was finished ...
  std::size_t falsely_arriving = 0;  ///< ... and as they came in
  std::vector<KindFound> kinds;    ///< in the order of kPlantedKinds
  MistakeRates& operator+=(const MistakeRates& other);
  bool operator==(const MistakeRates&) const = default;
};

struct MistakeRecord {
  std::uint64_t seed;
  std::size_t engines;  ///< of each family under each hand
  double ask_from;      ///< chance of a mistake from which on is asked
  std::vector<MistakeRates> families;  ///< by hand, then family
  bool stopped;
};

/// Rates of one hand over all its families, "all" for the family's name.
[[nodiscard]] std::vector<MistakeRates> over_families(const MistakeRecord& record);

/// Whether a mistake that was asked about under this name was named rightly.
[[nodiscard]] bool names_rightly(const Planted& planted, const std::string& mistake);

}  // namespace fettle
