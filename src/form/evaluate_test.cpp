#include "form/evaluate.h"

#include <gtest/gtest.h>

#include <array>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "form/draw_evaluator.h"
#include "form/expand.h"

namespace fettle {
namespace {

PartGrid bore() {
  PartGrid grid{Feature::inside, catalogue().kind("cylinder-bore")->layout, {}, {}};
  grid.layout.stations.pop_back();
  for (std::size_t i = 0; i < 3; ++i) grid.layout.stations[i].depth = Length::counts(400'000'000 * static_cast<std::int64_t>(i + 1));
  grid.read.assign(grid.layout.cells(), true);
  grid.given = {Length::counts(880'000'000), Length::counts(880'000'000)};
  return grid;
}

std::vector<std::optional<Ratio>> sizes(const std::array<int, 6>& above_88_um) {
  std::vector<std::optional<Ratio>> out;
  for (int each : above_88_um) out.push_back(Ratio(880'000'000 + 10'000 * each));
  return out;
}

TEST(Evaluate, OfEqualOnesTheFirstPlaceIsNamed) {
  const Expansion expansion = expand(*catalogue().definition("size-1"), bore()).value();
  const ExactValue value = evaluate_exact(expansion, sizes({10, 40, 40, 20, 40, 10}));
  EXPECT_EQ(value.value, Ratio(880'400'000));
  EXPECT_EQ(value.where, (Where{{0}, {1}}));
  EXPECT_EQ(value.inner.size(), 6U);
}

TEST(Evaluate, ASizeThatIsNotThereIsOurMistake) {
  const Expansion expansion = expand(*catalogue().definition("size-1"), bore()).value();
  auto some = sizes({1, 2, 3, 4, 5, 6});
  some[3].reset();
  EXPECT_THROW(static_cast<void>(evaluate_exact(expansion, some)), InternalError);
}

/// Small whole numbers from a fixed rule; no generator is needed to try many.
int scattered(int i) { return (i * 7919 + 104729) % 97 - 30; }

TEST(DrawEvaluator, AgreesWithExactArithmetic) {
  // 1e-9 mm is a hundredth of the count sizes are kept in; a double near 88 mm resolves 1.4e-14 mm, six terms lose far less.
  for (const Definition& definition : catalogue().definitions) {
    const auto expansion = expand(definition, bore());
    if (!expansion.ok()) continue;
    const DrawEvaluator draws(expansion.value());
    EXPECT_LE(draws.cells_needed(), 6U);
    const bool ratio = definition.dimension == ResultDimension::ratio;
    for (int trial = 0; trial < 200; ++trial) {
      std::array<int, 6> um{};
      for (int k = 0; k < 6; ++k) um[static_cast<std::size_t>(k)] = scattered(6 * trial + k);
      const auto exact_sizes = sizes(um);
      std::array<double, 6> mm{};
      for (std::size_t k = 0; k < 6; ++k) mm[k] = exact_sizes[k]->to_double() / 1e7;
      const ExactValue exact = evaluate_exact(expansion.value(), exact_sizes);
      const auto drawn = draws.attain(mm);
      EXPECT_NEAR(drawn.value, exact.value.to_double() / (ratio ? 1.0 : 1e7), ratio ? 1e-12 : 1e-9) << definition.id;
      EXPECT_LT(drawn.item, expansion.value().forms.size());
      std::array<const double*, 6> by_cell{};
      for (std::size_t k = 0; k < 6; ++k) by_cell[k] = &mm[k];
      double many = 0.0;
      draws.evaluate_many(by_cell, {&many, 1});
      EXPECT_EQ(many, drawn.value) << definition.id;
    }
  }
}

TEST(DrawEvaluator, NamesTheAttainingForm) {
  const Expansion expansion = expand(*catalogue().definition("tap-5"), bore()).value();
  const std::array<double, 6> mm{88.01, 88.00, 88.02, 88.00, 88.00, 88.05};
  const auto drawn = DrawEvaluator(expansion).attain(mm);
  EXPECT_NEAR(drawn.value, 0.05, 1e-12);
  EXPECT_EQ(expansion.forms[drawn.item].where.directions, std::vector<std::size_t>{1});
}

TEST(DrawEvaluator, TooFewSizesAreOurMistake) {
  const Expansion expansion = expand(*catalogue().definition("tap-5"), bore()).value();
  const std::array<double, 2> two{88.0, 88.0};
  EXPECT_THROW(static_cast<void>(DrawEvaluator(expansion)(two)), InternalError);
}

}  // namespace
}  // namespace fettle
