#include "simulate/planted.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "simulate/hand.h"

namespace fettle {
namespace {

constexpr std::uint64_t kPartOfDraws = 100;  // of engine_generator: 0 and 1 are truth and hand
constexpr double kThimbleTurnUm = 500.0;

/// Divisions clockwise as a person writes them.
std::string written(const Ratio& clockwise) {
  const Ratio figure = absolute(clockwise);
  return figure.decimal(figure.is_whole() ? 0 : 1) + (clockwise.sign() == 0 ? "" : clockwise.sign() > 0 ? " cw" : " acw");
}

TypedQuantity on_the_dial(const std::string& text) {
  return typed_back(text, {UnitId::division, std::nullopt, DecimalMark::point, std::nullopt, true, std::nullopt});
}

class Planter {
 public:
  Planter(SimulatedEngine& engine, const EngineFamily& family, PlantedKind kind)
      : engine_(engine), family_(family), kind_(kind),
        generator_(engine_generator(family, engine.seed, engine.number, kPartOfDraws + static_cast<std::uint64_t>(kind))) {
    const Gauge& gauge = engine.job.gauges.front().value;
    division_um_ = exact_length(*gauge.division)->millimetres() * 1000.0;
    turn_ = exact_length(*gauge.turn)->ratio() / exact_length(*gauge.division)->ratio();
  }

  std::optional<Planted> run() {
    switch (kind_) {
      case PlantedKind::axes: return exchange(true);
      case PlantedKind::heights: return exchange(false);
      case PlantedKind::off_15: case PlantedKind::off_25: case PlantedKind::off_40: case PlantedKind::off_60:
      case PlantedKind::thimble_turn: case PlantedKind::dial_turn: case PlantedKind::needle_side: case PlantedKind::digits:
        return one();
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] const Ratio& clockwise(std::size_t k) const { return engine_.job.readings[k].value.quantity.quantity.value; }

  [[nodiscard]] Ratio moved(std::size_t k, double um) const { return clockwise(k) + Ratio(std::lround(um / division_um_)); }

  /// What is written in its place; nothing where that is the same.
  std::optional<Ratio> spoiled(std::size_t k, double way) const {
    const Ratio was = clockwise(k);
    Ratio now = was;
    switch (kind_) {
      case PlantedKind::off_15: now = moved(k, way * 15.0); break;
      case PlantedKind::off_25: now = moved(k, way * 25.0); break;
      case PlantedKind::off_40: now = moved(k, way * 40.0); break;
      case PlantedKind::off_60: now = moved(k, way * 60.0); break;
      case PlantedKind::thimble_turn: now = moved(k, way * kThimbleTurnUm); break;
      case PlantedKind::dial_turn: now = was + (way > 0.0 ? turn_ : -turn_); break;
      case PlantedKind::needle_side: now = -was; break;
      case PlantedKind::digits: return digits(was);
      case PlantedKind::axes: case PlantedKind::heights: break;
    }
    return now == was ? std::nullopt : std::optional(now);
  }

  /// The last two digits exchanged.
  static std::optional<Ratio> digits(const Ratio& was) {
    const auto figure = static_cast<std::int64_t>(absolute(was).to_double());
    const std::int64_t tens = figure / 10 % 10;
    const std::int64_t ones = figure % 10;
    if (!was.is_whole() || figure < 10 || tens == ones) return std::nullopt;
    const Ratio now(figure - figure % 100 + ones * 10 + tens);
    return was.sign() < 0 ? -now : now;
  }

  std::optional<Planted> one() {
    const double way = generator_.uniform() < 0.5 ? 1.0 : -1.0;
    std::vector<std::pair<std::size_t, Ratio>> possible;
    for (std::size_t k = 0; k < engine_.job.readings.size(); ++k) {
      if (const auto now = spoiled(k, way)) possible.emplace_back(k, *now);
    }
    if (possible.empty()) return std::nullopt;
    const auto& [k, now] = possible[drawn(possible.size())];
    const double off = (now - clockwise(k)).to_double() * division_um_;
    engine_.job.readings[k].value.quantity = on_the_dial(written(now));
    return Planted{kind_, {k}, off};
  }

  [[nodiscard]] std::size_t drawn(std::size_t count) {
    return std::min(static_cast<std::size_t>(generator_.uniform() * static_cast<double>(count)), count - 1);
  }

  std::optional<Planted> exchange(bool axes) {
    const auto& readings = engine_.job.readings;
    std::vector<std::pair<std::size_t, std::size_t>> possible;
    for (std::size_t a = 0; a < readings.size(); ++a) {
      for (std::size_t b = a + 1; b < readings.size(); ++b) {
        const Reading& first = readings[a].value;
        const Reading& second = readings[b].value;
        const bool one_round = first.part == second.part && first.setting == second.setting && first.repeat == second.repeat;
        const bool pair = axes ? first.station == second.station && first.direction != second.direction
                               : first.station != second.station && first.direction == second.direction;
        if (one_round && pair && !(clockwise(a) == clockwise(b))) possible.emplace_back(a, b);
      }
    }
    if (possible.empty()) return std::nullopt;
    const auto [a, b] = possible[drawn(possible.size())];
    const double off = (clockwise(b) - clockwise(a)).to_double() * division_um_;
    std::swap(engine_.job.readings[a].value.quantity, engine_.job.readings[b].value.quantity);
    return Planted{kind_, {a, b}, off};
  }

  SimulatedEngine& engine_;
  const EngineFamily& family_;
  PlantedKind kind_;
  Generator generator_;
  double division_um_ = 1.0;
  Ratio turn_;
};

}  // namespace

std::optional<Planted> plant(SimulatedEngine& engine, const EngineFamily& family, PlantedKind kind) { return Planter(engine, family, kind).run(); }

}  // namespace fettle
