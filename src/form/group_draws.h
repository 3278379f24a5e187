#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "form/group_estimate.h"
#include "form/shape_group.h"

namespace fettle {

/// Equally likely states of everything that is not known of a group: its places together with the errors that its readings share. What
/// was read is in them, so that places and errors depend on each other.
struct GroupDraws {
  std::size_t count;
  ShapeOrigin origin;
  std::vector<std::string> parts;
  std::vector<std::vector<std::vector<double>>> places;  ///< µm from the origin, by part, cell, draw; empty: nothing is known of it
  std::vector<ErrorSource> sources;
  std::vector<std::vector<double>> errors;               ///< in units of the source's sd, by source and draw; empty: not followed
};

/// Of a group that went through the shape model. `own`: what was read on its parts (`sizes_of`). The heaviest nodes, to 97 % of the weight;
/// of the sources that several readings share the dozen that weighs most is followed. What other groups say of shared sources is not heard:
/// errors are drawn a little wider than the estimate has them. Plain draws: evenly spread points of hundreds of dimensions hang together by
/// pairs. The same seed gives the same bits. Source: rasmussen2006 A.3. Kept by GroupDraws.*.
[[nodiscard]] GroupDraws draw_group(const ShapeGroup& group, const SizeSet& own, std::size_t count, std::uint64_t seed);

/// Of a group taken plainly (flat prior): sizes are the readings less drawn errors. Places of nothing read are empty. Of lengths, mm.
[[nodiscard]] GroupDraws draw_group(const GroupEstimate& plain, std::size_t count, std::uint64_t seed);

}  // namespace fettle
