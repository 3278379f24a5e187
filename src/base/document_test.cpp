#include "base/document.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TEST(Document, KeepsTextAndPlace) {
  const auto read = read_document("a = \"84.000 mm\"\n[[part]]\nid = \"bore-1\"\nn = 3\n", "job.toml");
  ASSERT_TRUE(read.ok());
  const auto* a = read.value().find("a");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(*a->text(), "84.000 mm");
  EXPECT_EQ(a->place, (Place{"job.toml", 1, 5}));
  const auto* parts = read.value().find("part")->array();
  ASSERT_EQ(parts->size(), 1U);
  EXPECT_EQ(*parts->front().find("id")->text(), "bore-1");
}

TEST(Document, BareDecimalIsMarkedAsSuch) {
  const auto read = read_document("a = 84.020\n", "job.toml");
  ASSERT_TRUE(read.ok());
  EXPECT_TRUE(std::holds_alternative<DocumentNode::BareFloat>(read.value().find("a")->value));
}

TEST(Document, SyntaxErrorHasItsPlace) {
  const auto read = read_document("a = 1\nb = \n", "job.toml");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems()[0].code, "document.syntax");
  EXPECT_EQ(read.problems()[0].place.line, 2);
}

TEST(Document, RefusesWhatNoEditorWrites) {
  EXPECT_EQ(read_document("a = \"\xff\"\n", "f").problems()[0].code, "document.not_utf8");
  EXPECT_EQ(read_document("a = " + std::string(1000, '['), "f").problems()[0].code, "document.too_deep");
  EXPECT_EQ(read_document(std::string(5U << 20U, 'x'), "f").problems()[0].code, "document.too_large");
}

TEST(Document, BracketsInTextsAndCommentsNestNothing) {
  const std::string brackets(100, '[');
  for (const std::string& text :
       {"a = \"" + brackets + "\"\n", "a = '" + brackets + "'\n", "a = \"\"\"\n" + brackets + "\n\\\"\"\"\"\n", "a = \'\'\'\n" + brackets + "\'\'\'\n",
        "a = 1 # " + brackets + "\n", "a = \"\\\"" + brackets + "\"\n", "# it's\na = \"" + brackets + "\"\n"}) {
    EXPECT_TRUE(read_document(text, "f").ok()) << text;
  }
  const std::string deep = std::string(40, '[') + std::string(40, ']') + "\n";
  for (const std::string& text : {"a = " + deep, "a = \"x\"\nb = " + deep, "a = '\\'\nb = " + deep, "a = \"\"\nb = " + deep, "# \"\na = " + deep}) {
    EXPECT_EQ(read_document(text, "f").problems().at(0).code, "document.too_deep") << text;
  }
}

TEST(Utf8, SurrogatesAndOverlongsAreNoText) {
  EXPECT_TRUE(is_utf8("84,02 µm ↺ ½"));
  EXPECT_FALSE(is_utf8("\xC0\x80"));
  EXPECT_FALSE(is_utf8("\xED\xA0\x80"));
  EXPECT_FALSE(is_utf8("\xE2\x82"));
  EXPECT_FALSE(is_utf8(std::string_view("\0", 1)));
}

TEST(Document, ControlCharactersAreFoundWhereverTheyStand) {
  for (const char* plain : {"", "Jürg Å.", "84,02 µm ↺ ½", "\xc2\xa0"}) EXPECT_FALSE(has_control_character(plain)) << plain;
  for (const char* with : {"a\n", "\tb", "a\x7f" "b", "\xc2\x85", "a\xc2\x9f"}) EXPECT_TRUE(has_control_character(with)) << with;
  EXPECT_TRUE(has_control_character(std::string_view("a\0", 2)));
}

}  // namespace
}  // namespace fettle
