#include "pictures/rod_row.h"

#include <algorithm>

#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kRowWidth = 328.0;
constexpr double kRowMiddle = 40.0;

std::string trimmed(Length length, UnitId unit, Language language) {
  std::string digits = in_unit(length.ratio(), unit, unit == UnitId::inch ? 4 : 3);
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') digits.pop_back();
  return typeset(digits, language) + " " + symbol_of(unit);
}

enum class PieceSort { extension, washer, rod };

struct RowPiece {
  PieceSort sort;
  std::string words;
  double wide;
};

/// From the head outward: the extension, the washers with the longest first, the rod.
std::vector<RowPiece> pieces_of(const Assembly& assembly, Language language) {
  const auto words = [&](const char* key, const KitPiece& piece) {
    return say(key, {verbatim("length", piece.text)}, language);  // as it is marked
  };
  const bool many = assembly.washers.size() > 5;
  std::vector<RowPiece> out;
  if (assembly.extension) out.push_back({PieceSort::extension, words("pictures.rods.extension", *assembly.extension), many ? 36.0 : 46.0});
  for (const KitPiece& each : assembly.washers) {
    out.push_back({PieceSort::washer, words("pictures.rods.washer", each), many ? 8.0 : 13.0});
  }
  out.push_back({PieceSort::rod, words("pictures.rods.rod", assembly.rod), many ? 40.0 : 64.0});
  return out;
}

class RowSketch {
 public:
  RowSketch(const Assembly& assembly, Length wanted, UnitId unit, Language language)
      : assembly_(assembly), wanted_(wanted), unit_(unit), language_(language), pieces_(pieces_of(assembly, language)), gap_(assembly.washers.size() > 5 ? 3.0 : 5.0) {}

  [[nodiscard]] Drawing draw() && {
    add_row();
    double y = kRowMiddle + 44.0;
    std::size_t number = 0;
    for (const RowPiece& each : pieces_) {
      sketch_.text({20.0, y}, std::to_string(++number), {kPictureName, Ink::ink, Anchor::end, Weight::bold});
      y = sketch_.box({28.0, y - 13.0}, kRowWidth - 34.0, each.words, {kPictureName}) + 13.0;
    }
    y = add_travel(y - 4.0);
    sketch_.set_height(y + 6.0);
    return std::move(sketch_).done(say("pictures.rods.title", {verbatim("size", trimmed(wanted_, unit_, language_))}, language_), description());
  }

 private:
  /// The head with its contact to the left, the pieces to the right, each with its number.
  void add_row() {
    double whole = 84.0;
    for (const RowPiece& each : pieces_) whole += each.wide + gap_;
    double x = std::max(6.0, (kRowWidth - whole) / 2.0);
    sketch_.rect({x, kRowMiddle - 5.0}, 12.0, 10.0, Ink::wash, Ink::ink, 1.2);  // the sprung contact
    sketch_.arc({x, kRowMiddle}, 5.0, 180.0, 360.0 - 0.01, Ink::ink, 1.2);
    x += 12.0;
    sketch_.rect({x, kRowMiddle - 18.0}, 62.0, 36.0, std::nullopt, Ink::ink, 1.4);
    sketch_.text_within({x + 31.0, kRowMiddle + 4.0}, say("pictures.rods.head", {}, language_), {kPictureText, Ink::ink, Anchor::middle}, 58.0);
    x += 62.0;
    std::size_t number = 0;
    for (const RowPiece& each : pieces_) {
      x += gap_;
      const double half = each.sort == PieceSort::washer ? 14.0 : each.sort == PieceSort::rod ? 7.0 : 9.0;
      sketch_.rect({x, kRowMiddle - half}, each.wide, 2.0 * half, each.sort == PieceSort::washer ? std::optional(Ink::wash) : std::nullopt,
                   Ink::ink, 1.4);
      if (each.sort == PieceSort::rod) sketch_.arc({x + each.wide, kRowMiddle}, 7.0, 0.0, 180.0, Ink::ink, 1.4);
      // Numbers of thin washers take turns above and below.
      ++number;
      const bool above = each.sort != PieceSort::washer || each.wide > 10.0 || number % 2 == 1;
      sketch_.text({x + each.wide / 2.0, above ? kRowMiddle - 20.0 : kRowMiddle + 28.0}, std::to_string(number),
                   {12.0, Ink::ink, Anchor::middle, Weight::bold});
      x += each.wide;
    }
  }

  /// The contact's travel as a rule: how far it is pressed in at the wanted size, and what is left either way.
  double add_travel(double top) {
    const double left = 8.0;
    const double wide = kRowWidth - 16.0;
    const double pressed = std::max(0.0, assembly_.pressed_in.millimetres());
    const double rest = std::max(0.0, assembly_.left_for_smaller.millimetres());
    const double share = pressed + rest > 0.0 ? pressed / (pressed + rest) : 0.5;
    const double at = left + wide * std::clamp(share, 0.0, 1.0);
    double y = sketch_.box({left, top}, wide, pressed_words(), {kPictureName, Ink::ink, Anchor::start, Weight::bold}) + 4.0;
    sketch_.rect({left, y}, wide, 12.0, std::nullopt, Ink::ink, 1.2);
    sketch_.rect({left, y}, at - left, 12.0, Ink::wash, Ink::ink, 1.2);
    sketch_.line({at, y - 4.0}, {at, y + 16.0}, Ink::ink, 3.0);
    const double half = wide / 2.0 - 6.0;
    const double one = sketch_.box({left, y + 16.0}, half, larger_words(), {kPictureText});
    const double other = sketch_.box({left + wide - half, y + 16.0}, half, smaller_words(), {kPictureText, Ink::ink, Anchor::end});
    return std::max(one, other);
  }

  [[nodiscard]] std::vector<Argument> size_argument(Length length) const {
    return {verbatim("size", trimmed(length, unit_, language_))};
  }
  [[nodiscard]] std::string pressed_words() const { return say("pictures.rods.pressed", size_argument(assembly_.pressed_in), language_); }
  [[nodiscard]] std::string larger_words() const { return say("pictures.rods.larger", size_argument(assembly_.left_for_larger), language_); }
  [[nodiscard]] std::string smaller_words() const { return say("pictures.rods.smaller", size_argument(assembly_.left_for_smaller), language_); }

  [[nodiscard]] std::string description() const {
    std::vector<std::string> names;
    for (const RowPiece& each : pieces_) names.push_back(each.words);
    return say("pictures.rods.description", {verbatim("pieces", sentences_joined(names, ", ")), verbatim("pressed", pressed_words()),
                                             verbatim("larger", larger_words()), verbatim("smaller", smaller_words())},
               language_);
  }

  const Assembly& assembly_;
  Length wanted_;
  UnitId unit_;
  Language language_;
  std::vector<RowPiece> pieces_;
  double gap_;
  Sketch sketch_{kRowWidth, 160.0};
};

}  // namespace

Drawing rod_row_picture(const Assembly& assembly, Length wanted, UnitId unit, Language language) {
  return RowSketch(assembly, wanted, unit, language).draw();
}

}  // namespace fettle
