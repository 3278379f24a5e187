#include "app/reading_slips.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kTurnMm = 0.5;
constexpr double kTurnInch = 0.635;  // .025 in
constexpr double kLineMm = 1.0;
constexpr double kLineInch = 2.54;   // .100 in

/// The text with two neighbouring digits exchanged, each way that makes another text.
std::vector<std::string> digits_exchanged(const std::string& text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  std::vector<std::string> out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::size_t next = i + 1;
    if (next < text.size() && (text[next] == '.' || text[next] == ',')) ++next;
    if (next >= text.size() || !is_digit(text[i]) || !is_digit(text[next]) || text[i] == text[next]) continue;
    out.push_back(text);
    std::swap(out.back()[i], out.back()[next]);
  }
  return out;
}

/// The shifts of one kind, by how much larger the size would be.
class Shifts {
 public:
  explicit Shifts(const ReadingOnGauge& reading) : reading_(reading), read_mm_(mm_of(reading.typed)) {}

  std::vector<double> of(const MistakeKind& kind) const {
    const bool inch = reading_.setting.gauge->own_unit == UnitId::inch;
    if (kind.id == "needle-side") return read_mm_ && *read_mm_ != 0.0 ? std::vector<double>{-2.0 * *read_mm_} : std::vector<double>{};
    if (kind.id == "dial-turn") return reading_.setting.gauge->turn ? both_ways(reading_.setting.gauge->turn->millimetres()) : std::vector<double>{};
    if (kind.id == "thimble-turn") return both_ways(inch ? kTurnInch : kTurnMm);
    if (kind.id == "thimble-line") return both_ways(inch ? kLineInch : kLineMm);
    if (kind.id == "decimal-mark") return by_factor(10.0);
    if (kind.id == "inch-for-millimetre") return by_factor(kMmPerInch);
    if (kind.id == "digits-exchanged") return of_digits();
    return {};
  }

 private:
  /// What the text adds to the size, mm: along the needle's way, or all of it.
  [[nodiscard]] std::optional<double> mm_of(const TypedQuantity& typed) const {
    if (is_on_a_dial(reading_.setting)) {
      const auto clockwise = clockwise_counts(typed, reading_.setting.gauge->division);
      if (!clockwise || reading_.setting.per_clockwise == 0) return std::nullopt;
      return reading_.setting.per_clockwise * clockwise->to_double() / static_cast<double>(Length::kCountsPerMillimetre);
    }
    const auto length = exact_length(typed);
    return length ? std::optional(length->millimetres()) : std::nullopt;
  }

  static std::vector<double> both_ways(double mm) { return {mm, -mm}; }

  [[nodiscard]] std::vector<double> by_factor(double factor) const {
    if (!read_mm_ || *read_mm_ == 0.0) return {};
    return {*read_mm_ * (factor - 1.0), *read_mm_ * (1.0 / factor - 1.0)};
  }

  [[nodiscard]] std::vector<double> of_digits() const {
    std::vector<double> out;
    if (!read_mm_) return out;
    for (const std::string& text : digits_exchanged(reading_.typed.text)) {
      const auto other = read_quantity(text, reading_.context, {});
      if (!other.ok()) continue;
      if (const auto mm = mm_of(other.value())) out.push_back(*mm - *read_mm_);
    }
    return out;
  }

  const ReadingOnGauge& reading_;
  std::optional<double> read_mm_;
};

bool can_happen(const MistakeKind& kind, const ReadingOnGauge& reading) {
  const bool dial = is_on_a_dial(reading.setting);
  const bool inside = reading.part.feature == Feature::inside;
  const std::size_t station = reading.cell / reading.part.layout.directions.size();
  switch (kind.where) {
    case MistakeWhere::any: return true;
    case MistakeWhere::dial: return dial;
    case MistakeWhere::thimble: return !dial;
    case MistakeWhere::dial_in_bore: return dial && inside;
    case MistakeWhere::thimble_outside: return !dial && reading.part.feature == Feature::outside;
    case MistakeWhere::first_of_bore:
      return inside && reading.part.wear.pattern == WearPattern::from_first && reading.part.layout.stations[station].role == StationRole::first;
    case MistakeWhere::bore_with_ports: return inside && reading.has_ports;
    case MistakeWhere::two_axes: return reading.part.layout.directions.size() > 1;
  }
  return false;
}

std::optional<Slip> slip_of(const MistakeKind& kind) {
  for (const Slip each : {Slip::needle_side, Slip::dial_turn, Slip::thimble_turn, Slip::thimble_line, Slip::digits_exchanged, Slip::decimal_mark}) {
    if (slip_name(each) == kind.id) return each;
  }
  return std::nullopt;
}

}  // namespace

bool is_on_a_dial(const KnownSetting& setting) { return setting.gauge->preset->action == GaugeAction::comparison; }

int toward_of(const MistakeKind& kind) {
  switch (kind.sense) {
    case MistakeSense::larger: return 1;
    case MistakeSense::smaller: return -1;
    case MistakeSense::both: return 0;
  }
  return 0;
}

std::vector<SupposedSize> supposed_sizes(const ReadingOnGauge& reading) {
  std::vector<SupposedSize> out;
  const Shifts shifts(reading);
  for (const MistakeKind& kind : mistake_kinds()) {
    if (kind.reach != MistakeReach::reading || !can_happen(kind, reading)) continue;
    switch (kind.amount) {
      case MistakeAmount::spread: out.push_back({&kind, kind.rate, std::nullopt}); break;
      case MistakeAmount::definite: {
        const std::vector<double> ways = shifts.of(kind);
        for (const double each : ways) out.push_back({&kind, kind.rate / static_cast<double>(ways.size()), each});
        break;
      }
    }
  }
  return out;
}

std::vector<Supposed> clear_slips(const std::vector<SupposedSize>& supposed, double size_mm, bool on_a_dial) {
  std::vector<Supposed> out;
  for (const SupposedSize& each : supposed) {
    const auto slip = slip_of(*each.kind);
    if (!slip || !each.shift_mm || (on_a_dial && *slip == Slip::decimal_mark)) continue;
    out.push_back({*slip, size_mm + *each.shift_mm});
  }
  return out;
}

}  // namespace fettle
