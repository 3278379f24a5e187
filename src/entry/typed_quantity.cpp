#include "entry/typed_quantity.h"

#include <algorithm>

#include "base/document.h"
#include "entry/characters.h"
#include "entry/figure_unit.h"
#include "entry/needle_words.h"
#include "entry/typed_number.h"
#include "entry/typed_unit.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestText = 64;
constexpr std::int64_t kLongestGroupedMillimetres = 3000;  // no hand gauge reads more
constexpr std::int64_t kMostGroupedDivisions = 1000;
constexpr std::int64_t kLargestMillimetres = 10'000;

NeedleSide other(NeedleSide side) {
  return side == NeedleSide::clockwise ? NeedleSide::anticlockwise : NeedleSide::clockwise;
}

std::string with_mark(std::string digits, DecimalMark mark) {
  if (mark == DecimalMark::comma) std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

bool is_dial_dimension(Dimension dimension) { return dimension == Dimension::length || dimension == Dimension::divisions; }

class QuantityReader {
 public:
  QuantityReader(std::string_view text, const TypingContext& context, const Place& place)
      : text_(text), context_(context), place_(place) {}

  Result<TypedQuantity> read() {
    if (!is_readable()) return std::move(problems_);
    const TakenSide taken = take_needle_side(points_, from_, to_);
    if (taken.conflict) add("entry.two_sides", from_);
    const auto number = read_number_part();
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

  void add(std::vector<TextFault> faults) {
    for (TextFault& fault : faults) add(std::move(fault.code), fault.at, std::move(fault.arguments));
  }

  /// What may be shown back: text that is no UTF-8 or holds characters that nobody sees would break the message.
  [[nodiscard]] std::string shown_text() const {
    if (!is_utf8(text_)) return "?";
    const auto points = code_points(text_);
    std::vector<char32_t> shown;
    for (std::size_t i = 0; i < points.size() && i < kLongestText; ++i) shown.push_back(is_unseen(points[i]) ? U'?' : points[i]);
    return utf8(shown, 0, shown.size());
  }

  bool is_readable() {
    if (!is_utf8(text_)) {
      // The check of UTF-8 refuses the zero byte too, but to a person it is one more character that nobody sees.
      const auto zero = text_.find('\0');
      const bool only_zero = zero != std::string_view::npos && is_utf8(text_.substr(0, zero));
      add(only_zero ? "entry.control_character" : "entry.not_utf8", only_zero ? code_points(text_.substr(0, zero)).size() : 0);
      return false;
    }
    for (char32_t point : code_points(text_)) points_.push_back(plain_form(point));
    if (points_.size() > kLongestText) {
      add("entry.too_long", kLongestText, {count("most", static_cast<std::int64_t>(kLongestText))});
      return false;
    }
    if (const auto unseen = std::find_if(points_.begin(), points_.end(), is_unseen); unseen != points_.end()) {
      add("entry.control_character", static_cast<std::size_t>(unseen - points_.begin()));
      return false;
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

  std::optional<TypedNumber> read_number_part() {
    figure_unit_ = find_figure_unit(points_, from_, to_);
    if (figure_unit_ && !figure_unit_->has_times_sign) {
      const std::string unit = utf8(points_, figure_unit_->start, to_);
      add("entry.ambiguous_unit", figure_unit_->start,
          {verbatim("unit", unit), verbatim("times", utf8(points_, from_, figure_unit_->number_end) + " × " + unit)});
      return std::nullopt;
    }
    const std::size_t end = figure_unit_ ? figure_unit_->number_end : to_;
    const std::vector<char32_t> points(points_.begin(), points_.begin() + static_cast<std::ptrdiff_t>(end));
    std::vector<TextFault> faults;
    auto number = read_number(points, from_, faults);
    add(std::move(faults));
    return number;
  }

  const Unit* find_typed_unit(const TypedNumber& number, bool with_side) {
    unit_at_ = number.end;
    while (unit_at_ < to_ && points_[unit_at_] == U' ') ++unit_at_;
    if (unit_at_ == to_) return unit_from_context(with_side);
    std::vector<TextFault> faults;
    const bool figure = figure_unit_ && number.end == figure_unit_->number_end;
    const Unit* unit = figure ? figure_unit_->unit : read_unit(unit_spelling(), unit_at_, context_, faults);
    add(std::move(faults));
    if (unit == nullptr) return nullptr;
    const bool length_on_dial = context_.on_a_dial && context_.unit == UnitId::division && unit->dimension == Dimension::length;
    if (context_.unit && *context_.unit != unit->id && !length_on_dial) {
      add("entry.two_units", unit_at_,
          {verbatim("typed", std::string(unit->symbol)), verbatim("stated", std::string(unit_definition(*context_.unit).symbol))});
    }
    return unit;
  }

  /// As typed, with every run of blanks as one.
  [[nodiscard]] std::string unit_spelling() const {
    std::vector<char32_t> out;
    for (std::size_t i = unit_at_; i < to_; ++i) {
      if (points_[i] != U' ' || points_[i - 1] != U' ') out.push_back(points_[i]);
    }
    return utf8(out, 0, out.size());
  }

  const Unit* unit_from_context(bool with_side) {
    unit_at_ = from_;
    if (context_.unit) return &unit_definition(*context_.unit);
    if (with_side || context_.dimension == Dimension::divisions) return &unit_definition(UnitId::division);
    add("entry.no_unit", to_);
    return nullptr;
  }

  /// A mark that could group thousands: the job settles it, or the unit, or it is refused with both meanings.
  Ratio settle_mark(const TypedNumber& number, const Unit& unit) {
    if (!number.grouped) return number.magnitude;
    const Ratio small = number.negative ? -number.magnitude : number.magnitude;
    const std::string whole = (number.negative ? -*number.grouped : *number.grouped).decimal(0);
    if (context_.decimal_mark) {
      if (*context_.decimal_mark != number.mark) {
        add("entry.thousands_by_mark", number.mark_at,
            {verbatim("decimal", with_mark(small.decimal(3), *context_.decimal_mark)), verbatim("whole", whole)});
      }
      return number.magnitude;
    }
    if (grouping_is_impossible(*number.grouped, unit)) return number.magnitude;
    const std::string symbol(unit.symbol);
    add("entry.ambiguous", number.mark_at,
        {decimal("small", small.decimal(3), symbol), decimal("large", whole, symbol),
         verbatim("clear", with_mark(small.decimal(4), number.mark)), verbatim("whole", whole)});
    return number.magnitude;
  }

  static bool grouping_is_impossible(const Ratio& grouped, const Unit& unit) {
    if (unit.dimension == Dimension::length) {
      return grouped * unit.factor > Ratio(kLongestGroupedMillimetres * Length::kCountsPerMillimetre);
    }
    return unit.dimension == Dimension::divisions && grouped > Ratio(kMostGroupedDivisions);
  }

  [[nodiscard]] bool is_on_dial(const Unit& unit, bool with_side) const {
    if (unit.dimension == Dimension::divisions) return true;
    return unit.dimension == Dimension::length && (context_.on_a_dial || with_side);
  }

  void check_dimension(const Unit& unit, bool with_side) {
    const bool measured_directly = context_.dimension == Dimension::length && !context_.on_a_dial;
    if (with_side && (!is_dial_dimension(unit.dimension) || measured_directly)) add("entry.side_not_wanted", from_);
    const bool on_its_dial = context_.on_a_dial && is_dial_dimension(unit.dimension);
    if (context_.dimension && *context_.dimension != unit.dimension && !on_its_dial) {
      add("entry.wrong_dimension", unit_at_,
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
  std::optional<FigureUnit> figure_unit_;
  std::size_t unit_at_ = 0;
  Problems problems_;
};

}  // namespace

Place first_line(std::initializer_list<const std::optional<TypedQuantity>*> typed) {
  for (const auto* each : typed) {
    if (*each) return {(*each)->place.file, (*each)->place.line, std::nullopt};
  }
  return {};
}

Result<TypedQuantity> read_quantity(std::string_view text, const TypingContext& context, const Place& place) {
  return QuantityReader(text, context, place).read();
}

}  // namespace fettle
