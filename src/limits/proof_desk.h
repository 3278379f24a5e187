#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "limits/proof.h"
#include "limits/sheet_expression.h"
#include "limits/slips.h"

namespace fettle {

/// A sheet under proof: what the rules share. Only for the rules.
class ProofDesk {
 public:
  using Rows = std::vector<const SheetRow*>;

  ProofDesk(const LimitSheet& of, const Catalogue& catalogue);

  const LimitSheet& sheet;
  const Catalogue& known;
  std::vector<ProofFinding> findings;

  /// Nothing for an id that no row has.
  [[nodiscard]] const SheetRow* row(const std::string& id) const;
  /// How a row follows from others; nothing for one that follows from none.
  [[nodiscard]] const SheetExpression* expression(const std::string& id) const;
  /// The rows that follow from this one.
  [[nodiscard]] const Rows& followers(const std::string& id) const;
  /// The rows that differ by their step only, this one among them.
  [[nodiscard]] const Rows& series(const std::string& id) const;
  [[nodiscard]] const std::map<std::vector<std::string>, Rows>& all_series() const { return series_; }

  /// Whether a rule before this one asks about the figure already.
  [[nodiscard]] bool is_asked(const FigureSpot& spot) const { return asked_.contains(spot); }
  [[nodiscard]] bool is_new_asked(const std::string& row) const { return is_asked({row, SheetField::fresh_from}) || is_asked({row, SheetField::fresh_to}); }
  void ask(ProofFinding finding);

 private:
  std::set<FigureSpot> asked_;
  std::map<std::string, const SheetRow*> rows_;
  std::map<std::string, SheetExpression> expressions_;
  std::map<std::string, Rows> followers_;
  std::map<std::vector<std::string>, Rows> series_;
  std::map<std::string, const Rows*> series_of_;
};

/// What of a part a row is, as far as it says: rows that differ in it are of different things.
[[nodiscard]] std::string characteristic_of(const SheetRow& row);
/// What is printed there.
[[nodiscard]] std::string shown_at(const SheetRow& row, SheetField field);
/// "48.016 in": a figure as it is printed, tidied; both units where there are two.
[[nodiscard]] std::string shown(const Printed& figure);
[[nodiscard]] std::string shown(const PrintedRange& range);
/// `base` in the unit and with the decimals of `like`, with its unit.
[[nodiscard]] std::string shown_like(const Ratio& base, const TypedQuantity& like);
/// The figure with other digits, understood in its unit.
[[nodiscard]] TypedQuantity with_digits(const TypedQuantity& figure, const std::string& digits);
/// The row with another figure in that place; a single figure stays single.
[[nodiscard]] SheetRow with_figure(const SheetRow& row, SheetField field, UnitFamily family, const TypedQuantity& figure);
/// The family in which both are printed, metric first.
[[nodiscard]] std::optional<UnitFamily> common_family(const Printed& a, const Printed& b);

void find_page_factor(ProofDesk& desk);
void find_units_disagree(ProofDesk& desk);
void find_false_slope(ProofDesk& desk);
void find_series(ProofDesk& desk);
void find_reckoned(ProofDesk& desk);
void find_range_backwards(ProofDesk& desk);
void find_wear_side(ProofDesk& desk);
void find_bands(ProofDesk& desk);
void find_unlike_its_kind(ProofDesk& desk);
void find_two_figures(ProofDesk& desk);
void find_width_odd(ProofDesk& desk);
void find_fit_code(ProofDesk& desk);
void find_tightening(ProofDesk& desk);

}  // namespace fettle
