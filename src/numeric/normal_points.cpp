#include "numeric/normal_points.h"

#include "numeric/draws.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr std::size_t kEvenDimensions = KroneckerPoints::kMostDimensions;
constexpr std::size_t kLeast = 128;
// Streams of the plain coordinates: far from any number that something else counts up to.
constexpr std::uint64_t kPlainStream = 0xfffe'0000'0000'0000U;

}  // namespace

NormalPoints::NormalPoints(std::uint64_t seed) : seed_(seed) {
  for (std::size_t set = 0; set < kSets; ++set) {
    even_.emplace_back(static_cast<int>(kEvenDimensions), seed + set, KroneckerSteps::prime_roots);
  }
}

std::span<const double> NormalPoints::coordinate(std::size_t set, std::size_t dimension, std::size_t first, std::size_t count) {
  std::vector<std::vector<double>>& columns = columns_[set];
  if (columns.size() <= dimension) columns.resize(dimension + 1);
  std::vector<double>& column = columns[dimension];
  if (column.size() < first + count) grow(column, set, dimension, first + count);
  return std::span<const double>(column).subspan(first, count);
}

void NormalPoints::grow(std::vector<double>& column, std::size_t set, std::size_t dimension, std::size_t count) const {
  std::size_t wanted = column.size() < kLeast ? kLeast : column.size();
  while (wanted < count) wanted *= 2;
  if (dimension >= kEvenDimensions) {
    Generator generator(seed_, kPlainStream + dimension * kSets + set);
    column.resize(wanted);
    generator.normals(column);  // from the start, so that growing does not change what was there
    return;
  }
  const std::size_t had = column.size();
  column.resize(wanted);
  for (std::size_t n = had; n < wanted; ++n) column[n] = normal_quantile_quick(even_[set].at(dimension, n));
}

}  // namespace fettle
