#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gauging/sizes.h"

namespace fettle {

/// plain: every place stands for itself, flat prior. shape: the group of like worn parts by the shape model.
enum class EstimateModel { plain, shape };

/// What all readings of one place say together.
struct PlaceEstimate {
  std::size_t cell;
  std::vector<std::string> readings;  ///< event ids, ascending
  Ratio as_measured;                  ///< plain mean of all unflagged readings, exact, counts of 0.1 nm
  double estimate;                    ///< mm, or the base unit of another quantity; weighed by the readings' error sources
  std::vector<ErrorTerm> terms;       ///< by source, ascending; indices into the group's sources
  bool operator==(const PlaceEstimate&) const = default;
};

struct PartEstimate {
  std::string part;
  std::vector<std::optional<PlaceEstimate>> places;  ///< by cell of the part's layout
  bool operator==(const PartEstimate&) const = default;
};

struct ShapeGroup;

/// Parts of one kind that were estimated together, with how and why so.
struct GroupEstimate {
  std::string kind;
  EstimateModel model;
  Message why;
  std::vector<PartEstimate> parts;          ///< each place by itself, whatever the model
  std::vector<ErrorSource> sources = {};    ///< that its places rest on
  std::vector<Message> said = {};             ///< what the model left out, took apart or gave up, in the order it happened
  std::shared_ptr<const ShapeGroup> shape = {};  ///< of the shape model only
};

/// The estimate that takes each place by itself. Repeats and several settings of one place are combined with the best linear
/// unbiased weights of their joint covariance (JCGM 100, F.1.2; reference key aitken1935); where that has no inverse, with equal
/// weights. Parts of `kind` in the order given; a part without readings has no places filled.
[[nodiscard]] GroupEstimate plain_estimate(const std::string& kind, const std::vector<PartOnBench>& parts, const SizeSet& set);

/// The exact sizes as measured, by cell.
[[nodiscard]] std::vector<std::optional<Ratio>> measured_sizes(const PartEstimate& estimate);

[[nodiscard]] std::string_view model_name(EstimateModel model);

}  // namespace fettle
