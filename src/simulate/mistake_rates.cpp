#include "simulate/mistake_rates.h"

#include <algorithm>

#include "base/assertion.h"
#include "catalogue/mistakes.h"

namespace fettle {

KindFound& KindFound::operator+=(const KindFound& other) {
  FETTLE_ASSERT(kind == other.kind, "kinds of mistakes in one order");
  planted += other.planted;
  asked += other.asked;
  named += other.named;
  arriving += other.arriving;
  beside += other.beside;
  honest += other.honest;
  far += other.far;
  far_asked += other.far_asked;
  return *this;
}

MistakeRates& MistakeRates::operator+=(const MistakeRates& other) {
  engines += other.engines;
  honest += other.honest;
  falsely += other.falsely;
  falsely_arriving += other.falsely_arriving;
  if (kinds.empty()) {
    kinds = other.kinds;
    return *this;
  }
  for (std::size_t k = 0; k < kinds.size(); ++k) kinds[k] += other.kinds[k];
  return *this;
}

std::vector<MistakeRates> over_families(const MistakeRecord& record) {
  std::vector<MistakeRates> out;
  for (const MistakeRates& each : record.families) {
    auto found = std::find_if(out.begin(), out.end(), [&](const MistakeRates& all) { return all.hand == each.hand; });
    if (found == out.end()) {
      out.push_back({"all", each.hand, 0, 0, 0, 0, {}});
      found = out.end() - 1;
    }
    *found += each;
  }
  return out;
}

bool names_rightly(const Planted& planted, const std::string& mistake) {
  const MistakeKind* kind = mistake_kind(mistake);
  switch (planted.kind) {
    case PlantedKind::off_15:
    case PlantedKind::off_25:
    case PlantedKind::off_40:
    case PlantedKind::off_60: return kind != nullptr && kind->amount == MistakeAmount::spread;
    // Half a millimetre is one turn of a dial of hundreds of 0.005 mm as well.
    case PlantedKind::thimble_turn: return mistake == "thimble-turn" || mistake == "dial-turn";
    case PlantedKind::dial_turn:
    case PlantedKind::needle_side:
    case PlantedKind::digits:
    case PlantedKind::axes: return word_of(kPlantedKinds, planted.kind) == mistake || (planted.kind == PlantedKind::axes && mistake == "part-axes-exchanged");
    case PlantedKind::heights: return mistake == "heights-exchanged";
  }
  return false;
}

}  // namespace fettle
