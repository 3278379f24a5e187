#include "limits/iso_fit.h"

#include <algorithm>
#include <vector>

#include "base/joined.h"

namespace fettle {
namespace {

constexpr int kLargestNominal = 500;
constexpr int kSmallest = 3;        ///< mm: up to here the delta of the holes is nothing
constexpr int kFinestDelta = 3;     ///< IT3: the finest grade that the standard gives a delta for
constexpr int kCoarsestDelta = 8;   ///< IT8: the coarsest for K, M and N
constexpr int kCoarsestOfP = 7;     ///< IT7: the coarsest for P to ZC
constexpr int kCoarsestBelow1 = 13; ///< IT13: the coarsest up to 1 mm

constexpr Length millimetres_of(int whole) { return Length::counts(whole * Length::kCountsPerMillimetre); }
constexpr Length micrometres_of(int whole) { return Length::counts(whole * (Length::kCountsPerMillimetre / 1000)); }

bool is_small(char c) { return c >= 'a' && c <= 'z'; }
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_grade_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(char c) { return c == ' ' || c == '\t'; }

std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (is_capital(c)) c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> parts_of(std::string_view code) {
  std::vector<std::string_view> out;
  for (std::size_t at = code.find('/'); at != std::string_view::npos; at = code.find('/')) {
    out.push_back(trimmed(code.substr(0, at)));
    code.remove_prefix(at + 1);
  }
  out.push_back(trimmed(code));
  return out;
}

/// One class of the code.
class ClassReader {
 public:
  ClassReader(std::string_view code, Length nominal, const Place& place) : code_(code), nominal_(nominal), place_(place) {}

  /// The writing, whatever the size is: a letter and a grade that the standard has.
  bool written() {
    if (!split()) return false;
    letter_ = iso_letter(small_);
    grade_ = read_grade(digits_);
    if (letter_ == nullptr) add("limits.fit_letter", {verbatim("letter", letters_), verbatim("known", known_letters())});
    if (!grade_) add("limits.fit_grade", {verbatim("grade", digits_)});
    return problems.empty();
  }

  [[nodiscard]] bool hole() const { return hole_; }

  /// Of what is well written, at a nominal size that the tables have.
  std::optional<IsoClass> at_size() {
    if (!may_be()) return std::nullopt;
    IsoClass out{std::string(code_), hole_ ? Feature::inside : Feature::outside, letters_, *grade_, tolerance_of(*grade_), {}, {}};
    place_zone(out);
    if (!problems.empty()) return std::nullopt;
    if (nominal_ + out.lower <= Length()) {
      add("limits.fit_no_size_left", {size("nominal", nominal_)});
      return std::nullopt;
    }
    return out;
  }

  Problems problems;

 private:
  void add(const char* code, std::vector<Argument> arguments = {}) {
    arguments.push_back(verbatim("text", std::string(code_)));
    problems.push_back(Problem{code, place_, std::move(arguments)});
  }

  bool refuse(const char* code) {
    add(code);
    return false;
  }

  static Argument size(const char* name, Length length) {
    const bool whole = length.counts() % Length::kCountsPerMillimetre == 0;
    return length_argument(name, length.ratio(), UnitId::millimetre, whole ? 0 : fine_decimals(UnitId::millimetre));
  }
  [[nodiscard]] Length tolerance_of(IsoGrade grade) const { return standard_tolerance(grade, nominal_); }

  [[nodiscard]] std::string known_letters() const {
    std::vector<std::string> known = iso_letters();
    for (std::string& each : known) {
      if (hole_) std::transform(each.begin(), each.end(), each.begin(), [](char c) { return static_cast<char>(c - 'a' + 'A'); });
    }
    return joined(known);
  }

  /// Letters and grade apart; says what is wrong with the writing.
  bool split() {
    if (code_.empty()) return refuse("limits.fit_empty");
    if (std::any_of(code_.begin(), code_.end(), is_blank)) return refuse("limits.fit_blank");
    const auto end = std::find_if_not(code_.begin(), code_.end(), [](char c) { return is_small(c) || is_capital(c); });
    letters_ = std::string(code_.begin(), end);
    digits_ = std::string(end, code_.end());
    if (letters_.empty() || digits_.empty() || !std::all_of(digits_.begin(), digits_.end(), is_grade_digit)) {
      return refuse("limits.fit_unreadable");
    }
    hole_ = is_capital(letters_.front());
    if (!std::all_of(letters_.begin(), letters_.end(), hole_ ? is_capital : is_small)) return refuse("limits.fit_mixed_case");
    small_ = small_letters(letters_);
    return true;
  }

  /// Whether the letter is tabulated at this size and the grade exists there.
  bool may_be() {
    const Length over = millimetres_of(letter_->over_mm);
    const Length up_to = millimetres_of(letter_->up_to_mm);
    if (nominal_ <= over || nominal_ > up_to) {
      add("limits.fit_not_this_size", {verbatim("letter", letters_), size("over", over), size("up_to", up_to), size("nominal", nominal_)});
    }
    const bool up_to_1 = nominal_ <= millimetres_of(1);
    const int coarsest = hole_ && small_ == "n" ? kCoarsestDelta : kCoarsestBelow1;
    if (up_to_1 && grade_->number > coarsest) {
      add("limits.fit_grade_not_this_size", {verbatim("grade", digits_), size("over", millimetres_of(1)), size("nominal", nominal_)});
    }
    return problems.empty();
  }

  void not_this_grade(const char* known) {
    add("limits.fit_not_this_grade", {verbatim("letter", letters_), verbatim("grade", digits_), verbatim("known", known), size("nominal", nominal_)});
  }

  static void from_lower(IsoClass& out, Length lower) {
    out.lower = lower;
    out.upper = lower + out.tolerance;
  }
  static void from_upper(IsoClass& out, Length upper) { from_lower(out, upper - out.tolerance); }

  void place_zone(IsoClass& out) {
    switch (letter_->side) {
      case IsoSide::below: {
        const Length away = letter_deviation(small_, nominal_);
        return hole_ ? from_lower(out, away) : from_upper(out, -away);
      }
      case IsoSide::about: return small_ == "j" ? place_j(out) : place_js(out);
      case IsoSide::above: return hole_ ? place_high_hole(out) : place_high_shaft(out);
    }
  }

  /// Half on each side, never rounded.
  void place_js(IsoClass& out) { from_lower(out, Length::counts(-out.tolerance.counts() / 2)); }

  void place_j(IsoClass& out) {
    const auto edge = hole_ ? hole_j(*grade_, nominal_) : shaft_j(*grade_, nominal_);
    if (!edge) return not_this_grade(hole_ ? "6, 7, 8" : nominal_ <= millimetres_of(kSmallest) ? "5, 6, 7, 8" : "5, 6, 7");
    hole_ ? from_upper(out, *edge) : from_lower(out, *edge);
  }

  /// k stands above the nominal size in grades 4 to 7 only.
  void place_high_shaft(IsoClass& out) {
    const bool on_the_line = small_ == "k" && (grade_->number < 4 || grade_->number > 7);
    from_lower(out, on_the_line ? Length() : letter_deviation(small_, nominal_));
  }

  /// What a hole is moved back by, so that with a shaft one grade finer it gives the same fit as the hole H with that shaft's letter.
  [[nodiscard]] Length delta() const { return tolerance_of(*grade_) - tolerance_of({grade_->number - 1}); }

  void place_high_hole(IsoClass& out) {
    const bool smallest = nominal_ <= millimetres_of(kSmallest);
    const int coarsest = small_ == "k" || small_ == "m" || small_ == "n" ? kCoarsestDelta : kCoarsestOfP;
    const bool coarse = grade_->number > coarsest;
    if (!smallest && small_ == "k" && coarse) return not_this_grade("3, 4, 5, 6, 7, 8");
    if (!smallest && grade_->number < kFinestDelta) return not_this_grade(small_ == "k" ? "3, 4, 5, 6, 7, 8" : "3, 4, 5 ... 18");
    if (!smallest && small_ == "n" && coarse) return from_upper(out, Length());
    const Length away = -letter_deviation(small_, nominal_);
    from_upper(out, smallest || coarse ? away : is_m6_250() ? away + delta() + micrometres_of(2) : away + delta());
  }

  /// The one cell that the standard gives apart: M6 over 250 up to 315 mm is -9, where the rule gives -11 µm.
  [[nodiscard]] bool is_m6_250() const {
    return small_ == "m" && grade_->number == 6 && nominal_ > millimetres_of(250) && nominal_ <= millimetres_of(315);
  }

  std::string_view code_;
  Length nominal_;
  const Place& place_;
  std::string letters_;
  std::string small_;
  std::string digits_;
  bool hole_ = false;
  const IsoLetter* letter_ = nullptr;
  std::optional<IsoGrade> grade_;
};

/// What is wrong with the nominal size.
void check_nominal(Length nominal, const Place& place, Problems& problems) {
  const Argument said = length_argument("nominal", nominal.ratio(), UnitId::millimetre, 4);
  if (nominal <= Length()) problems.push_back(Problem{"limits.fit_nominal_not_positive", place, {said}});
  if (nominal > millimetres_of(kLargestNominal)) problems.push_back(Problem{"limits.fit_nominal_too_large", place, {said}});
}

}  // namespace

Result<IsoFit> read_iso_fit(std::string_view code, Length nominal, const Place& place) {
  Problems problems;
  check_nominal(nominal, place, problems);
  const bool sound_size = problems.empty();
  const auto parts = parts_of(code);
  const auto whole = verbatim("text", std::string(trimmed(code)));
  if (parts.size() > 2) problems.push_back(Problem{"limits.fit_unreadable", place, {whole}});
  if (parts.size() > 2) return problems;
  IsoFit fit{nominal, sound_size ? iso_step(nominal) : IsoStep{}, {}, {}};
  std::vector<bool> holes;
  for (std::string_view part : parts) {
    ClassReader reader(part, nominal, place);
    std::optional<IsoClass> found;
    if (reader.written()) {
      holes.push_back(reader.hole());
      if (sound_size) found = reader.at_size();
    }
    problems.insert(problems.end(), reader.problems.begin(), reader.problems.end());
    if (found) (reader.hole() ? fit.hole : fit.shaft) = std::move(found);
  }
  if (holes.size() == 2 && holes.front() == holes.back()) {
    problems.push_back(Problem{"limits.fit_same_side", place, {whole, word("sort", holes.front() ? "fit.two_holes" : "fit.two_shafts")}});
  }
  if (!problems.empty()) return problems;
  return fit;
}

std::optional<IsoPlay> play_of(const IsoFit& fit) {
  if (!fit.hole || !fit.shaft) return std::nullopt;
  const Length least = fit.hole->lower - fit.shaft->upper;
  const Length most = fit.hole->upper - fit.shaft->lower;
  const FitSort sort = least >= Length() ? FitSort::clearance : most <= Length() ? FitSort::interference : FitSort::transition;
  return IsoPlay{least, most, sort};
}

std::string_view sort_name(FitSort sort) {
  switch (sort) {
    case FitSort::clearance: return "clearance";
    case FitSort::transition: return "transition";
    case FitSort::interference: return "interference";
  }
  return "";
}

}  // namespace fettle
