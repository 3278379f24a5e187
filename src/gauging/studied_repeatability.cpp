#include "gauging/studied_repeatability.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fettle {
namespace {

constexpr double kLeastOfDivision = 0.1;
constexpr double kSqrt12 = 3.4641016151377544;

struct KnownStudy {
  const StudiedGauge* study;
  double spread;  ///< as read, mm or the base unit
  UsedStudy used;
};

std::string origin_of(const StudiedGauge& study) {
  std::string out = "gauge study";
  if (study.person) out += " of " + *study.person;
  if (!study.when.empty()) out += ", " + study.when;
  out += ", " + std::to_string(study.degrees_of_freedom) + " degrees of freedom";
  if (!study.data.empty()) out += ", data " + study.data.substr(0, 12);
  return out;
}

/// As a figure that stands beside sizes; nothing where it is none of the gauge's quantity.
std::optional<double> spread_of(const StudiedGauge& study, const KnownGauge& gauge) {
  const Quantity& typed = study.repeatability.quantity;
  const bool is_length = gauge.preset->measures == Dimension::length;
  constexpr auto kCountsPerMm = static_cast<double>(Length::kCountsPerMillimetre);
  if (typed.dimension() != gauge.preset->measures) return std::nullopt;
  return typed.in_base().to_double() / (is_length ? kCountsPerMm : 1.0);
}

class StudyUser {
 public:
  StudyUser(SizeSet& set, const std::map<std::string, KnownGauge>& gauges, Problems& problems) : set_(set), gauges_(gauges), problems_(problems) {}

  void know(const StudiedGauge& study) {
    const Place& place = study.repeatability.place;
    const auto gauge = gauges_.find(study.gauge);
    const std::size_t before = problems_.size();
    if (study.repeatability.quantity.value.sign() <= 0) add("gauging.study_nothing", place, study);
    if (study.degrees_of_freedom < 1) add("gauging.study_no_freedom", place, study);
    if (gauge == gauges_.end()) {
      add("gauging.study_unknown_gauge", place, study);
      return;
    }
    const auto spread = spread_of(study, gauge->second);
    if (!spread) add("gauging.study_other_quantity", place, study);
    if (problems_.size() > before) return;
    known_.push_back({&study, *spread, {&study, 0.0, 0.0, 0, gauge->second.preset->measures}});
  }

  void use(Size& size, const Hand& hand) {
    KnownStudy* best = nullptr;
    for (KnownStudy& each : known_) {
      if (goes_before(*each.study, best == nullptr ? nullptr : best->study, hand)) best = &each;
    }
    if (best != nullptr) put(size, *best);
  }

  [[nodiscard]] std::vector<UsedStudy> used() const {
    std::vector<UsedStudy> out;
    for (const KnownStudy& each : known_) {
      if (each.used.sizes > 0) out.push_back(each.used);
    }
    return out;
  }

 private:
  void add(const char* code, const Place& place, const StudiedGauge& study) {
    problems_.push_back({code, place, {verbatim("gauge", study.gauge), verbatim("text", study.repeatability.text)}});
  }

  void put(Size& size, KnownStudy& known) {
    const OwnSpread own = own_spread(size, set_);
    const double division = kSqrt12 * std::sqrt(own.rounding);
    const double variance = std::max(known.spread * known.spread - own.rounding, kLeastOfDivision * division * kLeastOfDivision * division);
    const double stated = std::sqrt(own.repeats);
    known.used.studied = std::sqrt(variance);
    known.used.stated = stated;
    ++known.used.sizes;
    const std::string origin = origin_of(*known.study);
    const auto degrees = static_cast<double>(known.study->degrees_of_freedom);
    if (stated > 0.0) {
      fettle::put({known.used.studied / stated, degrees, origin, false}, size, set_);
      return;
    }
    // The preset says nothing of it, or that it is nothing: the study's figure stands as an error of its own.
    size.terms.push_back({set_.sources.size(), 1.0});
    set_.sources.push_back({"reading:" + size.reading + ":studied", "repeat", ErrorScope::reading, ErrorShape::normal, known.used.studied, degrees, origin,
                            known.used.dimension});
  }


  SizeSet& set_;
  const std::map<std::string, KnownGauge>& gauges_;
  Problems& problems_;
  std::vector<KnownStudy> known_;
};

}  // namespace

bool goes_before(const StudiedGauge& study, const StudiedGauge* so_far, const Hand& hand) {
  if (study.gauge != hand.first) return false;
  if (study.person) return *study.person == hand.second;
  return so_far == nullptr || !so_far->person;
}

std::vector<UsedStudy> use_studies(SizeSet& set, const std::vector<Kept<StudiedGauge>>& studies, const std::map<std::string, KnownGauge>& gauges,
                                   const ReadWith& with, Problems& problems) {
  StudyUser user(set, gauges, problems);
  for (const Kept<StudiedGauge>& each : studies) user.know(each.value);
  for (Size& size : set.sizes) {
    if (const auto hand = hand_of(size, with)) user.use(size, *hand);
  }
  return user.used();
}

}  // namespace fettle
