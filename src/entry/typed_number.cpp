#include "entry/typed_number.h"

#include <utility>

#include "entry/characters.h"

namespace fettle {
namespace {

constexpr std::size_t kMostDigits = 18;

bool is_mark(char32_t c) { return c == U'.' || c == U','; }
bool is_apostrophe(char32_t c) { return c == U'\'' || c == U'’'; }

std::optional<Ratio> vulgar_fraction(char32_t c) {
  switch (c) {
    case U'½': return Ratio::of(1, 2);
    case U'⅓': return Ratio::of(1, 3);
    case U'⅔': return Ratio::of(2, 3);
    case U'¼': return Ratio::of(1, 4);
    case U'¾': return Ratio::of(3, 4);
    case U'⅕': return Ratio::of(1, 5);
    case U'⅖': return Ratio::of(2, 5);
    case U'⅗': return Ratio::of(3, 5);
    case U'⅘': return Ratio::of(4, 5);
    case U'⅙': return Ratio::of(1, 6);
    case U'⅚': return Ratio::of(5, 6);
    case U'⅛': return Ratio::of(1, 8);
    case U'⅜': return Ratio::of(3, 8);
    case U'⅝': return Ratio::of(5, 8);
    case U'⅞': return Ratio::of(7, 8);
    default: return std::nullopt;
  }
}

Ratio value_of(const std::string& digits) {
  Int128 value = 0;
  for (char digit : digits) value = value * 10 + (digit - '0');
  return Ratio(value);
}

class NumberReader {
 public:
  NumberReader(const std::vector<char32_t>& points, std::size_t from, std::vector<TextFault>& faults)
      : points_(points), at_(from), start_(from), faults_(faults) {}

  std::optional<TypedNumber> read() {
    TypedNumber out{false, false, Ratio(), 0, 0, std::nullopt, DecimalMark::point, 0};
    if (here() == U'+' || here() == U'-') {
      out.has_sign = true;
      out.negative = here() == U'-';
      ++at_;
      skip_spaces();
    }
    if (!starts_number()) return refuse(word_ahead() ? "entry.not_a_number" : "entry.no_number", at_);
    if (const auto alone = vulgar_fraction(here())) {
      ++at_;
      out.magnitude = *alone;
      return finish(out);
    }
    if (!read_digits_and_marks()) return std::nullopt;
    if (here() == U'/') return read_plain_fraction(out);
    if (!place_mark(out)) return std::nullopt;
    if (!read_fraction_behind(out)) return std::nullopt;
    return finish(out);
  }

 private:
  [[nodiscard]] char32_t at(std::size_t index) const { return index < points_.size() ? points_[index] : U'\0'; }
  [[nodiscard]] char32_t here() const { return at(at_); }
  void skip_spaces() {
    while (here() == U' ') ++at_;
  }
  [[nodiscard]] bool starts_number() const {
    return is_digit(here()) || vulgar_fraction(here()) || (is_mark(here()) && is_digit(at(at_ + 1)));
  }
  /// "nan", "inf", "abc": a word where a number should stand.
  [[nodiscard]] bool word_ahead() const {
    const char32_t c = here() | 0x20U;
    return c >= U'a' && c <= U'z';
  }
  std::optional<TypedNumber> refuse(const char* code, std::size_t where) {
    faults_.push_back({code, where, {}});
    return std::nullopt;
  }

  /// The run of digits, marks and apostrophes.
  bool read_digits_and_marks() {
    if (here() == U'0' && (at(at_ + 1) | 0x20U) == U'x') return refuse("entry.not_a_number", at_).has_value();
    std::size_t digits = 0;
    while (is_digit(here()) || (is_mark(here()) && (is_digit(at(at_ + 1)) || !marks_.empty() || !text_.empty())) ||
           (is_apostrophe(here()) && is_digit(at(at_ + 1)) && !text_.empty())) {
      if (is_digit(here())) {
        text_ += static_cast<char>(here());
        ++digits;
      } else {
        marks_.push_back({at_, text_.size()});
      }
      ++at_;
    }
    if (digits > kMostDigits) return refuse("entry.too_many_digits", start_).has_value();
    return true;
  }

  /// Decides what the marks are: none, one decimal mark, or something to refuse.
  bool place_mark(TypedNumber& out) {
    if (marks_.empty()) {
      out.magnitude = value_of(text_);
      return true;
    }
    if (marks_.size() > 1) {
      return refuse(grouped_by_three() ? "entry.thousands" : "entry.two_marks", marks_[1].first).has_value();
    }
    const auto [where, before] = marks_.front();
    if (is_apostrophe(at(where))) return refuse("entry.thousands", where).has_value();
    const std::size_t behind = text_.size() - before;
    if (behind == 0) return refuse("entry.mark_at_end", where).has_value();
    out.mark_at = where;
    out.mark = at(where) == U'.' ? DecimalMark::point : DecimalMark::comma;
    out.decimals = static_cast<int>(behind);
    out.magnitude = value_of(text_) * Ratio::power_of_ten(-out.decimals);
    const bool could_group = behind == 3 && before >= 1 && before <= 3 && text_.front() != '0';
    if (could_group) out.grouped = value_of(text_);
    return true;
  }

  /// All marks but perhaps the last stand before groups of three.
  [[nodiscard]] bool grouped_by_three() const {
    for (std::size_t i = 0; i + 1 < marks_.size(); ++i) {
      if (marks_[i + 1].second - marks_[i].second != 3) return false;
    }
    return true;
  }

  /// "15/16": the run before the stroke is the numerator.
  std::optional<TypedNumber> read_plain_fraction(TypedNumber& out) {
    if (!marks_.empty()) return refuse("entry.decimal_and_fraction", at_);
    const auto denominator = read_denominator();
    if (!denominator) return std::nullopt;
    out.magnitude = value_of(text_) / *denominator;
    return finish(out);
  }

  std::optional<Ratio> read_denominator() {
    const std::size_t stroke = at_++;
    std::string digits;
    while (is_digit(here())) {
      digits += static_cast<char>(here());
      ++at_;
    }
    if (digits.empty() || digits.size() > 6) {
      faults_.push_back({"entry.no_number", stroke, {}});
      return std::nullopt;
    }
    if (value_of(digits).sign() == 0) {
      faults_.push_back({"entry.zero_denominator", stroke, {}});
      return std::nullopt;
    }
    return value_of(digits);
  }

  /// "2-1/32", "2 1/32", "5½", "5 ½": a fraction behind a whole. Any other figure behind a blank or a stroke is refused.
  bool read_fraction_behind(TypedNumber& out) {
    const std::size_t behind = here() == U' ' || here() == U'-' ? at_ + 1 : at_;
    if (const auto vulgar = vulgar_fraction(at(behind))) {
      at_ = behind + 1;
      return add_fraction(out, *vulgar, behind);
    }
    if (behind == at_) return true;
    std::size_t end = behind;
    while (is_digit(at(end))) ++end;
    if (end == behind) return true;
    if (at(end) != U'/') {
      const bool grouped = here() == U' ' && end - behind == 3;
      return refuse(grouped ? "entry.thousands" : "entry.two_numbers", grouped ? at_ : behind).has_value();
    }
    std::string numerator;
    for (std::size_t i = behind; i < end; ++i) numerator += static_cast<char>(points_[i]);
    if (numerator.size() > 6) return refuse("entry.too_many_digits", behind).has_value();
    at_ = end;
    const auto denominator = read_denominator();
    return denominator && add_fraction(out, value_of(numerator) / *denominator, behind);
  }

  bool add_fraction(TypedNumber& out, const Ratio& fraction, std::size_t where) {
    if (!marks_.empty()) return refuse("entry.decimal_and_fraction", where).has_value();
    if (fraction >= Ratio(1)) return refuse("entry.improper_fraction", where).has_value();
    out.magnitude = out.magnitude + fraction;
    return true;
  }

  std::optional<TypedNumber> finish(TypedNumber& out) {
    const bool exponent = (here() == U'e' || here() == U'E') &&
                          (is_digit(at(at_ + 1)) || ((at(at_ + 1) == U'-' || at(at_ + 1) == U'+') && is_digit(at(at_ + 2))));
    if (exponent) return refuse("entry.exponent", at_);
    out.end = at_;
    return out;
  }

  const std::vector<char32_t>& points_;
  std::size_t at_;
  std::size_t start_;
  std::vector<TextFault>& faults_;
  std::string text_;                                          ///< digits without marks
  std::vector<std::pair<std::size_t, std::size_t>> marks_;    ///< code point of the mark, digits before it
};

}  // namespace

std::optional<TypedNumber> read_number(const std::vector<char32_t>& points, std::size_t from, std::vector<TextFault>& faults) {
  return NumberReader(points, from, faults).read();
}

}  // namespace fettle
