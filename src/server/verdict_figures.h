#pragma once

#include <string>

#include "app/judge_job.h"
#include "catalogue/figure_style.h"
#include "server/page_words.h"

namespace fettle {

/// Figures and places of a judged job as pages print them.
class VerdictFigures {
 public:
  VerdictFigures(const JudgedJob& judged, const PageWords& words) : words_(words), unit_(shown_unit(judged.job)) {}

  [[nodiscard]] UnitId unit() const { return unit_; }
  [[nodiscard]] static ResultDimension dimension_of(const Limit& limit);
  /// With the unit, but for a pure number.
  [[nodiscard]] std::string exact(const Ratio& value, const Limit& limit) const;
  [[nodiscard]] std::string estimate(double value, const Limit& limit) const;
  /// The same without the unit.
  [[nodiscard]] std::string bare(double value, const Limit& limit) const;
  /// "+0.0031 mm"; lengths in µm.
  [[nodiscard]] std::string moved_by(double value, const Limit& limit) const;
  [[nodiscard]] std::string place(const Where& where, const Layout& layout) const;
  /// "largest size at the stations"
  [[nodiscard]] std::string definition_name(const std::string& definition, Feature feature) const;
  [[nodiscard]] std::string typed_bound(const Limit& limit) const;
  [[nodiscard]] static std::string side_sign(const Limit& limit);
  /// Of a reading's size.
  [[nodiscard]] std::string size(const Ratio& value, Dimension quantity) const;
  [[nodiscard]] std::string size(double value, Dimension quantity) const;

 private:
  [[nodiscard]] FigureStyle style_of(const Limit& limit) const;
  [[nodiscard]] std::string with_unit(const std::string& digits, const std::string& unit) const;

  const PageWords& words_;
  UnitId unit_;
};

}  // namespace fettle
