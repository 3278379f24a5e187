#pragma once

#include <string>
#include <vector>

#include "app/judge_job.h"
#include "base/joined.h"
#include "catalogue/figure_style.h"
#include "cli/judgement_text.h"

namespace fettle {

/// The words and figures of a judged job, as every text about it says them. Texts derive from it.
class JudgedWords {
 protected:
  JudgedWords(const JudgedJob& judged, const Look& look)
      : judged_(judged), look_(look), unit_(judged.job.opened ? judged.job.opened->value.shown_unit : UnitId::millimetre) {}

  [[nodiscard]] std::string say(const Message& message) const;
  [[nodiscard]] std::string number(std::string digits) const;
  [[nodiscard]] std::string symbol() const;
  [[nodiscard]] std::string step(const Step& step) const;
  [[nodiscard]] const Limit& limit_of(const std::string& id) const;
  [[nodiscard]] static std::string side_sign(const Limit& limit);
  /// As typed: "0.05 mm per 100 mm".
  [[nodiscard]] std::string typed_bound(const Limit& limit) const;
  [[nodiscard]] static ResultDimension dimension_of(const Limit& limit);
  [[nodiscard]] static bool is_length(const Limit& limit);
  [[nodiscard]] FigureStyle style_of(const Limit& limit) const;
  /// " N", or nothing for a pure number.
  [[nodiscard]] std::string unit_of(const Limit& limit) const;
  [[nodiscard]] std::string bound_text(const Verdict& verdict, const Limit& limit) const;
  [[nodiscard]] std::string figure_of(const Verdict& verdict, const Limit& limit) const;
  [[nodiscard]] std::string place(const Where& where, const Layout& layout) const;
  /// "largest size" of a bore, "smallest size" of a journal: some definitions read one way on one feature.
  [[nodiscard]] std::string title(const Limit& limit, Feature feature) const;
  [[nodiscard]] const GroupEstimate* group_of(const PartOnBench& part) const;
  [[nodiscard]] bool judged_by_shape(const PartOnBench& part) const;
  [[nodiscard]] std::string estimate(double value, const Limit& limit) const;
  [[nodiscard]] std::string uncertainty(const Doubt& doubt, const Limit& limit) const;
  [[nodiscard]] std::string origin_of(const Limit& limit) const;
  /// A level in % with as many decimals as it has, up to four: 99.9 must not read as 100.
  [[nodiscard]] static std::string percent_digits(const Ratio& share);
  [[nodiscard]] std::string rule() const;
  /// How the parts of a group that were read were estimated, and what the model says of them.
  [[nodiscard]] std::string estimated(const GroupEstimate& group) const;
  [[nodiscard]] const Layout& layout_of(const std::string& part) const;

  const JudgedJob& judged_;
  const Look& look_;
  UnitId unit_;
};

}  // namespace fettle
