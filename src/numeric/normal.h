#pragma once

namespace fettle {

// The standard normal distribution on our own exponential and logarithm: same bits on every machine. T: double, long
// double (the wider type is there to show how much the narrow one loses by rounding; the approximations stay those of
// double).

/// Density at z. No unit. Needs z not NaN, else InternalError; beyond |z| = 39 the answer is 0.
/// Relative error at most 1e-15 for |z| <= 37. Source: dlmf 7.2.1. Kept by Normal.DensityAgreesWithTheWiderType.
template <class T>
[[nodiscard]] T normal_density(T z);

/// Probability of a value below z (lower) or above z (upper). Each is computed as a tail of its own, so that small ones
/// keep their digits: normal_lower(-37) and normal_upper(37) are right, 1 - normal_lower(37) is 0. No unit. Needs z not
/// NaN, else InternalError; infinite z is answered with 0 or 1. Relative error at most 2e-15 for z from -37 to 37.
/// Source: cody1969 (the rational approximations to erf and erfc). Kept by Normal.TailsAgreeWithExactDigits and
/// Normal.TailsAgreeWithTheWiderType.
template <class T>
[[nodiscard]] T normal_lower(T z);
template <class T>
[[nodiscard]] T normal_upper(T z);
/// The distribution function by its usual name: normal_lower.
[[nodiscard]] inline double normal_probability(double z) { return normal_lower(z); }

/// Probability between two bounds, from the tail that keeps the digits. Needs low <= high, neither NaN, else
/// InternalError. Absolute error at most 3e-16, relative error at most 1e-13 where high - low >= 0.1. Kept by
/// Normal.IntervalsKeepTheirDigits.
template <class T>
[[nodiscard]] T normal_between(T low, T high);

/// Natural logarithm of the probability between two bounds, also where that is far below the smallest double. No unit. Needs low < high, both
/// below 1e150 in size, else InternalError. Error at most 1e-12 relative or 1e-13/(share of the lower tail that lies between the bounds)
/// absolute, whichever is more. Source: dlmf 7.12.1 (the tail's asymptotic series, beyond z = 35). Kept by Normal.LogarithmsGoOnWhereProbabilitiesEnd.
[[nodiscard]] double log_normal_between(double low, double high);

/// The z that normal_lower(z) = probability. No unit. Needs 0 < probability < 1, else InternalError. For a probability
/// close to 1 take the negative of the quantile of what is left. Relative error at most 1e-15 for probabilities from
/// 1e-300 to 1 - 1e-16, given the probability as stored. Source: wichura1988 algorithm AS 241, PPND16, then one Newton
/// step on our own tails. Kept by Normal.QuantileAgreesWithExactDigits and Normal.QuantileAgreesWithTheWiderType.
template <class T>
[[nodiscard]] T normal_quantile(T probability);

/// The same without the last step, three times as quick: for points of an integration. Relative error at most 1e-12, same bits on every
/// machine. Source: wichura1988 PPND16. Kept by Normal.QuickQuantileAgrees.
[[nodiscard]] double normal_quantile_quick(double probability);

}  // namespace fettle
