#pragma once

#include <set>
#include <string>
#include <vector>

#include "limits/proof.h"
#include "limits/slips.h"

namespace fettle {

/// A sheet under proof: what the rules share. Only for the rules.
class ProofDesk {
 public:
  ProofDesk(const LimitSheet& of, const Catalogue& catalogue) : sheet(of), known(catalogue) {}

  const LimitSheet& sheet;
  const Catalogue& known;
  std::vector<ProofFinding> findings;

  /// Whether a rule before this one asks about the figure already.
  [[nodiscard]] bool is_asked(const FigureSpot& spot) const { return asked_.contains(spot); }
  void ask(ProofFinding finding);

 private:
  std::set<FigureSpot> asked_;
};

/// What is printed there.
[[nodiscard]] std::string shown_at(const SheetRow& row, SheetField field);
/// "48.016 in": a figure as it is printed, tidied; both units where there are two.
[[nodiscard]] std::string shown(const Printed& figure);
[[nodiscard]] std::string shown(const PrintedRange& range);
/// `base` in the unit and with the decimals of `like`, with its unit.
[[nodiscard]] std::string shown_like(const Ratio& base, const TypedQuantity& like);
/// The figure with other digits, understood in its unit.
[[nodiscard]] TypedQuantity with_digits(const TypedQuantity& figure, const std::string& digits);

void find_page_factor(ProofDesk& desk);
void find_units_disagree(ProofDesk& desk);
void find_false_slope(ProofDesk& desk);
void find_series(ProofDesk& desk);
void find_reckoned(ProofDesk& desk);
void find_range_backwards(ProofDesk& desk);
void find_wear_side(ProofDesk& desk);
void find_bands(ProofDesk& desk);
void find_two_figures(ProofDesk& desk);
void find_width_odd(ProofDesk& desk);
void find_fit_code(ProofDesk& desk);
void find_tightening(ProofDesk& desk);

}  // namespace fettle
