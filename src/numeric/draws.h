#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

namespace fettle {

/// Random bits of one numbered stream under a seed: xoshiro256++ seeded through SplitMix64. The same seed and stream give the same
/// draws on every machine. Reference key vigna_xoshiro.
class Generator {
 public:
  Generator(std::uint64_t seed, std::uint64_t stream);
  [[nodiscard]] std::uint64_t next();
  /// In (0, 1), never an end.
  [[nodiscard]] double uniform();
  /// Standard normal, by the quantile of a uniform draw.
  [[nodiscard]] double normal();
  /// Chi-squared with real degrees of freedom > 0, else an InternalError. Reference key marsaglia2000gamma.
  [[nodiscard]] double chi_squared(double degrees_of_freedom);

 private:
  std::array<std::uint64_t, 4> state_;
};

enum class DrawShape { normal, rectangular, triangular };

/// Fills `out` with draws of mean 0. The spread is `standard_uncertainty`; a normal shape with degrees of freedom is Student's t
/// with that scale, and the other two shapes do not look at them.
void draw(Generator& generator, DrawShape shape, double standard_uncertainty, std::optional<double> degrees_of_freedom,
          std::vector<double>& out);

}  // namespace fettle
