#include "numeric/fisher.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/assertion.h"
#include "numeric/student_t.h"

namespace fettle {
namespace {

TEST(Fisher, HasItsClosedForms) {
  // Two degrees of freedom above: (1 + 2 F/v)^(-v/2).
  for (const double below : {1.0, 4.0, 7.5, 60.0}) {
    for (const double value : {0.0, 0.3, 1.0, 12.0}) EXPECT_NEAR(fisher_upper(value, 2.0, below) * std::pow(1.0 + 2.0 * value / below, below / 2.0), 1.0, 1e-12);
  }
  // One degree above: t squared, both tails.
  for (const double t : {0.1, 1.0, 5.0}) EXPECT_NEAR(fisher_upper(t * t, 1.0, 9.0), 2.0 * student_t_lower(-t, 9.0), 1e-14);
  EXPECT_EQ(fisher_upper(INFINITY, 3.0, 3.0), 0.0);
  EXPECT_THROW((void)fisher_upper(-0.1, 1.0, 1.0), InternalError);
}

// Printed upper 5 % points of F (tables of any book on statistics).
TEST(Fisher, AgreesWithPrintedPoints) {
  EXPECT_NEAR(fisher_upper(2.87, 4.0, 20.0), 0.05, 3e-4);
  EXPECT_NEAR(fisher_upper(4.96, 1.0, 10.0), 0.05, 3e-4);
  EXPECT_NEAR(fisher_upper(1.79, 18.0, 60.0), 0.05, 2e-3);
}

}  // namespace
}  // namespace fettle
