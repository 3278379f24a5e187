#include "form/shape_words.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

ShapeFinding finding(const std::vector<double>& sizes_mm, Feature feature = Feature::inside) {
  const std::vector<std::string> ids{"top", "mid", "bottom", "h4", "h5"};
  ShapeQuestion question{{}, "thrust", 0.004, feature, UnitId::millimetre};
  for (std::size_t i = 0; i < sizes_mm.size(); ++i) question.stations.push_back({ids[i], sizes_mm[i]});
  return shape_word(question);
}

ShapeWord shape(const std::vector<double>& sizes_mm) { return finding(sizes_mm).word; }

TEST(ShapeWord, TwiceTheUncertaintyIsStillEven) {
  EXPECT_EQ(shape({84.008, 84.000, 84.004}), ShapeWord::even);
  EXPECT_EQ(shape({84.009, 84.000, 84.000}), ShapeWord::tapering_to_last);
}

TEST(ShapeWord, EveryWord) {
  // K-01 thrust: 88.062, 88.048, 88.018.
  EXPECT_EQ(shape({88.062, 88.048, 88.018}), ShapeWord::tapering_to_last);
  EXPECT_EQ(shape({88.018, 88.048, 88.062}), ShapeWord::tapering_to_first);
  // K-01 pin: 88.041, 88.052, 88.026 bulges by .011 over the larger end.
  EXPECT_EQ(shape({88.041, 88.052, 88.026}), ShapeWord::barrel);
  EXPECT_EQ(shape({84.020, 84.000, 84.015}), ShapeWord::waist);
  EXPECT_EQ(shape({84.000, 84.020, 84.000, 83.980, 84.000}), ShapeWord::uneven);
  EXPECT_EQ(shape({84.040, 84.010, 84.025, 84.000}), ShapeWord::uneven);
}

TEST(ShapeWord, ABumpWithinTheDoubtIsTaper) {
  EXPECT_EQ(shape({84.040, 84.047, 84.010}), ShapeWord::tapering_to_last);
  EXPECT_EQ(shape({84.040, 84.020, 84.027, 84.000}), ShapeWord::tapering_to_last);
}

TEST(ShapeWord, TwoStationsCanOnlyTaper) {
  EXPECT_EQ(shape({84.040, 84.010}), ShapeWord::tapering_to_last);
  EXPECT_EQ(shape({84.010, 84.040}), ShapeWord::tapering_to_first);
}

TEST(ShapeWord, SaysItsFigures) {
  const Message message = finding({88.062, 88.048, 88.018}).message;
  EXPECT_EQ(message, (Message{"shape.tapering_to_last",
                              {word("direction", "direction.thrust"), decimal("difference", "0.0440", "mm"),
                               word("largest", "station.top"), word("smallest", "station.bottom")}}));
}

TEST(ShapeWord, AWaistedBoreIsBellMouthed) {
  EXPECT_EQ(finding({84.020, 84.000, 84.015}, Feature::inside).message.key, "shape.bell_mouthed");
  EXPECT_EQ(finding({84.020, 84.000, 84.015}, Feature::outside).message.key, "shape.waist");
}

}  // namespace
}  // namespace fettle
