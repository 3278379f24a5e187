#pragma once

#include <bit>
#include <cstdint>

namespace fettle {

/// One step of SplitMix64: spreads any 64 bits over all 64. Source: steele2014.
[[nodiscard]] constexpr std::uint64_t splitmix64(std::uint64_t& state) {
  state += 0x9e37'79b9'7f4a'7c15U;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58'476d'1ce4'e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d0'49bb'1331'11ebU;
  return z ^ (z >> 31U);
}

/// 53 of 64 random bits as a number in (0, 1): the odd multiples of 2^-53, from bits 12 to 63.
[[nodiscard]] constexpr double uniform_of_bits(std::uint64_t bits) {
  return static_cast<double>(static_cast<std::int64_t>((bits >> 11U) | 1U)) * 0x1p-53;
}

/// xoshiro256++: 64 random bits a step, period 2^256 - 1. Source: vigna_xoshiro.
/// Kept by Draws.XoshiroGivesThePublishedSequence.
class Xoshiro256 {
 public:
  /// The four words of the state as they are; not all may be 0.
  constexpr Xoshiro256(std::uint64_t a, std::uint64_t b, std::uint64_t c, std::uint64_t d)
      : a_(a), b_(b), c_(c), d_(d) {}

  /// The stream with this number under this seed. Seed and number are spread one after the other, so that neighbouring
  /// seeds and numbers share nothing, and seed 1 stream 2 is not seed 2 stream 1.
  [[nodiscard]] static constexpr Xoshiro256 stream(std::uint64_t seed, std::uint64_t number) {
    std::uint64_t state = seed;
    state = splitmix64(state) ^ number;
    state = splitmix64(state);
    const std::uint64_t a = splitmix64(state);
    const std::uint64_t b = splitmix64(state);
    const std::uint64_t c = splitmix64(state);
    const std::uint64_t d = splitmix64(state);
    return {a, b, c, d};
  }

  [[nodiscard]] constexpr std::uint64_t next() {
    const std::uint64_t result = std::rotl(a_ + d_, 23) + a_;
    const std::uint64_t t = b_ << 17U;
    c_ ^= a_;
    d_ ^= b_;
    b_ ^= c_;
    a_ ^= d_;
    c_ ^= t;
    d_ = std::rotl(d_, 45);
    return result;
  }

 private:
  std::uint64_t a_, b_, c_, d_;
};

}  // namespace fettle
