#include "entry/typed_quantity.h"

#include <algorithm>

#include "base/document.h"
#include "entry/characters.h"
#include "entry/needle_words.h"
#include "entry/spell.h"
#include "entry/typed_number.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestText = 64;
constexpr std::int64_t kLongestGroupedMillimetres = 3000;  // no hand gauge reads more
constexpr std::int64_t kMostGroupedDivisions = 1000;
constexpr std::int64_t kLargestMillimetres = 10'000;

NeedleSide other(NeedleSide side) {
  return side == NeedleSide::clockwise ? NeedleSide::anticlockwise : NeedleSide::clockwise;
}

class QuantityReader {
 public:
  QuantityReader(std::string_view text, const TypingContext& context, const Place& place)
      : text_(text), context_(context), place_(place) {}

  Result<TypedQuantity> read() {
    if (!is_readable()) return std::move(problems_);
    const TakenSide taken = take_needle_side(points_, from_, to_);
    std::vector<NumberFault> faults;
    std::vector<char32_t> shortened(points_.begin(), points_.begin() + static_cast<std::ptrdiff_t>(to_));
    const auto number = read_number(shortened, from_, faults);
    for (const NumberFault& fault : faults) add(fault.code, fault.at);
    if (taken.conflict) add("entry.two_sides", from_);
    if (!number) return std::move(problems_);
    const Unit* unit = find_typed_unit(*number, taken.side.has_value());
    if (unit == nullptr) return std::move(problems_);
    const Ratio magnitude = settle_mark(*number, *unit);
    check_dimension(*unit, taken.side.has_value());
    TypedQuantity out{std::string(text_), {number->negative ? -magnitude : magnitude, unit->id}, number->decimals, {}, place_};
    if (is_on_dial(*unit, taken.side.has_value())) place_needle(*number, magnitude, taken.side, out);
    check_length(out.quantity);
    if (!problems_.empty()) return std::move(problems_);
    return out;
  }

 private:
  void add(std::string code, std::size_t at, std::vector<Argument> arguments = {}) {
    Place place = place_;
    if (place.column) *place.column += static_cast<int>(at);
    arguments.insert(arguments.begin(), verbatim("text", shown_text()));
    problems_.push_back({std::move(code), std::move(place), std::move(arguments)});
  }

  /// What may be shown back: text that is no UTF-8 or holds control characters would break the message.
  [[nodiscard]] std::string shown_text() const {
    if (!is_utf8(text_)) return "?";
    const auto points = code_points(text_);
    std::vector<char32_t> shown;
    for (std::size_t i = 0; i < points.size() && i < kLongestText; ++i) shown.push_back(points[i] < 0x20 || points[i] == 0x7F ? U'?' : points[i]);
    return utf8(shown, 0, shown.size());
  }

  bool is_readable() {
    if (!is_utf8(text_) && !text_.empty()) {
      add("entry.not_utf8", 0);
      return false;
    }
    for (char32_t point : code_points(text_)) points_.push_back(plain_form(point));
    if (points_.size() > kLongestText) {
      add("entry.too_long", 0, {count("most", static_cast<std::int64_t>(kLongestText))});
      return false;
    }
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (points_[i] < 0x20 || points_[i] == 0x7F) {
        add("entry.control_character", i);
        return false;
      }
    }
    to_ = points_.size();
    while (from_ < to_ && points_[from_] == U' ') ++from_;
    while (to_ > from_ && points_[to_ - 1] == U' ') --to_;
    if (from_ == to_) {
      add("entry.empty", 0);
      return false;
    }
    return true;
  }

  const Unit* find_typed_unit(const TypedNumber& number, bool with_side) {
    std::size_t start = number.end;
    while (start < to_ && points_[start] == U' ') ++start;
    const std::string spelling = utf8(points_, start, to_);
    if (spelling.empty()) return unit_from_context(with_side);
    if (const Unit* by_trade = trade_word(spelling, start)) return by_trade;
    if (!problems_.empty() && problems_.back().code.starts_with("entry.trade")) return nullptr;
    const Unit* unit = find_unit(spelling);
    if (unit == nullptr) {
      unknown_unit(spelling, start);
      return nullptr;
    }
    const bool own_dial_unit = context_.on_a_dial && context_.unit == UnitId::division;
    if (context_.unit && *context_.unit != unit->id && !own_dial_unit) {
      add("entry.two_units", start,
          {verbatim("typed", std::string(unit->symbol)), verbatim("stated", std::string(unit_definition(*context_.unit).symbol))});
    }
    return unit;
  }

  const Unit* unit_from_context(bool with_side) {
    if (context_.unit) return &unit_definition(*context_.unit);
    if (with_side || context_.dimension == Dimension::divisions) return &unit_definition(UnitId::division);
    add("entry.no_unit", to_);
    return nullptr;
  }

  /// Words that mean different lengths in different shops. Refused unless the job says which is meant.
  const Unit* trade_word(const std::string& spelling, std::size_t at) {
    const std::string word = ascii_lower(spelling);
    const bool tenths = word == "tenth" || word == "tenths" || word == "zehntel";
    const bool hundredths = word == "hundredth" || word == "hundredths" || word == "hundertstel";
    if (word == "mil" || word == "mils") {
      add("entry.trade_mil", at);
      return nullptr;
    }
    if (!tenths && !hundredths) return nullptr;
    if (context_.trade_words == TradeWords::metric) return &unit_definition(tenths ? UnitId::tenth_mm : UnitId::hundredth_mm);
    if (context_.trade_words == TradeWords::inch && tenths) return &unit_definition(UnitId::inch_tenth);
    add(tenths ? "entry.trade_tenths" : "entry.trade_hundredths", at, {verbatim("word", spelling)});
    return nullptr;
  }

  void unknown_unit(const std::string& spelling, std::size_t at) {
    std::vector<std::string> known;
    for (const Unit& unit : all_units()) {
      known.emplace_back(unit.symbol);
      for (auto each : unit.spellings) known.emplace_back(each);
    }
    if (const auto near = nearest_word(spelling, known)) {
      add("entry.unknown_unit_near", at, {verbatim("unit", spelling), verbatim("near", *near)});
    } else {
      add("entry.unknown_unit", at, {verbatim("unit", spelling)});
    }
  }

  /// A mark that could group thousands: the job settles it, or the unit, or it is refused with both meanings.
  Ratio settle_mark(const TypedNumber& number, const Unit& unit) {
    if (!number.grouped) return number.magnitude;
    if (context_.decimal_mark) {
      if (*context_.decimal_mark != number.mark) add("entry.thousands", from_);
      return number.magnitude;
    }
    if (grouping_is_impossible(*number.grouped, unit)) return number.magnitude;
    add("entry.ambiguous", from_,
        {decimal("small", number.magnitude.decimal(3), std::string(unit.symbol)),
         decimal("large", number.grouped->decimal(0), std::string(unit.symbol)),
         verbatim("clear", utf8(points_, from_, number.end) + "0")});
    return number.magnitude;
  }

  static bool grouping_is_impossible(const Ratio& grouped, const Unit& unit) {
    if (unit.dimension == Dimension::length) {
      return grouped * unit.factor > Ratio(kLongestGroupedMillimetres * Length::kCountsPerMillimetre);
    }
    return unit.dimension == Dimension::divisions && grouped >= Ratio(kMostGroupedDivisions);
  }

  [[nodiscard]] bool is_on_dial(const Unit& unit, bool with_side) const {
    const bool dial_unit = unit.dimension == Dimension::divisions || unit.dimension == Dimension::length;
    return unit.dimension == Dimension::divisions || (dial_unit && (context_.on_a_dial || with_side));
  }

  void check_dimension(const Unit& unit, bool with_side) {
    const bool dial_unit = unit.dimension == Dimension::divisions || unit.dimension == Dimension::length;
    if (with_side && !dial_unit) add("entry.side_not_wanted", from_);
    if (with_side && dial_unit && context_.dimension == Dimension::length && !context_.on_a_dial) {
      add("entry.side_not_wanted", from_);
    }
    if (context_.on_a_dial && dial_unit) return;
    if (context_.dimension && *context_.dimension != unit.dimension) {
      add("entry.wrong_dimension", from_,
          {word("wanted", "dimension." + std::string(dimension_name(*context_.dimension))),
           word("got", "dimension." + std::string(dimension_name(unit.dimension)))});
    }
  }

  /// On a dial a value is its distance from zero and a side; clockwise counts positive.
  void place_needle(const TypedNumber& number, const Ratio& magnitude, std::optional<NeedleSide> side, TypedQuantity& out) {
    if (side && number.has_sign) {
      add("entry.sign_and_side", from_);
      return;
    }
    if (magnitude.sign() == 0) {
      out.quantity.value = Ratio();
      return;
    }
    if (!side && context_.plus_means) side = number.negative ? other(*context_.plus_means) : *context_.plus_means;
    if (!side) {
      add("entry.no_side", from_);
      return;
    }
    out.side = side;
    out.quantity.value = *side == NeedleSide::clockwise ? magnitude : -magnitude;
  }

  void check_length(const Quantity& quantity) {
    if (quantity.dimension() != Dimension::length) return;
    const Ratio counts = quantity.in_base();
    if (absolute(counts) > Ratio(kLargestMillimetres * Length::kCountsPerMillimetre)) {
      add("entry.too_large", from_);
      return;
    }
    if (counts.is_whole()) return;
    // The two neighbours that are whole counts, in mm, where every count has a finite text.
    Int128 floor = counts.numerator() / counts.denominator();
    if (counts.sign() < 0) --floor;
    add("entry.not_whole", from_,
        {decimal("below", in_unit(Ratio(floor), UnitId::millimetre, 7), "mm"),
         decimal("above", in_unit(Ratio(floor + 1), UnitId::millimetre, 7), "mm")});
  }

  std::string_view text_;
  const TypingContext& context_;
  const Place& place_;
  std::vector<char32_t> points_;
  std::size_t from_ = 0;
  std::size_t to_ = 0;
  Problems problems_;
};

}  // namespace

Result<TypedQuantity> read_quantity(std::string_view text, const TypingContext& context, const Place& place) {
  return QuantityReader(text, context, place).read();
}

}  // namespace fettle
