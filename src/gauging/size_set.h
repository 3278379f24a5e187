#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/gauge_preset.h"
#include "units/length.h"

namespace fettle {

/// One reason for doubt, with an identity: whatever shares the source shares the very same error, so that it adds or cancels as it
/// should. The standard uncertainty is in mm, in the base unit of another quantity (N, mm³, degrees), or in °C for a temperature difference; the coefficient of a term carries the rest.
struct ErrorSource {
  std::string id;         ///< "master:mic-34:limit-of-error"
  std::string component;  ///< text key "error." + component
  ErrorScope scope;
  ErrorShape shape;
  double standard_uncertainty;
  std::optional<double> degrees_of_freedom;  ///< nothing: taken as exactly known
  std::string origin;
  Dimension dimension = Dimension::length;  ///< of the standard uncertainty; of a temperature difference and of an expansion (1e-6/°C): temperature
  bool operator==(const ErrorSource&) const = default;
};

/// coefficient · error of sources[source]
struct ErrorTerm {
  std::size_t source;
  double coefficient;
  bool operator==(const ErrorTerm&) const = default;
};

/// What one reading says about the part, at 20 °C: value + Σ coefficient·ε.
struct Size {
  std::string reading;  ///< event id
  std::string part;
  std::string setting;
  std::size_t cell;       ///< in the layout of the part's kind
  Ratio as_measured;      ///< exact, counts of 0.1 nm (or the base unit of another quantity), uncorrected for drift
  double estimate;     ///< mm (or the base unit), with the drift line of the closing zero taken off
  std::vector<ErrorTerm> terms;  ///< by source, ascending
  bool operator==(const Size&) const = default;
};

/// How far a master was set from the nominal that was aimed at.
struct MasterReport {
  std::string setting;
  Length really_set;                 ///< the master's size at 20 °C, its own zero error taken off
  std::optional<Length> wanted;
  std::optional<Length> nearest;     ///< nearest to `wanted` that the thimble shows exactly, zero error taken off
};

struct SizeSet {
  std::vector<Size> sizes;           ///< in the order of part, cell, reading
  std::vector<ErrorSource> sources;
  std::vector<MasterReport> masters;
};

/// What was read on these parts, with the sources that it rests on and no others, in the order of their ids: nothing in it depends on what
/// was read elsewhere. Without masters.
[[nodiscard]] SizeSet sizes_of(const SizeSet& set, const std::vector<std::string>& parts);

/// The place of a source with that id; it is put at the end if it is not there.
[[nodiscard]] std::size_t source_index(std::vector<ErrorSource>& sources, const ErrorSource& wanted);

}  // namespace fettle
