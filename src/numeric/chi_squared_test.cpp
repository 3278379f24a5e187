#include "numeric/chi_squared.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/assertion.h"

namespace fettle {
namespace {

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values of chi-squared (three decimals).
TEST(ChiSquared, AgreesWithTables) {
  EXPECT_NEAR(chi_squared_upper(3.841, 1), 0.05, 2e-5);
  EXPECT_NEAR(chi_squared_upper(23.209, 10), 0.01, 2e-6);
  EXPECT_NEAR(chi_squared_upper(36.415, 24), 0.05, 1e-5);
  EXPECT_NEAR(chi_squared_upper(149.449, 100), 0.001, 1e-6);
  // Two degrees of freedom: exp(-x/2).
  EXPECT_NEAR(chi_squared_upper(40.0, 2), std::exp(-20.0), 1e-20);
  EXPECT_EQ(chi_squared_upper(0.0, 3), 1.0);
  EXPECT_THROW((void)chi_squared_upper(-1.0, 3), InternalError);
}

}  // namespace
}  // namespace fettle
