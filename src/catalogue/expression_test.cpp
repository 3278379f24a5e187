#include "catalogue/expression.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

/// The node of `e` in "e = <text>".
DocumentNode node_of(const std::string& text) {
  const auto read = read_document("e = " + text + "\n", "definitions.toml");
  FETTLE_ASSERT(read.ok(), text);
  return *read.value().find("e");
}

/// "ok", or the codes in the order they were found.
std::string verdict(const std::string& text) {
  const DocumentNode node = node_of(text);
  const auto expression = read_expression(node);
  if (!expression.ok()) return expression.problems().front().code;
  const auto facts = check_expression(expression.value(), node.place);
  return facts.ok() ? "ok" : facts.problems().front().code;
}

ExpressionFacts facts(const std::string& text) {
  const DocumentNode node = node_of(text);
  return check_expression(read_expression(node).value(), node.place).value();
}

TEST(Expression, OneSidedOnesPass) {
  EXPECT_EQ(facts(R"(["max", "all", ["size"]])").sense, Sense::greatest);
  EXPECT_EQ(facts(R"(["min", "all", ["size"]])").sense, Sense::least);
  EXPECT_EQ(facts(R"(["mean", "all", ["size"]])").sense, Sense::linear);
  EXPECT_EQ(facts(R"(["max", "heights", ["range", "directions", ["size"]]])").sense, Sense::greatest);
  EXPECT_EQ(facts(R"(["difference", ["standard"], ["min", "all", ["size"]]])").sense, Sense::greatest);
  EXPECT_EQ(facts(R"(["factor", "-1", ["max", "all", ["size"]]])").sense, Sense::least);
  EXPECT_EQ(facts(R"(["max", "heights", ["amplitude", ["size"]]])").sense, Sense::amplitude);
  EXPECT_EQ(facts(R"(["mean", "directions", ["range", "heights", ["size"]]])").sense, Sense::greatest);
}

TEST(Expression, KnowsItsDimensionAndInputs) {
  const auto slope = facts(R"(["max", "directions", ["slope", ["range", "heights", ["size"]]]])");
  EXPECT_EQ(slope.dimension, ResultDimension::ratio);
  EXPECT_TRUE(slope.uses_depths);
  const auto ratio = facts(R"(["ratio", ["difference", ["max", "all", ["size"]], ["standard"]], ["nominal"]])");
  EXPECT_EQ(ratio.dimension, ResultDimension::ratio);
  EXPECT_TRUE(ratio.uses_standard && ratio.uses_nominal && !ratio.uses_depths);
}

TEST(Expression, HowFarApartIsTheGreatestOfBothDifferences) {
  EXPECT_EQ(facts(R"(["apart", ["place", "a"], ["place", "b"]])").sense, Sense::greatest);
  EXPECT_EQ(facts(R"(["difference", ["apart", ["place", "a"], ["place", "b"]], ["standard"]])").sense, Sense::greatest);
  EXPECT_EQ(facts(R"(["quotient", ["apart", ["place", "a"], ["place", "b"]], ["place", "c"]])").sense, Sense::formula);
  EXPECT_EQ(verdict(R"(["apart", ["max", "all", ["size"]], ["min", "all", ["size"]]])"), "catalogue.two_sided");
  EXPECT_EQ(verdict(R"(["min", "heights", ["apart", ["at", ["main"], ["size"]], ["at", ["cross"], ["size"]]]])"), "catalogue.two_sided");
  EXPECT_EQ(verdict(R"(["apart", ["place", "a"]])"), "catalogue.expression_form");
}

TEST(Expression, CosinesAreFormulas) {
  EXPECT_EQ(facts(R"(["cosine", ["place", "a"]])").sense, Sense::formula);
  EXPECT_TRUE(facts(R"(["arccosine", ["quotient", ["place", "a"], ["place", "b"]]])").any_dimension);
  EXPECT_EQ(verdict(R"(["cosine", ["max", "all", ["size"]]])"), "catalogue.two_sided");
  EXPECT_EQ(verdict(R"(["cosine"])"), "catalogue.expression_form");
}

TEST(Expression, WhatIsNeitherGreatestNorLeastIsRefused) {
  const char* code = "catalogue.two_sided";
  EXPECT_EQ(verdict(R"(["difference", ["max", "all", ["size"]], ["max", "all", ["size"]]])"), code);
  EXPECT_EQ(verdict(R"(["max", "directions", ["min", "heights", ["size"]]])"), code);
  EXPECT_EQ(verdict(R"(["min", "heights", ["range", "directions", ["size"]]])"), code);
  EXPECT_EQ(verdict(R"(["range", "heights", ["max", "directions", ["size"]]])"), code);
  EXPECT_EQ(verdict(R"(["min", "heights", ["amplitude", ["size"]]])"), code);
  EXPECT_EQ(verdict(R"(["factor", "2", ["max", "heights", ["amplitude", ["size"]]]])"), code);
}

TEST(Expression, ASizeNeedsOnePlace) {
  EXPECT_EQ(verdict(R"(["size"])"), "catalogue.open_size");
  EXPECT_EQ(verdict(R"(["max", "heights", ["size"]])"), "catalogue.open_size");
  EXPECT_EQ(verdict(R"(["at", ["inner", "main"], ["size"]])"), "catalogue.open_size");
  EXPECT_EQ(verdict(R"(["amplitude", ["size"]])"), "catalogue.open_size");
  EXPECT_EQ(verdict(R"(["at", ["first", "main"], ["size"]])"), "ok");
}

TEST(Expression, NothingIsClosedTwice) {
  EXPECT_EQ(verdict(R"(["max", "heights", ["max", "all", ["size"]]])"), "catalogue.nothing_open");
  EXPECT_EQ(verdict(R"(["max", "all", ["at", ["first"], ["size"]]])"), "catalogue.nothing_open");
  EXPECT_EQ(verdict(R"(["at", ["first", "main"], ["slope", ["size"]]])"), "catalogue.nothing_open");
}

TEST(Expression, LengthsAndRatiosDoNotMix) {
  EXPECT_EQ(verdict(R"(["difference", ["max", "all", ["size"]], ["ratio", ["standard"], ["nominal"]]])"),
            "catalogue.mixed_dimensions");
  EXPECT_EQ(verdict(R"(["ratio", ["ratio", ["max", "all", ["size"]], ["nominal"]], ["nominal"]])"), "catalogue.mixed_dimensions");
}

TEST(Expression, OnlyTheClosedSet) {
  EXPECT_EQ(verdict(R"(["plane", ["size"]])"), "catalogue.unknown_word");
  EXPECT_EQ(verdict(R"(["at", ["lng"], ["size"]])"), "catalogue.unknown_word");
  EXPECT_EQ(verdict(R"(["number", "0"])"), "catalogue.expression_form");
  EXPECT_EQ(verdict(R"(["length", "3"])"), "catalogue.expression_form");
  EXPECT_EQ(verdict(R"(["range", "all", ["product", ["size"], ["size"]]])"), "catalogue.two_sided");
  EXPECT_EQ(verdict(R"(["off-plane"])"), "catalogue.open_size");
  EXPECT_EQ(verdict(R"(["max", "all", ["twist"]])"), "catalogue.nothing_open");
  EXPECT_EQ(verdict(R"(["sum", ["place", "a"], ["quotient", ["place", "b"], ["number", "2"]]])"), "ok");
  EXPECT_EQ(verdict(R"(["median", "all", ["size"]])"), "catalogue.unknown_word");
  EXPECT_EQ(verdict(R"(["max", "sideways", ["size"]])"), "catalogue.unknown_word");
  // The foot of a bore never counts, so no definition can name it.
  EXPECT_EQ(verdict(R"(["at", ["reference", "main"], ["size"]])"), "catalogue.unknown_word");
  EXPECT_EQ(verdict(R"(["max", "all"])"), "catalogue.expression_form");
  EXPECT_EQ(verdict(R"("size")"), "catalogue.expression_form");
  EXPECT_EQ(verdict(R"(["factor", "0", ["max", "all", ["size"]]])"), "catalogue.expression_form");
  EXPECT_EQ(verdict(R"(["ratio", ["max", "all", ["size"]], ["min", "all", ["size"]]])"), "catalogue.expression_form");
}

}  // namespace
}  // namespace fettle
