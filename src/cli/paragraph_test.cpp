#include "cli/paragraph.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Paragraph, BreaksAtSpacesUnderItsLead) {
  const std::string seventy(70, 'a');
  // 5 + 70 + 1 + 4 are the 80 that fit; one letter more does not.
  EXPECT_EQ(paragraph("  1. ", seventy + " bbbb c"), "  1. " + seventy + " bbbb\n     c\n");
  EXPECT_EQ(paragraph("  1. ", seventy + " bbbbb"), "  1. " + seventy + "\n     bbbbb\n");
}

TEST(Paragraph, CountsCharactersAndKeepsWordsWhole) {
  std::string umlauts;
  for (int i = 0; i < 78; ++i) umlauts += "ü";
  EXPECT_EQ(paragraph("", umlauts + " b"), umlauts + " b\n");
  const std::string wide(100, 'w');
  EXPECT_EQ(paragraph("- ", "a " + wide + " b"), "- a\n  " + wide + "\n  b\n");
}

}  // namespace
}  // namespace fettle
