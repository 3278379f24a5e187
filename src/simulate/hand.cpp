#include "simulate/hand.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "simulate/span_reader.h"

namespace fettle {
namespace {

constexpr std::string_view kDialInside = "dial-bore-gauge-0-001-mm";
constexpr std::string_view kDialOutside = "dial-snap-gauge-0-001-mm";
constexpr const char* kGauge = "gauge";
constexpr const char* kMaster = "mic";
constexpr std::int64_t kDivisionsPerTurn = 100;
constexpr double kThermometerHalfWidthCelsius = 0.5;  ///< as in gauging/sizes.cpp

TypingContext of_dimension(Dimension dimension) {
  return {std::nullopt, dimension, DecimalMark::point, std::nullopt, false, std::nullopt};
}

TypingContext on_dial() {
  return {UnitId::division, std::nullopt, DecimalMark::point, std::nullopt, true, std::nullopt};
}

/// The same figure that job.toml would hold, to a thousandth of a µm.
ErrorComponent stated(const char* id, ErrorScope scope, double sd_um) {
  const Ratio figure = Ratio::of(static_cast<Int128>(std::floor(sd_um * 1000.0 + 0.5)), 1000);
  std::string text = figure.decimal(3);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return {id,
          scope,
          ErrorShape::normal,
          {figure, UnitId::micrometre},
          text + " µm",
          std::nullopt,
          ComponentUse::always,
          std::nullopt,
          Mark::common_practice,
          "stated in the job"};
}

/// One round of readings under one setting, as it goes.
class Round {
 public:
  Round(const Hand& hand, const EngineFamily& family, std::size_t number, double common_um, std::size_t readings, Generator& generator)
      : hand_(hand), family_(family), id_(std::to_string(number)), readings_(readings), generator_(generator) {
    common_um_ = common_um + family.untold_slip_um + hand.setting_sd_um * generator.normal();
    const double celsius = hand.temperature_sd_celsius > 0.0 ? hand.temperature_sd_celsius * generator.normal()
                                                             : kThermometerHalfWidthCelsius * generator.rectangular();
    const Kind* kind = catalogue().kind(family.kind);
    growth_ = celsius * catalogue().material(kind->material)->expansion_per_celsius.to_double();
    if (hand.drift_sd_um > 0.0) draw_drift();
  }

  void read(const EngineTruth& truth, HandWork& out) {
    for (std::size_t part = 0; part < family_.parts; ++part) {
      for (std::size_t s = 0; s < family_.layout.stations.size(); ++s) {
        if (contains(family_.unread_stations, s)) continue;
        for (std::size_t d = 0; d < family_.layout.directions.size(); ++d) {
          if (contains(family_.unread_directions, d)) continue;
          const double size_mm = truth.sizes_mm[part][family_.layout.cell(s, d)];
          for (std::size_t repeat = 1; repeat <= hand_.repeats; ++repeat) {
            out.readings.push_back(read_place(part, s, d, size_mm, repeat));
          }
        }
      }
    }
  }

  void read(const EngineTruth& truth, const std::vector<PlaceAgain>& places, HandWork& out) {
    const std::size_t directions = family_.layout.directions.size();
    for (const PlaceAgain& place : places) {
      for (std::size_t time = 1; time <= place.times; ++time) {
        const double size_mm = truth.sizes_mm[place.part][place.cell];
        out.readings.push_back(read_place(place.part, place.cell / directions, place.cell % directions, size_mm, time));
        if (place.times > 1) out.readings.back().repeat = static_cast<std::int64_t>(time);
      }
    }
  }

  Setting setting() {
    const TypedQuantity size = typed_length(family_.standard, 3);
    Setting out{};
    out.id = "set-" + id_;
    out.gauge = kGauge;
    out.master = kMaster;
    out.wanted = size;
    out.set = size;
    if (hand_.drift_sd_um > 0.0) {
      out.opening_zero = typed_back("0", on_dial());
      out.closing_zero = typed_back(shown(end_um_ + hand_.repeat_sd_um * generator_.normal()), on_dial());
    }
    if (hand_.temperature_sd_celsius == 0.0) {
      out.master_temperature = typed_back("20 °C", of_dimension(Dimension::temperature));
      out.part_temperature = out.master_temperature;
    }
    return out;
  }

 private:
  static bool contains(const std::vector<std::size_t>& list, std::size_t item) {
    return std::find(list.begin(), list.end(), item) != list.end();
  }

  void draw_drift() {
    end_um_ = hand_.drift_sd_um * generator_.normal();
    const double place = generator_.uniform();
    if (generator_.uniform() < 0.5) knock_after_ = static_cast<std::size_t>(place * static_cast<double>(readings_));
  }

  /// How far the zero has moved at the k-th reading.
  [[nodiscard]] double moved_um(std::size_t k) const {
    if (knock_after_) return k > *knock_after_ ? end_um_ : 0.0;
    return end_um_ * static_cast<double>(k) / static_cast<double>(readings_);
  }

  /// A deviation from the master as the dial shows it. The contact pressed in turns the needle clockwise, so a larger
  /// bore is anticlockwise, a larger shaft clockwise.
  [[nodiscard]] std::string shown(double deviation_um) const {
    const double step_um = static_cast<double>(hand_.division.counts()) / kCountsPerMicrometre;
    const auto divisions = static_cast<std::int64_t>(wear_sign(family_) * std::floor(deviation_um / step_um + 0.5));
    if (divisions == 0) return "0";
    return std::to_string(divisions < 0 ? -divisions : divisions) + (divisions > 0 ? " acw" : " cw");
  }

  Reading read_place(std::size_t part, std::size_t station, std::size_t direction, double size_mm, std::size_t repeat) {
    ++taken_;
    const double true_um = (size_mm - family_.standard.millimetres()) * 1000.0 + size_mm * growth_ * 1000.0;
    const double seen_um = true_um + common_um_ + moved_um(taken_) + hand_.repeat_sd_um * generator_.normal();
    Reading out{part_id(family_, part),
                family_.layout.stations[station].id,
                family_.layout.directions[direction].id,
                typed_back(shown(seen_um), on_dial()),
                "set-" + id_,
                id_,
                static_cast<std::int64_t>(taken_),
                std::nullopt,
                std::nullopt,
                ReadingFlag::none,
                "",
                std::nullopt};
    if (hand_.repeats > 1) out.repeat = static_cast<std::int64_t>(repeat);
    return out;
  }

  const Hand& hand_;
  const EngineFamily& family_;
  std::string id_;
  std::size_t readings_;  ///< that the round will have
  Generator& generator_;
  double common_um_ = 0.0;
  double growth_ = 0.0;  ///< of a part's diameter against the gauge, as a share
  double end_um_ = 0.0;
  std::optional<std::size_t> knock_after_;
  std::size_t taken_ = 0;
};

/// Of a round in which everything is read.
std::size_t readings_of_all(const Hand& hand, const EngineFamily& family) {
  const std::size_t stations = family.layout.stations.size() - family.unread_stations.size();
  const std::size_t directions = family.layout.directions.size() - family.unread_directions.size();
  return family.parts * stations * directions * hand.repeats;
}

/// The micrometer's own error, drawn first of all.
double master_error_um(const Hand& hand, Generator& generator) { return hand.master_sd_um * generator.normal(); }

constexpr std::uint64_t kReadingStream = 1;  ///< of engine_generator; the truth has another

}  // namespace

std::string part_id(const EngineFamily& family, std::size_t part) {
  return (family.kind == kSimulatedKind ? "bore-" : family.kind + "-") + std::to_string(part + 1);
}

TypedQuantity typed_back(const std::string& text, const TypingContext& context) {
  Result<TypedQuantity> read = read_quantity(text, context, {});
  FETTLE_ASSERT(read.ok(), text);
  return std::move(read).value();
}

TypedQuantity typed_length(Length length, int decimals) {
  int needed = decimals;
  while (needed < 7 && !(length.ratio() * Ratio::power_of_ten(needed - 7)).is_whole()) ++needed;
  return typed_back(in_unit(length.ratio(), UnitId::millimetre, needed) + " mm", of_dimension(Dimension::length));
}

const GaugePreset* micrometer_for(Length size) {
  for (const GaugePreset& each : catalogue().gauge_presets) {
    const bool metric = each.division && each.division->unit == UnitId::millimetre;
    if (each.serves_as == MasterKind::micrometer && metric && each.range_from && each.range_to &&
        size >= *each.range_from && size <= *each.range_to) {
      return &each;
    }
  }
  return nullptr;
}

std::vector<Gauge> gauges_of(const Hand& hand, const EngineFamily& family) {
  const GaugePreset* micrometer = micrometer_for(family.standard);
  FETTLE_ASSERT(micrometer != nullptr, family.id);
  Gauge master{};
  master.id = kMaster;
  master.preset = micrometer->id;
  master.replaced = {stated("limit-of-error", ErrorScope::master, hand.master_sd_um),
                     stated("frame-flex", ErrorScope::master, 0.0)};
  Gauge gauge{};
  gauge.id = kGauge;
  gauge.preset = family.feature == Feature::outside ? kDialOutside : kDialInside;
  gauge.division = typed_length(hand.division, 3);
  gauge.turn = typed_length(Length::counts(kDivisionsPerTurn * hand.division.counts()), 1);
  gauge.pressed_in = NeedleSide::clockwise;
  gauge.replaced = {stated("dial", ErrorScope::reading, 0.0), stated("repeat", ErrorScope::reading, hand.repeat_sd_um),
                    stated("finding-zero", ErrorScope::setting, hand.setting_sd_um)};
  return {std::move(gauge), std::move(master)};
}

HandWork read_engine(const Hand& hand, const EngineFamily& family, const EngineTruth& truth, Generator& generator) {
  HandWork out;
  const double master_um = master_error_um(hand, generator);
  for (std::size_t number = 1; number <= hand.settings; ++number) {
    Round round(hand, family, number, master_um, readings_of_all(hand, family), generator);
    round.read(truth, out);
    out.settings.push_back(round.setting());
  }
  return out;
}

HandWork read_again(const Hand& hand, const EngineFamily& family, const EngineTruth& truth, std::uint64_t seed, std::uint64_t number,
                    std::size_t visit, const std::vector<PlaceAgain>& places) {
  Generator first = engine_generator(family, seed, number, kReadingStream);
  const double master_um = master_error_um(hand, first);
  Generator generator = engine_generator(family, seed, number, kReadingStream + visit);
  std::size_t readings = 0;
  for (const PlaceAgain& each : places) readings += each.times;
  HandWork out;
  Round round(hand, family, hand.settings + visit, master_um, readings, generator);
  round.read(truth, places, out);
  out.settings.push_back(round.setting());
  return out;
}

}  // namespace fettle
