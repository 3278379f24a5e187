#pragma once

#include <optional>
#include <string>
#include <vector>

#include "limits/proof_desk.h"

namespace fettle {

/// How a row's figures follow from those of others, as doubles: in mm or in, mm³ or in³, everything else in its base unit. Good to 1e-12 of a
/// figure; what is compared is half a last place of something printed. Only for the rules.

/// Base units that one unit of this family is: counts in an inch, mm³ in a cubic inch.
[[nodiscard]] double scale_of(Dimension dimension, UnitFamily family);
[[nodiscard]] double plain(const TypedQuantity& figure, UnitFamily family);
/// The nearest figure of the base unit, to a ten-thousandth of it.
[[nodiscard]] Ratio to_base(double value, UnitFamily family, Dimension dimension);

/// Both ends of a row; the one that is printed stands for one that is missing.
struct Ends {
  const TypedQuantity* from;
  const TypedQuantity* to;
};
[[nodiscard]] std::optional<Ends> ends_of(const SheetRow& row, UnitFamily family);

/// One row that follows from others, in one family of units.
class Reckoner {
 public:
  using Span = SheetExpression::Span;

  /// `instead`: a row as it might be, in the place of the one with its id.
  Reckoner(const ProofDesk& desk, const SheetExpression& expression, UnitFamily family, const SheetRow* instead = nullptr);

  /// Nothing where a row has no figures.
  [[nodiscard]] std::optional<Span> value() const { return value_with({}, nullptr); }
  /// With a row as it might be.
  [[nodiscard]] std::optional<Span> value_as(const SheetRow& as) const;
  /// How far rounding of the rows may have moved each end.
  [[nodiscard]] Span slack(const Span& exact) const;

 private:
  /// What a row gives, and with half a last place more.
  struct Part {
    std::string name;
    Span span;
    Span rounded;
  };
  [[nodiscard]] std::optional<Part> part_of(const SheetRow& row) const;
  [[nodiscard]] std::optional<Span> value_with(const std::string& name, const Span* instead) const;

  const SheetExpression& expression_;
  UnitFamily family_;
  std::vector<Part> parts_;
  bool known_ = true;  ///< every row has figures
};

/// What was reckoned at one end of a row, in the unit that is printed there.
struct EndCheck {
  SheetField field;
  const TypedQuantity* printed;
  double value;
  double slack;
  double apart;  ///< printed less reckoned
  double half;
  [[nodiscard]] bool exact() const;
  [[nodiscard]] bool within_slack() const;
};

[[nodiscard]] std::vector<EndCheck> end_checks(const SheetRow& row, const Reckoner& reckoner, UnitFamily family);

/// Some figure of the row or of its parts may be the conversion of one in the other unit.
[[nodiscard]] bool may_be_converted(const ProofDesk& desk, const SheetRow& row, const SheetExpression& expression, UnitFamily family);

/// An end that does not follow, and the unit in which it does not.
struct FailedEnd {
  UnitFamily family;
  EndCheck check;
};
struct EndJudged {
  std::vector<FailedEnd> failed;  ///< empty: it comes out, or there is nothing to reckon it with
  std::size_t families;           ///< in how many units it was reckoned
};
/// One unit in which it comes out is the one in which the book was made. `instead` as for a Reckoner.
[[nodiscard]] EndJudged judge_end(const ProofDesk& desk, const SheetRow& row, const SheetExpression& expression, SheetField field, const SheetRow* instead = nullptr);

}  // namespace fettle
