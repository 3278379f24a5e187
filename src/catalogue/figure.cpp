#include "catalogue/figure.h"

#include <charconv>

namespace fettle {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Digits with at most one point.
std::optional<Ratio> read_decimal(std::string_view text) {
  Int128 digits = 0;
  int read = 0;
  int behind = 0;
  bool point = false;
  for (char c : text) {
    if (c == '.' && !point) {
      point = true;
    } else if (is_digit(c) && read < 18) {
      digits = digits * 10 + (c - '0');
      ++read;
      if (point) ++behind;
    } else {
      return std::nullopt;
    }
  }
  if (read == 0) return std::nullopt;
  return Ratio(digits) * Ratio::power_of_ten(-behind);
}

std::optional<Ratio> read_unsigned(std::string_view text) {
  if (const auto stroke = text.find('/'); stroke != std::string_view::npos) {
    const auto above = read_decimal(text.substr(0, stroke));
    const auto below = read_decimal(text.substr(stroke + 1));
    if (!above || !below || below->sign() == 0) return std::nullopt;
    return *above / *below;
  }
  const auto e = text.find('e');
  const auto figure = read_decimal(text.substr(0, e));
  if (!figure || e == std::string_view::npos) return figure;
  const std::string_view power = text.substr(e + 1);
  int exponent = 0;
  const auto [end, error] = std::from_chars(power.data(), power.data() + power.size(), exponent);
  if (error != std::errc() || end != power.data() + power.size() || exponent < -15 || exponent > 15) return std::nullopt;
  return *figure * Ratio::power_of_ten(exponent);
}

}  // namespace

std::optional<Ratio> read_figure(std::string_view text) {
  if (!text.starts_with('-')) return read_unsigned(text);
  const auto figure = read_unsigned(text.substr(1));
  if (!figure) return std::nullopt;
  return -*figure;
}

std::optional<Quantity> read_figure_with_unit(std::string_view text) {
  const auto blank = text.find(' ');
  if (blank == std::string_view::npos) return std::nullopt;
  const auto figure = read_figure(text.substr(0, blank));
  const Unit* unit = find_unit(text.substr(blank + 1));
  if (!figure || unit == nullptr) return std::nullopt;
  return Quantity{*figure, unit->id};
}

}  // namespace fettle
