#pragma once

#include <optional>
#include <vector>

#include "catalogue/expression.h"

namespace fettle {

/// Which stations and directions of the layout a figure rests on, each in the order of the layout.
struct Where {
  std::vector<std::size_t> stations;
  std::vector<std::size_t> directions;
  bool operator==(const Where&) const = default;
};

struct Term {
  std::size_t cell;    ///< Layout::cell
  Ratio coefficient;
  bool operator==(const Term&) const = default;
};

/// constant + Σ coefficient · size. Sizes and constants in counts of 0.1 nm, other quantities in base units; of a ratio the result is a pure number.
struct LinearForm {
  std::vector<Term> terms;  ///< in the order of cells, no cell twice, no coefficient zero
  Ratio constant;
  Where where;
  bool operator==(const LinearForm&) const = default;
};

/// The forms that belong to one station, one direction or one place of the outermost max or min.
struct FormGroup {
  std::optional<std::size_t> station;
  std::optional<std::size_t> direction;
  std::size_t first;
  std::size_t count;
  bool operator==(const FormGroup&) const = default;
};

/// One station of an amplitude: the directions its two-lobe fit is made from.
struct LobeStation {
  std::size_t station;
  std::vector<std::size_t> directions;
  std::vector<std::size_t> cells;
  std::vector<Ratio> angles_degrees;
  bool operator==(const LobeStation&) const = default;
};

/// What a smooth formula is made of. Lengths in mm, angles in degrees, all else in base units.
enum class FormulaStep { cell, constant, sum, difference, product, quotient, cosine, arccosine, greatest, least, vector_difference, neighbour_rule };

struct FormulaNode {
  FormulaStep step;
  std::size_t cell;                ///< of `cell`
  double value;                    ///< of `constant`
  std::vector<FormulaNode> parts;  ///< two; of a cosine or arccosine one; of a vector or the rule: length and angle of the one, then of the other
  bool operator==(const FormulaNode&) const = default;
};

/// One formula of a characteristic, with the places it looks at.
struct Formula {
  FormulaNode root;
  std::vector<std::size_t> cells;  ///< ascending
  std::vector<double> per_exact;   ///< of each cell: what turns its exact size (counts, base units) into the formula's unit
  Where where;
  bool operator==(const Formula&) const = default;
};

/// A definition made concrete on one part: greatest or least of linear forms in the sizes that were read, or of smooth formulas, or the
/// greatest of amplitudes. A linear definition has one form.
struct Expansion {
  Sense sense;
  ResultDimension dimension;
  std::vector<LinearForm> forms;    ///< empty for an amplitude
  std::vector<FormGroup> groups;    ///< of the outermost max or min; may be empty
  std::vector<LobeStation> lobes;   ///< of an amplitude
  std::vector<std::size_t> used;    ///< cells, ascending
  std::vector<std::size_t> missing; ///< cells the definition asks for that were not read or had to be left out, ascending
  std::vector<Formula> formulas = {};  ///< of a formula
  bool operator==(const Expansion&) const = default;
};

}  // namespace fettle
