#include "limits/slips.h"

#include <algorithm>

namespace fettle {
namespace {

/// Sign, digits and where the point stands among them.
struct Figure {
  bool negative = false;
  std::string digits;
  int whole = 0;  ///< how many stand before the point
};

Figure taken_apart(std::string_view text) {
  Figure out;
  if (!text.empty() && text.front() == '-') {
    out.negative = true;
    text.remove_prefix(1);
  }
  const auto point = text.find('.');
  out.digits = std::string(text.substr(0, point));
  out.whole = static_cast<int>(out.digits.size());
  if (point != std::string_view::npos) out.digits += text.substr(point + 1);
  return out;
}

/// With one nought before the point, none in front of other digits.
std::string put_together(Figure figure) {
  while (figure.whole < 1) {
    figure.digits.insert(0, "0");
    ++figure.whole;
  }
  while (figure.whole > static_cast<int>(figure.digits.size())) figure.digits += '0';
  while (figure.whole > 1 && figure.digits.front() == '0') {
    figure.digits.erase(0, 1);
    --figure.whole;
  }
  std::string out = figure.negative ? "-" : "";
  out += figure.digits.substr(0, static_cast<std::size_t>(figure.whole));
  if (static_cast<int>(figure.digits.size()) > figure.whole) out += "." + figure.digits.substr(static_cast<std::size_t>(figure.whole));
  return out;
}

/// Where in `digits` the place `at` stands, or npos.
std::size_t index_of(const Figure& figure, int at) {
  const int index = figure.whole - 1 - at;
  return index < 0 || index >= static_cast<int>(figure.digits.size()) ? std::string::npos : static_cast<std::size_t>(index);
}

std::string applied(const Slip& slip, Figure figure) {
  const std::size_t index = index_of(figure, slip.at);
  switch (slip.sort) {
    case SlipSort::sign:
      figure.negative = !figure.negative;
      return put_together(figure);
    case SlipSort::point:
      figure.whole += slip.at;
      return put_together(figure);
    case SlipSort::leading:
      if (slip.digit == '0') {
        if (figure.whole < 2) return {};
        figure.digits.erase(0, 1);
        --figure.whole;
        return put_together(figure);
      }
      // Before what stands there; in place of a nought that only holds the point.
      if (figure.whole == 1 && figure.digits.front() == '0') {
        figure.digits.front() = slip.digit;
      } else {
        figure.digits.insert(0, 1, slip.digit);
        ++figure.whole;
      }
      return put_together(figure);
    case SlipSort::swapped:
      if (index == std::string::npos || index + 1 >= figure.digits.size()) return {};
      std::swap(figure.digits[index], figure.digits[index + 1]);
      return put_together(figure);
    case SlipSort::digit:
      if (index == std::string::npos) return {};
      figure.digits[index] = slip.digit;
      return put_together(figure);
  }
  return {};
}

/// What slips a printed 2-1/32 has is not known: its digits are no places.
bool is_fraction_text(std::string_view digits) { return digits.find('/') != std::string_view::npos; }

}  // namespace

std::vector<Slip> slips_of(std::string_view digits) {
  if (is_fraction_text(digits)) return {};
  const Figure figure = taken_apart(digits);
  std::vector<Slip> tried{{SlipSort::sign, 0, 0, {}}, {SlipSort::leading, 0, '0', {}}};
  for (const int by : {-1, 1, -2, 2}) tried.push_back({SlipSort::point, by, 0, {}});
  for (char digit = '1'; digit <= '9'; ++digit) tried.push_back({SlipSort::leading, 0, digit, {}});
  for (std::size_t i = 0; i < figure.digits.size(); ++i) {
    const int at = figure.whole - 1 - static_cast<int>(i);
    tried.push_back({SlipSort::swapped, at, 0, {}});
    for (char digit = '0'; digit <= '9'; ++digit) tried.push_back({SlipSort::digit, at, digit, {}});
  }
  const std::string plain = put_together(figure);
  std::vector<Slip> out;
  for (Slip& each : tried) {
    each.digits = applied(each, figure);
    if (!each.digits.empty() && each.digits != plain) out.push_back(std::move(each));
  }
  std::stable_sort(out.begin(), out.end(), [](const Slip& a, const Slip& b) { return a.sort < b.sort; });
  return out;
}

std::string same_slip(const Slip& slip, std::string_view digits) { return is_fraction_text(digits) ? "" : applied(slip, taken_apart(digits)); }

}  // namespace fettle
