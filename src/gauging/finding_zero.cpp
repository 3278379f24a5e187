#include "gauging/finding_zero.h"

#include <algorithm>
#include <cmath>

namespace fettle {
namespace {

constexpr double kStatedZeroCounts = 6.0;
constexpr double kCounts = static_cast<double>(Length::kCountsPerMillimetre);

/// Sum of squares about the mean less what rounding is expected to add, mm², never below nothing.
double squares(const KnownSetting& setting) {
  double sum = 0.0;
  for (const Ratio& zero : setting.zeros_clockwise) {
    const double off = (zero - setting.opening_clockwise).to_double() / kCounts;
    sum += off * off;
  }
  const double division = setting.gauge->division ? setting.gauge->division->millimetres() : 0.0;
  return std::max(sum - static_cast<double>(setting.zeros_clockwise.size() - 1) * division * division / 12.0, 0.0);
}

bool finds_zero(const ErrorSource& source, const std::string& setting) {
  const std::string id = "setting:" + setting + ":finding-zero";
  return source.id == id || source.id == id + "-blocks";
}

}  // namespace

std::optional<Ratio> spread_of_zeros(const KnownSetting& setting) {
  const auto& zeros = setting.zeros_clockwise;
  if (zeros.size() < 2) return std::nullopt;
  const auto [least, most] = std::minmax_element(zeros.begin(), zeros.end());
  return *most - *least;
}

std::optional<LearnedZero> learn_zero(SizeSet& set, const KnownSetting& setting) {
  const std::string& id = setting.setting->id;
  const auto under = [&](const Size& size) { return size.setting == id; };
  if (setting.zeros_clockwise.size() < 2 || std::none_of(set.sizes.begin(), set.sizes.end(), under)) return std::nullopt;
  const std::size_t freedom = setting.zeros_clockwise.size() - 1;
  const double nu = static_cast<double>(freedom);
  const double zeros = nu + 1.0;
  const std::string learned = "learned from " + std::to_string(freedom + 1) + " zeros";
  const auto stated =
      std::find_if(set.sources.begin(), set.sources.end(), [&](const ErrorSource& each) { return finds_zero(each, id); });
  if (stated != set.sources.end()) {
    const double before = stated->standard_uncertainty;
    if (before <= 0.0) return std::nullopt;
    const double one = std::sqrt((kStatedZeroCounts * before * before + squares(setting)) / (kStatedZeroCounts + nu));
    stated->standard_uncertainty = one / std::sqrt(zeros);
    stated->shape = ErrorShape::normal;
    stated->degrees_of_freedom = kStatedZeroCounts + nu;
    stated->origin += "; " + learned;
    return LearnedZero{freedom + 1, before, stated->standard_uncertainty, freedom + static_cast<std::size_t>(kStatedZeroCounts)};
  }
  const double mean = std::sqrt(squares(setting) / nu / zeros);
  if (mean > 0.0) {
    set.sources.push_back({"setting:" + id + ":finding-zero", "finding-zero", ErrorScope::setting, ErrorShape::normal, mean, nu, learned});
    for (Size& size : set.sizes) {
      if (under(size)) size.terms.push_back({set.sources.size() - 1, 1.0});
    }
  }
  return LearnedZero{freedom + 1, std::nullopt, mean, freedom};
}

}  // namespace fettle
