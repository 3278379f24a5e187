#include <limits>
#include <string_view>

#include "catalogue/figure.h"
#include "wire/event_json.h"
#include "wire/event_reader.h"
#include "wire/event_writer.h"

namespace fettle::json {
namespace {

/// Enough for every fraction that a person can type (18 digits, a fraction behind a whole), little enough that no
/// unit's factor takes it over the 127 bits of a Ratio.
constexpr std::size_t kMostQuantityDigits = 25;
/// Enough for an angle or a level that was reckoned from typed text; still inside a Ratio.
constexpr std::size_t kMostFractionDigits = 36;
constexpr std::int64_t kMostDecimals = 18;
/// What `entry` lets through; sums of such lengths stay far inside 64 bits.
constexpr std::int64_t kLargestMillimetres = 10'000;

void out_of_range(const Spot& spot, std::int64_t least, std::int64_t most) {
  spot.add("wire.out_of_range", {verbatim("least", std::to_string(least)), verbatim("most", std::to_string(most))});
}

/// A whole number as text: no plus, no leading zeros, no -0.
std::optional<Int128> whole_of(std::string_view text, std::size_t most_digits) {
  const bool negative = text.starts_with('-');
  const std::string_view digits = text.substr(negative ? 1 : 0);
  if (digits.empty() || digits.size() > most_digits) return std::nullopt;
  if (digits.front() == '0' && (digits.size() > 1 || negative)) return std::nullopt;
  Int128 value = 0;
  for (char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return negative ? -value : value;
}

/// Only a fraction in lowest terms with a positive denominator: one value, one spelling.
std::optional<Ratio> fraction_of(std::string_view numerator, std::string_view denominator, std::size_t most_digits) {
  const auto above = whole_of(numerator, most_digits);
  const auto below = whole_of(denominator, most_digits);
  if (!above || !below || *below <= 0) return std::nullopt;
  const Ratio value = Ratio::of(*above, *below);
  if (value.denominator() != *below) return std::nullopt;
  return value;
}

/// Millimetres with a point in them; the caller writes the length again to see that it was spelt in the one way.
std::optional<Length> length_of(const std::string& text) {
  constexpr std::size_t kLongest = 20;
  const auto value = text.size() > kLongest ? std::nullopt : read_figure(text);
  if (!value) return std::nullopt;
  const auto counts = (*value * Ratio(Length::kCountsPerMillimetre)).whole64();
  if (!counts) return std::nullopt;
  return Length::counts(*counts);
}

bool too_long(const Length& length) {
  const std::int64_t most = kLargestMillimetres * Length::kCountsPerMillimetre;
  return length.counts() > most || length.counts() < -most;
}

/// The keys of a typed quantity as they come in, before they are looked at together.
struct TypedKeys {
  std::string text;
  std::string dimension;
  UnitId unit;
  std::string numerator;
  std::string denominator;
  std::int64_t decimals;
  std::optional<NeedleSide> needle;
  std::optional<std::string> mm;
};

template <class Walk>
void describe(Walk& walk, TypedKeys& keys) {
  walk("text", keys.text);
  walk("dimension", keys.dimension);
  walk("unit", keys.unit);
  walk("numerator", keys.numerator);
  walk("denominator", keys.denominator);
  walk("decimals", keys.decimals);
  walk("needle", keys.needle);
  walk("mm", keys.mm);
}

/// The needle's side and the sign say the same.
bool side_fits(const TypedQuantity& read) {
  if (!read.side || read.quantity.value.sign() == 0) return true;
  switch (*read.side) {
    case NeedleSide::clockwise:
      return read.quantity.value.sign() > 0;
    case NeedleSide::anticlockwise:
      return read.quantity.value.sign() < 0;
  }
  return false;
}

/// What the keys say together. A length is a whole count of 0.1 nm; `dimension` and `mm` are there for other readers of
/// the log and must agree with the exact value.
void check_together(const Read& node, const TypedQuantity& read, const Spot& spot) {
  if (read.quantity.dimension() == Dimension::length) {
    const auto exact = exact_length(read.quantity);
    if (!exact) return spot.add("wire.not_exact");
    if (too_long(*exact)) return out_of_range(spot.inside("mm"), -kLargestMillimetres, kLargestMillimetres);
  }
  if (!side_fits(read) || Read(typed(read)) != node) spot.add("wire.disagrees");
}

}  // namespace

void read_value(const Read& node, const Spot& spot, std::string& out) {
  if (!node.is_string()) return spot.wrong_kind("wire.a_text");
  out = node.get<std::string>();
}

void read_value(const Read& node, const Spot& spot, bool& out) {
  if (!node.is_boolean()) return spot.wrong_kind("wire.a_truth");
  out = node.get<bool>();
}

void read_value(const Read& node, const Spot& spot, std::int64_t& out) {
  if (!node.is_number_integer()) return spot.wrong_kind("wire.a_whole");
  const bool huge = node.is_number_unsigned() && node.get<std::uint64_t>() > static_cast<std::uint64_t>(kLargestWhole);
  const std::int64_t value = huge ? kLargestWhole : node.get<std::int64_t>();
  if (huge || value < -kLargestWhole) return out_of_range(spot, -kLargestWhole, kLargestWhole);
  out = value;
}

void read_value(const Read& node, const Spot& spot, int& out) {
  constexpr int kMost = std::numeric_limits<int>::max();
  std::int64_t value = out;
  read_value(node, spot, value);
  if (value > kMost || value < -kMost) return out_of_range(spot, -kMost, kMost);
  out = static_cast<int>(value);
}

void read_value(const Read& node, const Spot& spot, Ratio& out) {
  const std::size_t before = spot.problems.size();
  std::string numerator;
  std::string denominator;
  EventReader reader(node, spot);
  reader("numerator", numerator);
  reader("denominator", denominator);
  reader.finish();
  if (spot.problems.size() > before) return;
  const auto value = fraction_of(numerator, denominator, kMostFractionDigits);
  if (!value) return spot.add("wire.not_exact");
  out = *value;
}

void read_value(const Read& node, const Spot& spot, Length& out) {
  const std::size_t before = spot.problems.size();
  std::string value;
  UnitId unit = UnitId::millimetre;
  EventReader reader(node, spot);
  reader("value", value);
  reader("unit", unit);
  reader.finish();
  if (spot.problems.size() > before) return;
  const auto length = length_of(value);
  if (!length || Read(exact(*length)) != node) return spot.add("wire.not_exact");
  if (too_long(*length)) return out_of_range(spot, -kLargestMillimetres, kLargestMillimetres);
  out = *length;
}

void read_value(const Read& node, const Spot& spot, UnitId& out) {
  std::string text;
  const std::size_t before = spot.problems.size();
  read_value(node, spot, text);
  if (spot.problems.size() > before) return;
  std::string known;
  for (const Unit& unit : all_units()) {
    if (unit.symbol == text) {
      out = unit.id;
      return;
    }
    known += (known.empty() ? "" : ", ") + std::string(unit.symbol);
  }
  spot.add("wire.unknown_word", {verbatim("word", text), verbatim("known", known)});
}

void read_value(const Read& node, const Spot& spot, TypedQuantity& out) {
  const std::size_t before = spot.problems.size();
  TypedKeys keys{};
  EventReader reader(node, spot);
  describe(reader, keys);
  reader.finish();
  if (spot.problems.size() > before) return;
  const auto value = fraction_of(keys.numerator, keys.denominator, kMostQuantityDigits);
  if (!value) return spot.add("wire.not_exact");
  if (keys.decimals < 0 || keys.decimals > kMostDecimals)
    return out_of_range(spot.inside("decimals"), 0, kMostDecimals);
  const TypedQuantity read{keys.text, {*value, keys.unit}, static_cast<int>(keys.decimals), keys.needle, {}};
  check_together(node, read, spot);
  if (spot.problems.size() == before) out = read;
}

}  // namespace fettle::json
